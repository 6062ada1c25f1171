"""That the program begins, or ends with a sentence."""

import os
import subprocess
import sys

import pytest

linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Only on Linux.")


@linux
def test_the_command_ends_with_a_sentence_not_a_traceback():
    env = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
    env.pop("QT_QPA_PLATFORM", None)
    done = subprocess.run([sys.executable, "-m", "keeper"], env=env, capture_output=True, text=True, timeout=200)
    assert done.returncode == 1
    assert done.stderr.startswith("keeper: ") and "Traceback" not in done.stderr


def test_void_calls_into_qt_lose_no_reference():
    # PySide6 6.12.0 lost a reference to None with nearly every void call on
    # Python 3.11; after some thousands the process aborts.
    script = (
        "from PySide6.QtCore import QObject, QTimer\n"
        "thing = QObject(); timer = QTimer()\n"
        "for _ in range(5000): thing.setObjectName('x'); timer.setInterval(1); thing.blockSignals(False)\n"
        "import sys; print(sys.getrefcount(None) > 100)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=200)
    assert (done.returncode, done.stdout.strip()) == (0, "True")

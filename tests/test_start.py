"""What the program says when the system lacks something."""

import os
import subprocess
import sys

import pytest

from keeper import start
from keeper.errors import MissingLibrary

linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Only on Linux.")


@linux
def test_without_a_screen_it_says_so(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    with pytest.raises(MissingLibrary, match="no screen"):
        start.check_system()


@linux
def test_a_screen_that_is_not_there_is_said(monkeypatch):
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.delenv("QT_QPA_PLATFORM", raising=False)
    monkeypatch.setenv("DISPLAY", ":987")
    with pytest.raises(MissingLibrary, match=":987"):
        start.check_system()


def test_a_missing_library_names_the_package_to_install():
    said = start._missing("libEGL.so.1: cannot open shared object file: No such file or directory")
    assert "sudo apt install libegl1" in said and "Traceback" not in said


@linux
def test_a_missing_library_of_the_screen_is_found_before_qt_gives_up():
    with pytest.raises(MissingLibrary, match=r"libnothing\.so\.0.*apt install libnothing0"):
        start.PACKAGES["libnothing.so.0"] = ("libnothing0", "libnothing")
        try:
            start._check_libraries(("libnothing.so.0",))
        finally:
            del start.PACKAGES["libnothing.so.0"]


@linux
def test_the_command_ends_with_a_sentence_not_a_traceback():
    env = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
    env.pop("QT_QPA_PLATFORM", None)
    done = subprocess.run([sys.executable, "-m", "keeper"], env=env, capture_output=True, text=True, timeout=60)
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
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout.strip()) == (0, "True")

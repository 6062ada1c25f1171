"""What is brought in before one can type."""

import os
import subprocess
import sys

LISTED = """
import sys
from pathlib import Path
from keeper.window.frame import opening

app = opening.application()
frame = opening.make_frame(app, Path(sys.argv[1]))
frame.show()
opening._open_page(frame, None)
print(*sys.modules)
frame.close()
"""

AT_MOST = 80
"""Modules of the program; they may only get fewer."""


def test_little_is_brought_in_before_one_can_type(folder, store, write, tonight):
    write(tonight.replace(year=2025), "memory", "What looking back would find.")
    ran = subprocess.run([sys.executable, "-c", LISTED, str(folder)], capture_output=True, text=True, timeout=200,
                         env={**os.environ, "QT_QPA_PLATFORM": "offscreen"})  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    modules = set(ran.stdout.split())
    mine = {name for name in modules if name.split(".")[0] == "keeper"}
    assert "keeper.window.night.page" in mine and len(mine) <= AT_MOST, sorted(mine)
    not_yet = {"study", "exchange", "book", "actions.remembering", "window.frame.ribbon", "window.frame.start", "window.parts.photos"}
    assert not {f"keeper.{name}" for name in not_yet} & mine
    assert not {"numpy", "PIL", "PySide6.QtNetwork", "asyncio"} & modules

"""Another keeper's window: the program itself, started once more."""

import os
import subprocess
import sys
from contextlib import suppress
from pathlib import Path


def open_keeper(folder: Path) -> None:
    """Open the window of a keeper, by the program's usual way: one that is open comes forward."""
    with suppress(OSError):
        subprocess.Popen(
            [sys.executable, "-m", "keeper", "--in", os.fspath(folder), "open"], start_new_session=os.name == "posix",
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip

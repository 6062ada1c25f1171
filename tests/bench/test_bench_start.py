"""From the start of the process to a field one can type in, against a bare window.

The keeper has fifty years in it. With a screen (DISPLAY) real windows open,
else none are seen.
"""

import os
import subprocess
import sys
from pathlib import Path

TIMED = Path(__file__).with_name("start_timed.py")


def surroundings(folder: Path) -> dict[str, str]:
    """The keeper's folder, and modules compiled once, as they are where a program is installed."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "KEEPER_FOLDER": str(folder), "PYTHONPYCACHEPREFIX": str(folder.parent / "compiled")}



def opened(which: str, folder: Path) -> bool:
    """Open one in a process of its own; returns when it is ready."""
    process = subprocess.Popen([sys.executable, TIMED, which], stdout=subprocess.PIPE, text=True,
                               env=surroundings(folder))  # fmt: skip
    ready = process.stdout.readline() == "ready\n"
    _ending.append(process)
    return ready


_ending: list[subprocess.Popen] = []


def ended() -> None:
    """Wait until the last one has closed; its end is not measured."""
    while _ending:
        process = _ending.pop()
        process.stdout.close()
        assert process.wait(30) == 0


def test_from_start_to_typing(fifty, compared):
    # Once each, so that both find their files in the system's memory.
    for which in ("keeper", "bare"):
        assert opened(which, fifty)
        ended()
    compared("start to typing", lambda _: opened("keeper", fifty), lambda _: opened("bare", fifty), rounds=40,
             target=1.8, after=ended)  # fmt: skip


def test_from_start_to_typing_with_twenty_trackers(fifty, fifty_noted, compared):
    for folder in (fifty_noted, fifty):
        assert opened("keeper", folder)
        ended()
    compared("start with twenty trackers, against none", lambda _: opened("keeper", fifty_noted), lambda _: opened("keeper", fifty),
             rounds=15, target=1.05, after=ended)  # fmt: skip


def test_the_command_line(fifty, compared):
    shown = []

    def done(*command: str) -> None:
        shown.append(subprocess.run([sys.executable, *command], capture_output=True, text=True,
                                    env=surroundings(fifty)).stdout)  # fmt: skip

    compared("keeper show, against an empty Python", lambda _: done("-m", "keeper", "show", "2020-01-01"),
             lambda _: done("-c", "print()"), rounds=10)  # fmt: skip
    assert any("Wednesday 1 January 2020" in text for text in shown)

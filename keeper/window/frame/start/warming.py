"""Bringing in what the pages need while nobody types, so that their first visit does not wait for it."""

import ast
import gc
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from importlib import import_module
from itertools import takewhile
from pathlib import Path

from PySide6.QtCore import QObject

from keeper.window.desk.pages import PAGES
from keeper.window.desk.timers import every
from keeper.window.frame.quiet import Quiet

AHEAD = (
    *(page.module for page in PAGES),
    "settings.kinds", "settings.resting", "settings.backups", "settings.this_keeper",
    "photos.strip", "themes.theme", "places.place", "places.mending", "frame.go_to", "photos.full_view", "month.photo_choosing",
)  # fmt: skip
"""Modules of the window that are brought in ahead: the pages, and what is likely to be opened from them."""

WARM_EVERY, WARM_AFTER = 20, 300
"""Milliseconds from one turn to the next, and of quiet before the first and the next after a key."""

_A_TURN = 0.004
"""Seconds: no further module is begun in a turn that took so long; most take less than one millisecond."""

ASKED = ("keeper.actions.months.shown", "keeper.actions.photos.kept")
"""What pages bring in on a lane, when they ask; brought in ahead as well, so that the answer comes at once."""

_ROOT = Path(__file__).resolve().parents[4]

_AFTER_THE_HEAD = ("class ", "def ", "async ", "@")


class Warming(QObject):
    """Imports what the pages need, some modules in a turn, so that the first visit of a page need not; then does ``pieces``, one in a turn."""

    def __init__(self, quiet: Quiet, pieces: Iterable[Callable[[], object]] = ()) -> None:
        super().__init__(quiet)
        self._quiet, self._pieces = quiet, iter(pieces)
        # What is there already has brought in what it needs.
        self._names = _leaves_first((*(f"keeper.window.{page}" for page in AHEAD), *ASKED), set(sys.modules))
        self._timer = every(self, WARM_EVERY, self._some_more)
        self._timer.start()

    def _some_more(self) -> None:
        if not self._quiet.lasts(WARM_AFTER):
            return
        began = time.perf_counter()
        for name in self._names:
            import_module(name)
            if time.perf_counter() - began > _A_TURN:
                break
        else:
            if piece := next(self._pieces, None):
                piece()
                return
            self._timer.stop()
        # All this stays: to look through it for garbage would take as long as ten keys may.
        gc.freeze()


def _leaves_first(names: Iterable[str], seen: set[str]) -> Iterator[str]:
    """Modules of the program, each after those that it needs, as their text tells."""
    for name in (name for name in names if name.startswith("keeper.")):
        path = _ROOT.joinpath(*name.split(".")).with_suffix(".py")
        if name in seen or not path.is_file():
            continue
        seen.add(name)
        yield from _leaves_first(_needed(path), seen)
        yield name


def _needed(path: Path) -> Iterator[str]:
    # Imports stand at the head; to parse all the rest takes longer than to bring it in.
    head = takewhile(lambda line: not line.startswith(_AFTER_THE_HEAD), path.read_text("utf-8").splitlines())
    for node in ast.parse("\n".join(head)).body:
        if isinstance(node, ast.ImportFrom):
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)

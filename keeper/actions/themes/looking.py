"""Looking for themes beside an open window: in a process of its own where it takes long."""

from collections.abc import Callable

from keeper.actions.apart import Progress, apart
from keeper.actions.themes.making import NOTHING, REBUILD, look_again, rebuild_themes, themes_due
from keeper.actions.themes.splitting import Halves, halves
from keeper.clock import Clock
from keeper.store import Store, lines

MANY_LINES = 500
"""From so many lines on, laying decisions over the themes takes longer than bringing a process up."""


def look_apart(store: Store, clock: Clock, progress: Progress, stopped: Callable[[], bool], anew: bool = False) -> str:
    """``look_again``, or with ``anew`` ``rebuild_themes``, without holding other threads up; what was done."""
    due = REBUILD if anew else themes_due(store)
    if due == NOTHING or (due != REBUILD and lines.count(store) < MANY_LINES):
        return look_again(store, clock, progress, stopped)
    apart(store, _rebuild if anew else look_again, clock, progress=progress, stopped=stopped)
    return due


def halves_apart(store: Store, number: int) -> Halves:
    """``halves`` in the same way."""
    return apart(store, halves, number)


def _rebuild(store: Store, clock: Clock, progress: Progress, stopped: Callable[[], bool]) -> None:
    rebuild_themes(store, clock, progress, stopped)

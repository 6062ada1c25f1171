"""The themes of a book: looked for where they are not there yet or out of date."""

from collections.abc import Callable

from keeper.actions.theme_looking import look_apart
from keeper.actions.theme_making import NOTHING, themes_due
from keeper.clock import Clock
from keeper.errors import KeeperError, Stopped
from keeper.store import Store, lines, themes
from keeper.study.themes import ENOUGH

Progress = Callable[[float, str], None]


def due_for_book(store: Store) -> bool:
    """Whether themes have to be looked for, which takes some seconds."""
    return themes_due(store) != NOTHING


def look_for_book(store: Store, clock: Clock, progress: Progress, stopped: Callable[[], bool]) -> str:
    """Look for themes where that is due; the reason why a book has none, or "".

    What stands in the way of it stops no book. Raises Stopped.
    """
    try:
        look_apart(store, clock, lambda share, _: progress(share, "Looking for themes"), stopped)
    except Stopped:
        raise
    except KeeperError as problem:
        return f"Themes could not be looked for. {problem}"
    if any(theme.name for theme in themes.every(store)):
        return ""
    count, build = lines.count(store), themes.build(store)
    if build is None or (count < ENOUGH and not build.enough):
        return f"Themes can be found from {ENOUGH} lines on, and there {'is' if count == 1 else 'are'} {count}; they are left out."
    return "No theme stands out from chance yet; they are left out."

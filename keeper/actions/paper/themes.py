"""The themes of a book: looked for where they are not there yet or out of date."""

from keeper.actions.paper.job import Job
from keeper.actions.themes.looking import look_apart
from keeper.actions.themes.making import NOTHING, themes_due
from keeper.clock import Clock
from keeper.errors import KeeperError, Stopped
from keeper.review.book import BookParts
from keeper.store import Store, lines
from keeper.store.themes import found as themes
from keeper.study.themes.nouns import ENOUGH

_TAKES = 0.6
"""The share of the whole work that looking for themes takes, where that is due."""


def themes_for_book(store: Store, parts: BookParts, clock: Clock, job: Job) -> tuple[str, ...]:
    """Look for the themes that are wanted, where they are due; the reason why a book has none, or nothing.

    What stands in the way of looking stops no book. Raises Stopped.
    """
    job.check()
    if not parts.themes:
        return ()
    takes = _TAKES if themes_due(store) != NOTHING else 0.0
    try:
        look_apart(store, clock, lambda share, _: job.hears(share * takes, "Looking for themes"), job.stopped)
    except Stopped:
        job.check()
        raise
    except KeeperError as problem:
        return (f"Themes could not be looked for. {problem}",)
    job.begun = takes
    reason = _none(store)
    return (reason,) if reason else ()


def _none(store: Store) -> str:
    if any(theme.name for theme in themes.every(store)):
        return ""
    count, build = lines.count(store), themes.build(store)
    if build is None or (count < ENOUGH and not build.enough):
        there = f"there {'is' if count == 1 else 'are'} {count}"
        return f"Themes can be found from {ENOUGH} lines on, and {there}; they are left out."
    return "No theme stands out from chance yet; they are left out."

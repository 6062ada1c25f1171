"""When the level of a reading shifted, from what was noted."""

from collections.abc import Callable

from keeper.actions.apart import Progress, apart
from keeper.actions.courses.asked import Column, known, nights_of
from keeper.review.courses.changes import ChangesTold, changes_told
from keeper.store import Store
from keeper.study.patterns.changes import Level, levels


def changes_of(
    store: Store, reading_key: str, progress: Progress | None = None, stopped: Callable[[], bool] | None = None
) -> ChangesTold:
    """What is to be told of it. Raises UnknownThing.

    With ``progress`` the levels are sought in a process of their own: the library takes a second to come in. Raises
    Stopped as soon as ``stopped()`` says so.
    """
    (reading,) = known(store, reading_key)
    its = nights_of(store, (reading,))
    values = its.values[reading.key]
    found = apart(store, levels_in, values, progress=progress, stopped=stopped) if progress else levels(values)
    return changes_told(reading.tracker, its.first, values, found)


def levels_in(store: Store, values: Column, progress: Progress, stopped: Callable[[], bool]) -> tuple[Level, ...]:
    """The levels of a column, for a process of its own."""
    progress(0.1, "Looking for shifts")
    return levels(values)

"""Which readings are drawn on one axis: the person's choice."""

from collections.abc import Sequence

from keeper.errors import UnknownThing
from keeper.model import Act, Tracker
from keeper.review.readings.axes import MOST, can_share
from keeper.store import Store, trackers


def put_on_one_axis(store: Store, ids: Sequence[str]) -> None:
    """Draw two or three readings on one axis. Raises UnknownThing where they do not measure alike, or one has gone."""
    its = _known(store, ids)
    if not can_share(its):
        raise UnknownThing(f"Two or {MOST} readings that measure alike can share an axis; {_named(its)} cannot.")
    trackers.put_on_one_axis(store, [one.id for one in its], Act(f"{_named(its)} on one axis", "month"))


def stand_alone(store: Store, ids: Sequence[str]) -> None:
    """Draw readings each on an axis of its own again. Raises UnknownThing."""
    its = _known(store, ids)
    act = Act(f"{_named(its)} each on an axis of its own", "month")
    with store.writing(act):
        for one in its:
            trackers.put_on_one_axis(store, [one.id], act)


def shared(known: Sequence[Tracker]) -> tuple[tuple[Tracker, ...], ...]:
    """Those that share an axis, group by group."""
    groups: dict[str, list[Tracker]] = {}
    for one in known:
        if one.axis:
            groups.setdefault(one.axis, []).append(one)
    return tuple(tuple(group) for group in groups.values() if len(group) > 1)


def _known(store: Store, ids: Sequence[str]) -> list[Tracker]:
    its = [one for one in trackers.every(store) if one.id in ids]
    if len(its) != len(set(ids)):
        raise UnknownThing("What is to be drawn is no longer among the readings.")
    return its


def _named(its: Sequence[Tracker]) -> str:
    names = [one.name for one in its]
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else "".join(names)

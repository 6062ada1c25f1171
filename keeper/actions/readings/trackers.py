"""Which readings a person notes: begun, changed, ordered and ended."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from keeper.errors import UnknownThing
from keeper.model import Reading, Tracker
from keeper.store import Store, trackers

every = trackers.every
"""All trackers, ended ones too, in the person's order."""


@dataclass(frozen=True, slots=True)
class Noted:
    """A tracker and what was noted of it on a night; None for nothing."""

    tracker: Tracker
    reading: Reading | None = None


def in_force(store: Store, night: date) -> tuple[Tracker, ...]:
    """The trackers that are noted on a night, in the person's order."""
    return tuple(one for one in trackers.every(store) if one.in_force(night))


def of_night(store: Store, night: date) -> tuple[Noted, ...]:
    """The trackers of a night with what was noted; those too that were noted outside of their time."""
    noted = {one.tracker_id: one for one in trackers.readings(store, night, night)}
    its = (one for one in trackers.every(store) if one.in_force(night) or one.id in noted)
    return tuple(Noted(one, noted.get(one.id)) for one in its)


def named(known: Iterable[Tracker], name: str, what: str = "reading") -> Tracker:
    """The tracker of this name, capitals left aside; how it begins will do. Raises UnknownThing, saying ``what`` is sought."""
    sought, known = " ".join(name.split()).casefold(), list(known)
    same = [one for one in known if one.name.casefold() == sought]
    like = same or [one for one in known if sought and one.name.casefold().startswith(sought)]
    if len(like) == 1:
        return like[0]
    if like:
        raise UnknownThing(f"\u201c{name}\u201d could be {' or '.join(one.name for one in like)}.")
    there = f" There are: {', '.join(one.name for one in known)}." if known else ""
    raise UnknownThing(f"There is no {what} \u201c{name}\u201d.{there}")



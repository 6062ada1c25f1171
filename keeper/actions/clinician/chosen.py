"""What is chosen for the page for a clinician, and what can be."""

from dataclasses import dataclass
from datetime import date, timedelta

from keeper.actions.readings import on_nights
from keeper.errors import UnknownThing, UnreadableDate
from keeper.model import Tracker
from keeper.store import Store, trackers

USUAL = timedelta(90)
"""Before the last night, where no first one is said."""

MOST_READINGS = 16
"""So many have room on two pages."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """Between which nights, and of which trackers by their ids; in whatever order, they stand in the person's."""

    first: date
    last: date
    reading_ids: tuple[str, ...]
    patterns: bool = True


def offered(store: Store, first: date, last: date) -> tuple[Tracker, ...]:
    """The readings of which anything was noted between two nights, in the person's order; and marks, which may have been no.

    Of one that ended and was taken up again the last tracker stands for all.
    """
    its = trackers.noted_between(store, first, last)
    under_way = {one.id for one in trackers.every(store) if one.form == "mark" and one.began <= last and first <= (one.ended or last)}
    return tuple(course[-1] for course in on_nights.courses(store) if its and not (its | under_way).isdisjoint(one.id for one in course))


def check(chosen: Chosen) -> None:
    """Raises UnreadableDate for an end before the beginning, UnknownThing for no readings, or too many."""
    if chosen.last < chosen.first:
        raise UnreadableDate(f"The last night, {chosen.last.isoformat()}, comes before the first, {chosen.first.isoformat()}.")
    if not chosen.reading_ids:
        raise UnknownThing("Choose at least one reading.")
    if len(chosen.reading_ids) > MOST_READINGS:
        raise UnknownThing(f"{MOST_READINGS} readings have room on two pages; these are {len(chosen.reading_ids)}.")

"""Readings as columns: one value a night, all beginning with the same night."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import UnknownThing
from keeper.model import Reading, Tracker
from keeper.review.month_series import value_on
from keeper.store import Store, nights, trackers

Column = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """By a tracker's id its values from ``first`` on; None where nothing was noted."""

    first: date
    values: Mapping[str, Column]

    def night(self, number: int) -> date:
        """The night of a place in a column."""
        return self.first + timedelta(days=number)


@dataclass(frozen=True, slots=True)
class Asked:
    """What can be asked: marks and other readings that were ever noted, each name once."""

    marks: tuple[Tracker, ...]
    readings: tuple[Tracker, ...]


def what_can_be_asked(store: Store) -> Asked:
    """In the person's order. One that ended and was taken up again is asked by its latest."""
    latest = {_name(one): one for one in sorted(trackers.every(store), key=lambda one: one.began)}
    shown = [one for one in trackers.every(store) if latest[_name(one)] == one and any(_noted(store, kin) for kin in _kin(store, one))]
    marks, others = ([one for one in shown if (one.form == "mark") == of_marks] for of_marks in (True, False))
    return Asked(tuple(marks), tuple(others))


def known(store: Store, tracker_id: str) -> Tracker:
    """The tracker with this id. Raises UnknownThing."""
    found = trackers.by_id(store, tracker_id)
    if found is None:
        raise UnknownThing("That is no longer among the readings.")
    return found


def columns(store: Store, asked: Sequence[Tracker]) -> Columns:
    """The columns of some trackers, from the first night on which any was noted to the last on which anything was.

    Those of the same name, form, unit and scale are one column. On a night that was kept, a mark that was left empty is a no.
    """
    noted = {one.id: [(kin, _readings(store, kin)) for kin in _kin(store, one)] for one in asked}
    dates = [reading.night for its in noted.values() for _, of in its for reading in of]
    if not dates:
        return Columns(FIRST_NIGHT, {one.id: () for one in asked})
    first, last = min(dates), max(dates)
    kept: Iterable[date] = ()
    if any(one.form == "mark" for one in asked):
        # Nights on which the mark could have been set, after it last was, belong to it too.
        last = max(last, *trackers.nights_noted(store, first, LAST_NIGHT)[-1:])
        kept = nights.with_lines(store, first, last) | {*trackers.nights_noted(store, first, last)}
    return Columns(first, {one: _column(its, first, (last - first).days + 1, kept) for one, its in noted.items()})


def _column(its: Sequence[tuple[Tracker, Sequence[Reading]]], first: date, many: int, kept: Iterable[date]) -> Column:
    values: list[float | None] = [None] * many
    for tracker, of in its:
        for night in kept if tracker.form == "mark" else ():
            if tracker.in_force(night):
                values[(night - first).days] = 0.0
    for tracker, of in its:
        for reading in of:
            values[(reading.night - first).days] = value_on(tracker, reading.night, reading, True)
    return tuple(values)


def _kin(store: Store, tracker: Tracker) -> list[Tracker]:
    return [one for one in trackers.every(store) if _name(one) == _name(tracker)]


def _name(tracker: Tracker) -> tuple:
    ends = (tracker.low, tracker.high) if tracker.form == "scale" else ()
    return tracker.name.casefold(), tracker.form, tracker.unit, ends


def _noted(store: Store, tracker: Tracker) -> int:
    return trackers.noted(store, tracker.id)[0]


def _readings(store: Store, tracker: Tracker) -> tuple[Reading, ...]:
    return trackers.readings_of(store, tracker.id, FIRST_NIGHT, LAST_NIGHT)

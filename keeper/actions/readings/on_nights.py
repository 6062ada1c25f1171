"""The values of readings night by night; one that ended and was taken up again is one course."""

from collections.abc import Callable, Collection
from datetime import date

from keeper.model import Tracker
from keeper.store import Store, nights, trackers
from keeper.study.readings.measure import on_axis

Course = tuple[Tracker, ...]
"""Trackers that are the same reading, one after another: each but the last ended, and was taken up again."""


def courses(store: Store) -> tuple[Course, ...]:
    """All readings, in the person's order, each where its last tracker stands.

    Of one name, form, unit and scale is the same reading: the nights between
    the end and the beginning count as nothing.
    """
    found: dict[tuple, list[Tracker]] = {}
    every = trackers.every(store)
    for one in sorted(every, key=lambda one: one.began):
        found.setdefault(_same(one), []).append(one)
    return tuple(tuple(found[_same(one)]) for one in every if one is found[_same(one)][-1])


def _same(one: Tracker) -> tuple:
    ends = (one.low, one.high) if one.form == "scale" else ()
    return one.name.casefold(), one.form, one.unit, ends


def course_of(store: Store, tracker_id: str) -> Course:
    """The course that a tracker belongs to; () for one that is not there."""
    return next((its for its in courses(store) if any(one.id == tracker_id for one in its)), ())


def nights_kept(store: Store, first: date = date.min, last: date = date.max) -> frozenset[date]:
    """The nights of a span with a line, or any reading."""
    return nights.with_lines(store, first, last) | frozenset(trackers.nights_noted(store, first, last))


def values_on(
    store: Store, course: Course, kept: Callable[[], Collection[date]], first: date = date.min, last: date = date.max
) -> dict[date, float]:
    """The values of a reading by night, in the units and on the scale of now; nights without are left out.

    ``kept`` gives the nights of the span on which a mark left empty is a no
    while it is under way; it is asked for marks only.
    """
    found: dict[date, float] = {}
    for one in course:
        if one.form == "mark":
            found |= {night: 0.0 for night in kept() if first <= night <= last and one.in_force(night)}
        found |= trackers.values_as_now(store, one.id, first, last)
        found |= {other.night: on_axis(one, other) for other in trackers.readings_as_then(store, one.id, first, last)}
    return found

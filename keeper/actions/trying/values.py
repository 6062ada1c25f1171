"""One value a night of a reading, as a trying looks at them."""

from datetime import date, timedelta

from keeper.actions.readings import on_nights
from keeper.days import nights as every_night
from keeper.model import Tracker
from keeper.store import Store, trackers


def values(store: Store, tracker: Tracker, first: date, last: date) -> list[float | None]:
    """The values of a span of nights, in the tracker's unit and on its scale of today; None where nothing was noted."""
    return _in_a_row(store, (tracker,), first, last)


def past(store: Store, tracker: Tracker, before: date) -> list[float | None]:
    """The same from the first night that was noted to the one before a night, though it ended in between; [] for none."""
    course = on_nights.course_of(store, tracker.id)
    began = [first for one in course if (first := trackers.noted(store, one.id)[1]) is not None]
    if not began or min(began) >= before:
        return []
    return _in_a_row(store, course, min(began), before - timedelta(1))


def _in_a_row(store: Store, course: on_nights.Course, first: date, last: date) -> list[float | None]:
    found = on_nights.values_on(store, course, lambda: on_nights.nights_kept(store, first, last), first, last)
    return [found.get(night) for night in every_night(first, last)]

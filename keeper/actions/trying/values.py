"""One value a night of a reading, as a trying looks at them."""

from datetime import date, timedelta

from keeper.days import nights as every_night
from keeper.model import Tracker
from keeper.review.month_series import value_on
from keeper.store import Store, nights, trackers


def values(store: Store, tracker: Tracker, first: date, last: date) -> list[float | None]:
    """The values of a span of nights, on the tracker's axis of today; None where nothing was noted."""
    noted = {one.night: one for one in trackers.readings_of(store, tracker.id, first, last)}
    kept = nights.with_lines(store, first, last) | set(trackers.nights_noted(store, first, last)) if tracker.form == "mark" else set()
    return [value_on(tracker, night, noted.get(night), night in kept) for night in every_night(first, last)]


def past(store: Store, tracker: Tracker, before: date) -> list[float | None]:
    """The same from the first night that was noted to the one before a night; [] for none."""
    first = trackers.noted(store, tracker.id)[1]
    if first is None or first >= before:
        return []
    return values(store, tracker, first, before - timedelta(1))

"""The ribbon tinted by a reading instead of by place."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from keeper.actions.awake import awake
from keeper.actions.months.scales import highest_noted
from keeper.actions.readings import wording
from keeper.model import Tracker
from keeper.review.month_series import scale, value_on
from keeper.store import Store, nights, trackers


@dataclass(frozen=True, slots=True)
class Tint:
    """One reading through a year.

    ``shares`` say of each night that counts how high it stands on the scale
    from ``low`` to ``high``, 0 to 1; ``told`` says it in words. A night that
    was not noted is in neither.
    """

    tracker: Tracker
    shares: Mapping[date, float]
    told: Mapping[date, str]
    low: float
    high: float


def tint_of(store: Store, year: int, tracker_id: str) -> Tint | None:
    """What tints a year's ribbon; None where the tracker has gone, or names somebody who rests."""
    tracker = trackers.by_id(store, tracker_id)
    first, last = date(year, 1, 1), date(year, 12, 31)
    if tracker is None or not awake(store, first, last).text(tracker.name):
        return None
    noted = {one.night: one for one in trackers.readings_of(store, tracker_id, first, last)}
    low, high = scale(tracker, highest_noted(store, [tracker]).get(tracker_id, 0.0))
    shares, told = {}, {}
    for night in sorted({*noted, *(_kept(store, first, last) if tracker.form == "mark" else ())}):
        value = value_on(tracker, night, noted.get(night), kept=True)
        if value is not None:
            shares[night] = (min(max(value, low), high) - low) / (high - low)
            said = wording.value(tracker, noted[night]) if night in noted else wording.LEFT_EMPTY
            told[night] = f"{tracker.name} {said}"
    return Tint(tracker, shares, told, low, high)


def _kept(store: Store, first: date, last: date) -> set[date]:
    return {*nights.with_lines(store, first, last), *trackers.nights_noted(store, first, last)}


def can_tint(store: Store) -> tuple[Tracker, ...]:
    """The trackers that the ribbon can be tinted by, in the person's order."""
    rule = awake(store)
    return tuple(one for one in trackers.every(store) if rule.text(one.name))

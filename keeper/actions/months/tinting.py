"""The ribbon tinted by a reading instead of by place."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from keeper.actions.months.scales import highest_noted
from keeper.model import Tracker
from keeper.review.month_series import scale, value_on
from keeper.store import Store, nights, trackers


@dataclass(frozen=True, slots=True)
class Tint:
    """A year of one reading: for each night noted how high it stands on its scale (0 to 1), and the night in words."""

    tracker: Tracker
    shares: Mapping[date, float]
    told: Mapping[date, str]
    low: float
    high: float


def tint_of(store: Store, year: int, tracker_id: str) -> Tint | None:
    """What tints a year's ribbon; None when there is no such tracker, as when it rests or has gone."""


def can_tint(store: Store) -> tuple[Tracker, ...]:
    """The trackers that were ever noted, in the person's order."""

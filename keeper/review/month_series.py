"""A month's readings, night by night, on scales that are the same every month."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil, log10

from keeper.days import last_of_month, nights
from keeper.model import Reading, Tracker
from keeper.study.readings.measure import on_axis

USUAL_SLEEP = (7.0, 9.0)
"""Hours that adults usually sleep (Hirshkowitz et al., Sleep Health 1, 2015); shown, never advised."""

_SLEEP = ("sleep", "slept")


@dataclass(frozen=True, slots=True)
class Series:
    """A tracker's values by night of the month, on a scale that is the same every month.

    A value is None where nothing was noted. ``band`` is a quiet strip behind
    the values, or None.
    """

    tracker: Tracker
    values: tuple[float | None, ...]
    low: float
    high: float
    band: tuple[float, float] | None = None

    @property
    def noted(self) -> int:
        """On how many nights something was noted."""
        return sum(value is not None for value in self.values)


def month_series(
    trackers: Iterable[Tracker], readings: Iterable[Reading], month: date, highest: Mapping[str, float],
    kept: Collection[date] = frozenset(),
) -> tuple[Series, ...]:  # fmt: skip
    """The readings of a month, one series for each tracker under way in it, in the person's order.

    ``highest`` is the highest value ever noted of those that have no scale of
    their own; ``kept`` are nights with a line, on which an empty mark is a no.
    None when nothing at all was noted.
    """
    dates = list(nights(month.replace(day=1), last_of_month(month)))
    trackers = list(trackers)
    of = {one.id: one for one in trackers}
    values = {(one.tracker_id, one.night): on_axis(of[one.tracker_id], one) for one in readings if one.tracker_id in of}
    if not values:
        return ()
    made = []
    for tracker in trackers:
        under_way = tracker.began <= dates[-1] and (tracker.ended is None or tracker.ended >= dates[0])
        if under_way or any((tracker.id, night) in values for night in dates):
            row = tuple(_value(tracker, night, values, kept) for night in dates)
            made.append(Series(tracker, row, *scale(tracker, highest.get(tracker.id, 0.0)), band_of(tracker)))
    return tuple(made)


def _value(
    tracker: Tracker, night: date, values: Mapping[tuple[str, date], float], kept: Collection[date]
) -> float | None:
    noted = values.get((tracker.id, night))
    under_way = tracker.began <= night and (tracker.ended is None or night <= tracker.ended)
    return 0.0 if noted is None and tracker.form == "mark" and under_way and night in kept else noted


def scale(tracker: Tracker, highest: float) -> tuple[float, float]:
    """The lowest and highest value of a tracker's axis: the same whatever the month, and in the year.

    Hours are drawn from 0 to 12, or as far as they ever went.
    """
    if tracker.form == "mark":
        return 0.0, 1.0
    low = tracker.low if tracker.low is not None else 0.0
    if tracker.high is not None and tracker.high > low:
        return low, tracker.high
    if tracker.form == "hours":
        return low, max(12.0, float(ceil(highest)))
    return low, low + _round_above(max(highest - low, 1.0))


def _round_above(value: float) -> float:
    step = 10.0 ** ceil(log10(value) - 1) / 2
    return ceil(value / step) * step


def band_of(tracker: Tracker) -> tuple[float, float] | None:
    """The band behind the values: adults' usual sleep, for hours of sleep only."""
    sleep = tracker.form == "hours" and any(word in tracker.name.casefold() for word in _SLEEP)
    return USUAL_SLEEP if sleep else None

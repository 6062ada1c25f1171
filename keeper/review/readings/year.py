"""How a year's readings were, month by month and week by week."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping
from datetime import date, timedelta
from functools import cache

from keeper.model import Reading, Tracker
from keeper.review.month_series import scale
from keeper.review.year import YearReadings
from keeper.study.readings.measure import on_axis
from keeper.study.readings.spread import Spread, share, spread

MONTHS = 12


def year_readings(
    year: int, trackers: Iterable[Tracker], readings: Iterable[Reading], kept: Collection[date],
    highest: Mapping[str, float],
) -> tuple[YearReadings, ...]:  # fmt: skip
    """Each tracker that was noted in a year, and how it was then and in the year before.

    ``kept`` are the nights of which anything was kept: on these a mark that
    was not set is a no, while its tracker was under way. ``highest`` is the
    highest value ever noted of those that have no scale of their own.
    """
    noted: dict[str, list[Reading]] = defaultdict(list)
    for reading in readings:
        noted[reading.tracker_id].append(reading)
    by_year = {which: [night for night in kept if night.year == which] for which in (year, year - 1)}
    found = []
    for tracker in trackers:
        its = {one.night: on_axis(tracker, one) for one in noted.get(tracker.id, ())}
        if any(night.year == year for night in its):
            now, then = (_values(tracker, its, by_year[which], which) for which in (year, year - 1))
            ends = scale(tracker, highest.get(tracker.id, 0.0))
            found.append(YearReadings(
                tracker, _by(tracker, now, _month, MONTHS), _by(tracker, then, _month, MONTHS), *ends,
                _by(tracker, now, week, weeks(year)), _by(tracker, then, week, weeks(year - 1)),
            ))  # fmt: skip
    return tuple(found)


def week(night: date) -> int:
    """Which week of its year a night is in, from 1; the first and the last may be shorter than seven nights."""
    return (night.toordinal() - _monday_before(night.year)) // 7 + 1


@cache
def _monday_before(year: int) -> int:
    first = date(year, 1, 1)
    return first.toordinal() - first.weekday()


def weeks(year: int) -> int:
    """How many weeks, whole or in part, a year has: 53 or 54."""
    return week(date(year, 12, 31))


def week_begins(year: int, number: int) -> date:
    """The first night of a week that lies in the year."""
    first = date(year, 1, 1)
    return max(first, first + timedelta(days=7 * (number - 1) - first.weekday()))


def _month(night: date) -> int:
    return night.month


def _values(tracker: Tracker, its: Mapping[date, float], kept: Iterable[date], year: int) -> dict[date, float]:
    values = {night: value for night, value in its.items() if night.year == year}
    if tracker.form == "mark":
        return {night: 0.0 for night in kept if tracker.in_force(night)} | values
    return values


def _by(tracker: Tracker, values: Mapping[date, float], part: Callable[[date], int], count: int) -> tuple[Spread, ...]:
    parts: dict[int, list[float]] = defaultdict(list)
    for night, value in values.items():
        parts[part(night)].append(value)
    of = _share if tracker.form == "mark" else spread
    return tuple(of(parts.get(number, ())) for number in range(1, count + 1))


def _share(values: Collection[float]) -> Spread:
    return share(sum(1 for value in values if value), len(values))

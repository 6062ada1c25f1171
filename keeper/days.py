"""Nights, anniversaries and spans: pure calendar (proleptic Gregorian)."""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta, tzinfo

FIRST_NIGHT = date(1800, 1, 1)
"""No night lies before this day: paper goes back far, but not for ever."""

LAST_NIGHT = date(2999, 12, 31)
"""No night lies after this day: a slip of the finger, not a plan."""

_ONE = timedelta(days=1)


def night_of(local: datetime, rollover: int = 4) -> date:
    """The night to which a local moment belongs.

    Before the rollover hour (0 to 12) on the wall clock it is still the night
    of the day before. Only the wall clock counts, so a clock change or the
    date line neither loses nor doubles a night.
    """
    return local.date() - _ONE if local.hour < rollover else local.date()


def length(night: date, zone: tzinfo, rollover: int = 4) -> timedelta:
    """How long a night's day lasts in a zone, rollover to rollover.

    23 or 25 hours where the clocks change.
    """
    begins = datetime.combine(night, time(rollover), zone)
    ends = datetime.combine(night + _ONE, time(rollover), zone)
    # Aware datetimes of one zone subtract on the wall clock; offsets mend it.
    return (ends - begins) - (ends.utcoffset() - begins.utcoffset())


def anniversary(night: date, year: int) -> date:
    """The same day in another year; 29 February falls on the 28th if need be."""
    if night.month == 2 and night.day == 29 and not _is_leap(year):
        return date(year, 2, 28)
    return night.replace(year=year)


def same_day(night: date, other: date) -> bool:
    """Whether ``other`` is brought up on ``night``.

    29 February is brought up on 28 February in common years.
    """
    if (night.month, night.day) == (other.month, other.day):
        return True
    return (
        (other.month, other.day) == (2, 29)
        and (night.month, night.day) == (2, 28)
        and not _is_leap(night.year)
    )


def _is_leap(year: int) -> bool:
    # The library's module asks for the names of days and months, which takes longer than all else here.
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def days_apart(night: date, other: date) -> int:
    """Days between two dates of the year, year left aside: -182 to 182."""
    near = (anniversary(other, year) for year in (night.year - 1, night.year, night.year + 1))
    return min(((day - night).days for day in near), key=abs)


def first_of_month(day: date) -> date:
    """The first day of the month."""
    return day.replace(day=1)


def last_of_month(day: date) -> date:
    """The last day of the month."""
    return (day.replace(day=28) + timedelta(days=4)).replace(day=1) - _ONE


def next_month(day: date) -> date:
    """The first day of the month after."""
    return last_of_month(day) + _ONE


def last_month(day: date) -> date:
    """The first day of the month before."""
    return first_of_month(first_of_month(day) - _ONE)


def nights(first: date, last: date) -> Iterator[date]:
    """Each night from first to last, both included."""
    while first <= last:
        yield first
        first += _ONE

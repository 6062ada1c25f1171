"""A date written in numbers, and the nights a reading of one comes to."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.dates.spelling import ENGLISH_MONTHS, ENGLISH_WEEKDAYS
from keeper.days import FIRST_NIGHT, LAST_NIGHT, last_of_month
from keeper.errors import UnreadableDate


@dataclass(frozen=True, slots=True)
class Understood:
    """The nights that were meant, first and last: of a day both are the same.

    ``sure`` is False where the same could be read as another day.
    """

    first: date
    last: date
    sure: bool = True


def existing(year: int, month: int, day: int) -> date:
    """The day, if the calendar and the keeper have it. Raises UnreadableDate."""
    if not 1 <= month <= 12:
        raise UnreadableDate(f"There is no month {month}; months go from 1 to 12.")
    if year < FIRST_NIGHT.year:
        raise UnreadableDate(f"The year {year} is too early; nights begin in {FIRST_NIGHT.year}.")
    if year > LAST_NIGHT.year:
        raise UnreadableDate(f"The year {year} is too far ahead; nights end in {LAST_NIGHT.year}.")
    last = monthrange(year, month)[1]
    if not 1 <= day <= last:
        raise UnreadableDate(f"{ENGLISH_MONTHS[month - 1]} {year} has {last} days; there is no day {day}.")
    return date(year, month, day)


def of_day(night: date, weekday: int | None = None, sure: bool = True) -> Understood:
    """A night alone. Raises UnreadableDate for one the keeper does not have, or on another weekday."""
    night = existing(night.year, night.month, night.day)
    if weekday is not None and night.weekday() != weekday:
        told = f"{night.day} {ENGLISH_MONTHS[night.month - 1]} {night.year}"
        raise UnreadableDate(f"{told} is a {ENGLISH_WEEKDAYS[night.weekday()]}, not a {ENGLISH_WEEKDAYS[weekday]}.")
    return Understood(night, night, sure)


def of_month(first: date) -> Understood:
    """All nights of a month."""
    return Understood(first, last_of_month(first))


def of_year(year: int) -> Understood:
    """All nights of a year. Raises UnreadableDate for one the keeper does not have."""
    return Understood(existing(year, 1, 1), existing(year, 12, 31))


def latest(month: int, day: int, tonight: date, weekday: int | None = None) -> date:
    """The latest such day up to tonight, on that weekday if one is named. Raises UnreadableDate."""
    # After 28 years, or 40 over a century's turn, the weekdays have all come round.
    for year in range(tonight.year, tonight.year - 41, -1):
        try:
            night = existing(year, month, day)
        except UnreadableDate:
            continue
        if night <= tonight and weekday in (None, night.weekday()):
            return night
    return existing(tonight.year, month, day)


def latest_month(month: int, tonight: date, before: bool = False) -> Understood:
    """The latest such month: this one too, unless one ``before`` it is meant. Raises UnreadableDate."""
    still_to_come = month > tonight.month or (before and month == tonight.month)
    return of_month(existing(tonight.year - still_to_come, month, 1))


def latest_weekday(weekday: int, tonight: date, before: bool) -> Understood:
    """The latest such weekday: tonight too, unless one ``before`` it is meant."""
    back = (tonight.weekday() - weekday) % 7
    return of_day(tonight - timedelta(days=back or (7 if before else 0)))


def in_numbers(parts: list[str], tonight: date, order: str) -> Understood | None:
    """What one to three numbers mean where dates are written in this order; None when they are no date.

    Raises UnreadableDate for a day that does not exist.
    """
    lengths = [len(part) for part in parts]
    if lengths == [4]:
        return of_year(int(parts[0]))
    if len(parts) == 2 and 4 in lengths:
        year, month = parts if lengths[0] == 4 else parts[::-1]
        return of_month(existing(int(year), int(month), 1)) if len(month) < 3 else None
    return _one_of([_reading(parts, way, tonight) for way in _ways(lengths, order)]) if len(parts) > 1 else None


def _ways(lengths: list[int], order: str) -> list[str]:
    """The orders in which the parts may stand, the likeliest first."""
    if len(lengths) == 2:
        likeliest = "md" if order == "ymd" else order.replace("y", "")
        return [likeliest, likeliest[::-1]]
    if lengths[0] == 4:
        return ["ymd"]
    likeliest = "dmy" if order == "ymd" and lengths[2] == 4 else order
    return [likeliest, *(way for way in ("dmy", "mdy") if way != likeliest)]


def _reading(parts: list[str], way: str, tonight: date) -> date | UnreadableDate | None:
    said = dict(zip(way, parts, strict=True))
    year = whole_year(said.get("y", ""), tonight)
    if max(len(said["d"]), len(said["m"])) > 2 or (year is None and "y" in said):
        return None
    try:
        month, day = int(said["m"]), int(said["d"])
        return latest(month, day, tonight) if year is None else existing(year, month, day)
    except UnreadableDate as error:
        return error


def _one_of(readings: list[date | UnreadableDate | None]) -> Understood | None:
    nights = [reading for reading in readings if isinstance(reading, date)]
    if nights:
        return of_day(nights[0], sure=len(set(nights)) == 1)
    for reading in readings:
        if reading is not None:
            raise reading
    return None


def whole_year(year: str, tonight: date) -> int | None:
    """A year of four figures; one of two is the latest up to next year; None for any other."""
    if len(year) != 2:
        return int(year) if len(year) == 4 else None
    near = tonight.year // 100 * 100 + int(year)
    return near if near <= tonight.year + 1 else near - 100

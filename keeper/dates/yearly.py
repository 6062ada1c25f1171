"""On which day something of every year falls."""

from datetime import date

from keeper.days import anniversary

_SOON = 7
"""So many days before it a day is told."""


def falls(month: int, day: int, after: bool, year: int) -> date:
    """The day of a year; 29 February of common years is the 28th, or 1 March if it is to fall ``after``."""
    if (month, day) != (2, 29):
        return date(year, month, day)
    there = anniversary(date(2000, 2, 29), year)
    return date(year, 3, 1) if after and there.day == 28 else there


def coming(month: int, day: int, after: bool, tonight: date) -> date:
    """The next such day, tonight's own included."""
    this_year = falls(month, day, after, tonight.year)
    return this_year if this_year >= tonight else falls(month, day, after, tonight.year + 1)


def is_soon(there: date, tonight: date) -> bool:
    """Whether a day is today, or within the week to come."""
    return 0 <= (there - tonight).days <= _SOON

"""A day of the year as a person types it, with or without the year."""

import re
from datetime import date
from typing import NamedTuple

from keeper.dates.calendars import GREGORIAN, converted
from keeper.dates.spelling import ENGLISH, Spelling, in_plain_figures
from keeper.dates.typed import understood
from keeper.errors import UnreadableDate


class TypedDay(NamedTuple):
    """A day in the Gregorian calendar; no ``year`` where none was given. ``typed``: how it was said in another calendar."""

    month: int
    day: int
    year: int | None
    typed: str = ""


def typed_day(typed: str, tonight: date, spelling: Spelling = ENGLISH, calendar: str = GREGORIAN) -> TypedDay:
    """The day that was meant. Raises UnreadableDate for what is none, for a whole month, and for days there are not."""
    if calendar != GREGORIAN:
        found = converted(typed, calendar)
        return TypedDay(found.month, found.day, found.year, f"{' '.join(typed.split())}, {calendar}")
    # What is said without a year is another one with another tonight; both of these know a 29 February before them.
    leap = tonight.year + 4 - tonight.year % 4
    one, other = (_single(typed, night, spelling) for night in (date(leap, 12, 31), date(leap + 4, 12, 30)))
    told = len(re.findall(r"\d+", in_plain_figures(typed))) >= 3 or one == other or (one.month, one.day) != (other.month, other.day)
    if not told:
        return TypedDay(one.month, one.day, None)
    meant = _single(typed, tonight, spelling)
    return TypedDay(meant.month, meant.day, meant.year)


def _single(typed: str, tonight: date, spelling: Spelling) -> date:
    meant = understood(typed, tonight, spelling)
    if meant.first != meant.last:
        raise UnreadableDate("A day to remember needs its day and month, such as 12 March or 12 March 1958.")
    return meant.first

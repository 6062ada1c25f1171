"""Dates of other calendars, each turned once into one of the Gregorian calendar, by convertdate."""

import re
from datetime import date
from importlib import import_module

from keeper.dates.spelling import in_plain_figures, same
from keeper.errors import UnreadableDate

OTHERS = {"Coptic": "coptic", "Hebrew": "hebrew", "Islamic, civil": "islamic", "Julian": "julian", "Persian": "persian"}
"""The calendars, and how the library calls each."""

GREGORIAN = "Gregorian"

_JULIAN_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
                  "November", "December")  # fmt: skip
_PARTS = re.compile(r"[^\W\d_][^\d,./]*|\d+")
_SHORTEST = 3


def converted(typed: str, calendar: str) -> date:
    """The Gregorian day of a date of another calendar: a day, a month (its number or its name) and a year.

    Months are numbered as the library has them: the Hebrew ones from Nisan.
    Raises UnreadableDate for what is none, and for days that the calendar does not have.
    """
    its = import_module(f"convertdate.{OTHERS[calendar]}")
    months = getattr(its, "MONTHS", _JULIAN_MONTHS)
    day, month, year = _parts(typed, calendar, months)
    try:
        found = tuple(its.to_gregorian(year, month, day))
        # Some take any number for a day and go on counting.
        if tuple(its.from_gregorian(*found)) != (year, month, day):
            raise ValueError
        return date(*found)
    except (ValueError, IndexError, OverflowError):
        raise UnreadableDate(f"The {calendar} calendar has no day \u201c{typed.strip()[:40]}\u201d.") from None


def _parts(typed: str, calendar: str, months: tuple[str, ...] | list[str]) -> tuple[int, int, int]:
    parts = [part.strip() for part in _PARTS.findall(in_plain_figures(typed))]
    names = [part for part in parts if not part.isdigit()]
    numbers = [int(part) for part in parts if part.isdigit() and len(part) < 5]
    if len(parts) == 3 and len(names) == 1 and len(numbers) == 2:
        first, last = numbers
        return (last, _named(names[0], calendar, months), first) if first > 31 else (first, _named(names[0], calendar, months), last)
    if len(parts) == 3 and len(numbers) == 3:
        return tuple(reversed(numbers)) if numbers[0] > 31 else tuple(numbers)
    raise UnreadableDate(
        f"\u201c{typed.strip()[:40]}\u201d is no date of the {calendar} calendar. Write day, month and year, such as 5 {months[0]} 1360."
    )


def _named(name: str, calendar: str, months: tuple[str, ...] | list[str]) -> int:
    wanted = _plain(name)
    known = [_plain(one) for one in months]
    if wanted in known:
        return known.index(wanted) + 1
    found = [number for number, one in enumerate(known, 1) if len(wanted) >= _SHORTEST and one.startswith(wanted)]
    if len(found) != 1:
        raise UnreadableDate(f"The {calendar} calendar has no month \u201c{name[:40]}\u201d. Its months are {', '.join(months)}.")
    return found[0]


def _plain(name: str) -> str:
    return re.sub(r"[^a-z]", "", same(name))

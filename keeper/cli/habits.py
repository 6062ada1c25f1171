"""How the system of who gave the command writes numbers and dates."""

import locale
from datetime import date
from functools import cache

from keeper.dates.written import Habits

_SAMPLE = date(2001, 12, 27)


@cache
def habits() -> Habits:
    """The system's habits; those of English where it names none, or one that is not installed."""
    before = locale.setlocale(locale.LC_ALL)
    try:
        locale.setlocale(locale.LC_ALL, "")
        return told(locale.localeconv(), _SAMPLE.strftime("%x"), _SAMPLE.strftime("%c"))
    except (locale.Error, ValueError):
        return Habits()
    finally:
        # Only asked: what is set for a whole process would change how others write.
        locale.setlocale(locale.LC_ALL, before)


def told(signs: dict, short: str, whole: str) -> Habits:
    """Habits from what ``locale.localeconv`` tells, and 27 December 2001 as the system writes it, short and with the hour.

    A system that writes the year first in numbers may still write the day before the month in words.
    """
    written = whole if short.startswith(("2001", "01")) else short
    month, day = (written.find(part) for part in ("12", "27"))
    thousands, decimal = signs.get("thousands_sep") or "", signs.get("decimal_point") or "."
    if not thousands and decimal == ".":
        return Habits(month_first=_first(month, day, short))
    return Habits(thousands, decimal, 4, _first(month, day, short))


def _first(month: int, day: int, short: str) -> bool:
    # Python's own "C" writes 12/27/01, and means no country by it.
    return 0 <= month < day and short != _SAMPLE.strftime("%m/%d/%y")

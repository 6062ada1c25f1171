"""Days as cards spell them: date-and-or-time of RFC 6350 (4.3.4), and the longer forms of earlier versions."""

import re
from datetime import date

_WHOLE = re.compile(r"(\d{4})-?(\d{2})-?(\d{2})")
_NO_YEAR = re.compile(r"--(\d{2})-?(\d{2})")
_PART = re.compile(r"(\d{4})(?:-(\d{2}))?|--(\d{2})|---(\d{2})")


class NotADay(ValueError):
    """What is told is no day of a year; str(error) ends the sentence "its birthday ..."."""


def day_from(value: str, left_out: str = "") -> tuple[int, int, int | None]:
    """Month, day, and the year or None, from a value of BDAY or ANNIVERSARY; the hour is left aside.

    ``left_out`` is a year that stands for none. Raises NotADay.
    """
    told = value.strip().partition("T")[0] if not value.strip().startswith("T") else ""
    if found := _WHOLE.fullmatch(told):
        year, month, day = map(int, found.groups())
        return *_checked(year, month, day), None if found[1] == left_out or year == 0 else year
    if found := _NO_YEAR.fullmatch(told):
        return *_checked(2000, int(found[1]), int(found[2])), None
    if _PART.fullmatch(told):
        raise NotADay(f"is \u201c{_shown(value)}\u201d, which tells no day")
    raise NotADay(f"is \u201c{_shown(value)}\u201d, which is no date")


def _shown(value: str) -> str:
    """A value within a sentence: in one row, and none of it plays tricks."""
    return "".join(letter if letter.isprintable() else "\ufffd" for letter in " ".join(value.split())[:40])


def _checked(year: int, month: int, day: int) -> tuple[int, int]:
    try:
        date(year or 2000, month, day)
    except ValueError:
        raise NotADay("is a day that there is not") from None
    return month, day


def spelt(month: int, day: int, year: int | None) -> str:
    """A day as RFC 6350 spells it (4.3.1): 19600229, or --0229 without a year."""
    return f"{year:04}{month:02}{day:02}" if year else f"--{month:02}{day:02}"

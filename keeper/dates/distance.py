"""How far apart two days are, as one would say it."""

from datetime import date, timedelta
from typing import NamedTuple

from keeper.days import anniversary, last_of_month

IN_WORDS = (
    "no", "a", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
"""Higher counts are written in digits."""

SHORT_OF = 7
"""So many days before a round number of years it is called that less days."""


class Span(NamedTuple):
    """Whole years, then whole months, then days."""

    years: int
    months: int
    days: int


def span(earlier: date, later: date) -> Span:
    """The calendar's distance from one day to another that is not before it.

    A day that a month does not have falls on its last: 29 February has its
    year full on the 28th of common years, 31 January its month on 28 February.
    Raises ValueError if ``later`` is before ``earlier``.
    """
    if later < earlier:
        raise ValueError("the later day lies before the earlier one")
    months = (later.year - earlier.year) * 12 + later.month - earlier.month
    if _months_on(earlier, months) > later:
        months -= 1
    return Span(months // 12, months % 12, (later - _months_on(earlier, months)).days)


def apart(earlier: date, later: date) -> str:
    """Such as "a day", "three years", "three years and a day" or "three years less two days".

    From a month on, what is not round is told in years, months and days.
    Raises ValueError if ``later`` is before ``earlier``.
    """
    whole = span(earlier, later)
    short = _short_of_years(earlier, whole.years + 1, later)
    if short:
        return f"{_counted(whole.years + 1, 'year')} less {_counted(short, 'day')}"
    parts = [_counted(n, name) for n, name in zip(whole, ("year", "month", "day"), strict=True) if n]
    if not parts:
        return "no days"
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if parts[1:] else parts)


def years_on(earlier: date, later: date) -> str:
    """Such as "Three years and a day on". Raises ValueError if ``later`` is before ``earlier``."""
    told = apart(earlier, later)
    return f"{told[:1].upper()}{told[1:]} on"


def _short_of_years(earlier: date, years: int, later: date) -> int:
    """How many days are missing to so many years, if few, else 0."""
    if earlier.year + years > date.max.year:
        return 0
    missing = anniversary(earlier, earlier.year + years) - later
    return missing.days if missing <= timedelta(days=SHORT_OF) else 0


def _months_on(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    first = date(year, month + 1, 1)
    return first.replace(day=min(day.day, last_of_month(first).day))


def _counted(n: int, name: str) -> str:
    return f"{IN_WORDS[n] if n < len(IN_WORDS) else n} {name}{'' if n == 1 else 's'}"

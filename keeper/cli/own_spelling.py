"""How dates are written under the system's locale, as the C library knows it."""

import locale
import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from functools import cache

from keeper.dates.spelling import ENGLISH, Spelling, order_of

_MONTH_FIRST = ("US", "PH", "FM", "PW", "MH")
_YEAR_FIRST = ("sv", "ja", "zh", "ko", "hu", "lt", "mn", "fa", "eu", "dz", "si")


@cache
def own_spelling() -> Spelling:
    """The way of the system. Where its locale is not installed, its name still tells the order."""
    named = next((os.environ[name] for name in ("LC_ALL", "LC_TIME", "LANG") if os.environ.get(name)), "")
    language, _, country = named.split(".")[0].split("@")[0].partition("_")
    with _in_force() as found:
        if found.split(".")[0] in ("C", "POSIX", ""):
            return Spelling(_usual_order(language, country), language=language) if country else ENGLISH
        return Spelling(order_of(_shown(date(2031, 12, 25)), "31", "12", "25"), _names("month"), _names("weekday"), language)


def _usual_order(language: str, country: str) -> str:
    return "mdy" if country in _MONTH_FIRST else "ymd" if language in _YEAR_FIRST else "dmy"


def _shown(day: date) -> str:
    # Some name the month even in their short form.
    return day.strftime("%x").replace(day.strftime("%B"), "12").replace(day.strftime("%b"), "12")


def _names(what: str) -> tuple[tuple[str, ...], ...]:
    days = [date(2001, month, 1) for month in range(1, 13)] if what == "month" else [date(2001, 1, day) for day in range(1, 8)]
    forms = ("%B", "%b", "%OB") if what == "month" else ("%A", "%a")
    return tuple(tuple(dict.fromkeys(name for form in forms if (name := _name(day, form)))) for day in days)


def _name(day: date, form: str) -> str:
    try:
        return day.strftime(form)
    except ValueError:
        # The month by itself, for languages that bend it beside a day; not every C library has it.
        return ""


@contextmanager
def _in_force() -> Iterator[str]:
    """Dates in the person's own language for a while; the name of it."""
    before = locale.setlocale(locale.LC_TIME)
    try:
        found = locale.setlocale(locale.LC_TIME, "")
    except locale.Error:
        found = "C"
    try:
        yield found
    finally:
        locale.setlocale(locale.LC_TIME, before)

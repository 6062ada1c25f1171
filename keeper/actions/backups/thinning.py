"""Which backups stay: many of the last days, fewer of the time before, one of every year for ever."""

from collections.abc import Callable, Iterable
from datetime import date

DAYS, WEEKS, MONTHS = 7, 4, 12
"""Of how many of the last days, weeks and months that have a backup the newest one stays."""


def kept(days: Iterable[date]) -> frozenset[date]:
    """Of the days with a backup, those whose backup stays; the newest day is always among them.

    Told of one new day at a time it keeps the same as told of all at once.
    """
    newest_first = sorted(set(days), reverse=True)
    rules: tuple[tuple[Callable[[date], object], int | None], ...] = (
        (date.toordinal, DAYS), (lambda day: day.isocalendar()[:2], WEEKS),
        (lambda day: (day.year, day.month), MONTHS), (lambda day: day.year, None),
    )  # fmt: skip
    return frozenset(day for part, many in rules for day in _newest_of_each(newest_first, part)[:many])


def _newest_of_each(newest_first: list[date], part: Callable[[date], object]) -> list[date]:
    found: dict[object, date] = {}
    for day in newest_first:
        found.setdefault(part(day), day)
    return list(found.values())

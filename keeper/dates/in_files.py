"""Dates as they stand in files: a whole column in one order, with or without the hour, quickly."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, tzinfo

from keeper.dates import typed
from keeper.dates.many_languages import understanding
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.days import FIRST_NIGHT, LAST_NIGHT, night_of
from keeper.errors import UnreadableDate

ORDERS = ("dmy", "mdy", "ymd")

_NUMBERS = re.compile(r"\s*(\d{1,4})\s*[-/.\u2010-\u2015 ]\s*(\d{1,2})\s*[-/.\u2010-\u2015 ]\s*(\d{1,4})\s*\.?")
_HOUR = re.compile(
    r"(?P<day>.*\d.*?)(?:\s*,\s*|\s+|T)(?:at |um |kl\.? ?|à )?(?P<h>\d{1,2})[:.h](?P<m>\d\d)(?::\d\d(?:[.,]\d{1,9})?)?"
    r"\s*(?P<half>[ap]\.?m\.?)?\s*(?P<zone>Z|[+-]\d\d:?\d\d)?",
    re.IGNORECASE,
)
_COMPACT = re.compile(r"(\d{4})(\d\d)(\d\d)")
_YEAR = re.compile(r"(?<!\d)\d{4}(?!\d)|['\u2019]\d\d\b|\d[年년]")
_LONGEST = 60
_REMEMBERED = 4000


def order_of(spelt: Iterable[str], usual: str) -> tuple[str, bool]:
    """In which order dates in numbers stand, and whether that is sure; ``usual`` where nothing tells.

    Of the orders in which the most of them are days of the calendar the usual one is meant.
    """
    numbers = [tuple(map(int, found.groups())) for text in spelt if (found := _NUMBERS.match(text[:_LONGEST]))]
    asked = [one for one in dict.fromkeys(numbers) if one[0] < 1000]
    if not asked:
        return usual, True
    fitting = {order: sum(_exists(one, order) for one in asked) for order in dict.fromkeys((usual, *ORDERS))}
    most = max(fitting.values())
    best = [order for order, many in fitting.items() if many == most]
    return best[0], len(best) == 1


def _exists(numbers: tuple[int, ...], order: str) -> bool:
    said = dict(zip(order, numbers, strict=True))
    if said["y"] > 99 and said["y"] < FIRST_NIGHT.year:
        return False
    try:
        date(said["y"] if said["y"] > 99 else 2000 + said["y"], said["m"], said["d"])
    except ValueError:
        return False
    return True


@dataclass
class DatesInFile:
    """Understands the dates of one file, in one order.

    A time of day before the ``rollover`` hour belongs to the night before;
    midnight to the minute says nothing, since programs write it where no time
    is known. A time in UTC is taken to the ``zone``.
    """

    order: str
    tonight: date
    own: Spelling = ENGLISH
    rollover: int = 4
    zone: tzinfo = UTC
    _known: dict[str, date | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._spelling = understanding(self.own, self.order)

    def night(self, spelt: str) -> date | None:
        """The night that is meant; None for what is no date, or no single day."""
        if len(spelt) == 10 and spelt[4] == "-" == spelt[7]:
            # Nearly all files: not to be looked at twice.
            try:
                night = date.fromisoformat(spelt)
            except ValueError:
                return None
            return night if FIRST_NIGHT <= night <= LAST_NIGHT else None
        if len(spelt) > _LONGEST or not spelt:
            return None
        if spelt not in self._known:
            if len(self._known) > _REMEMBERED:
                self._known.clear()
            self._known[spelt] = self._understood(spelt)
        return self._known[spelt]

    def _understood(self, spelt: str) -> date | None:
        hour = _HOUR.fullmatch(spelt)
        if hour and (day := self._day(hour["day"])):
            return self._with_hour(day, hour)
        return self._day(spelt)

    def _day(self, spelt: str) -> date | None:
        found = _NUMBERS.fullmatch(spelt) or _COMPACT.fullmatch(spelt)
        if found:
            return self._in_numbers(*found.groups())
        meant = self.span(spelt)
        return meant[0] if meant and meant[0] == meant[1] else None

    def span(self, spelt: str) -> tuple[date, date] | None:
        """The first and the last night of a day, a month or a year; None for what is none, or does not say of which year."""
        # "Yesterday", or a day without a year, says nothing in a file.
        if len(spelt) > _LONGEST or not _YEAR.search(spelt):
            return None
        try:
            meant = typed.understood(spelt, self.tonight, self._spelling)
        except (UnreadableDate, ValueError, OverflowError):
            return None
        return meant.first, meant.last

    def _in_numbers(self, *numbers: str) -> date | None:
        order = "ymd" if len(numbers[0]) == 4 else "dmy" if self.order == "ymd" and len(numbers[2]) == 4 else self.order
        said = dict(zip(order, numbers, strict=True))
        if len(said["y"]) not in (2, 4) or max(len(said["m"]), len(said["d"])) > 2:
            return None
        year = int(said["y"])
        if len(said["y"]) == 2:
            century = self.tonight.year // 100 * 100
            year += century if century + year <= self.tonight.year + 1 else century - 100
        try:
            night = date(year, int(said["m"]), int(said["d"]))
        except ValueError:
            return None
        return night if FIRST_NIGHT <= night <= LAST_NIGHT else None

    def _with_hour(self, day: date, hour: re.Match) -> date | None:
        hours, minutes = int(hour["h"]), int(hour["m"])
        if hour["half"]:
            hours = hours % 12 + (12 if hour["half"][0] in "pP" else 0)
        if hours > 23 or minutes > 59:
            return None
        moment = datetime.combine(day, time(hours, minutes))
        if hour["zone"] and (hour["zone"] in "zZ" or not hour["zone"].strip("+-0:")):
            moment = moment.replace(tzinfo=UTC).astimezone(self.zone)
        night = day if moment.tzinfo is None and not hours + minutes else night_of(moment, self.rollover)
        return night if FIRST_NIGHT <= night <= LAST_NIGHT else None

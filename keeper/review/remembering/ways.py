"""Ways beside the date by which earlier nights are brought up, and which night of many each brings.

Spacing. On its own date each night of every earlier year comes up, so a line
that does not rest has its evening once a year, if one looks back on that
evening. The ways beside the date each
bring one night, that of their nights which was not brought up for the longest
(by whatever way; never before first): none comes a second time by a way until
all others of that way have come since.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from zlib import crc32

from keeper.dates.written import WEEKDAYS
from keeper.model import Night

WEEKDAY, PLACE, PERSON, QUESTION, FIRST, THING, UNSEEN = "weekday", "place", "person", "question", "first", "thing", "unseen"

CALLED = {
    WEEKDAY: "this weekday and week", PLACE: "this place", PERSON: "this person", QUESTION: "this month\u2019s question",
    FIRST: "the first of a year", THING: "things done over and over",
}  # fmt: skip
"""The ways that can be left out, in their order, as they are told of; UNSEEN has a setting of its own."""

LATELY = timedelta(days=60)
"""What was lived so shortly ago needs no bringing up."""

SPACED = (
    "Each night comes up on its date. The others are, each in its way, those not brought up for the longest; what came up lately "
    "waits its turn."
)  # fmt: skip
"""Said on the page."""


Pool = Mapping[date, str]
"""The nights that a way may bring up, and what is said of each."""


@dataclass(frozen=True, slots=True)
class WayBack:
    """One night that a way brings up, and why, in words."""

    name: str
    told: str
    night: Night


@dataclass(frozen=True, slots=True)
class WaysBack:
    """What the ways bring up on a night, and which ways the person left out."""

    night: date
    found: tuple[WayBack, ...] = ()
    left_out: tuple[str, ...] = ()


def in_turn(nights: Iterable[date], last: Mapping[date, date]) -> list[date]:
    """The nights as their turn comes: that which was brought up longest ago first.

    ``last`` is when each was, none for never. Of those that were as long ago
    no year is before another.
    """
    return sorted(nights, key=lambda night: (last.get(night, date.min), crc32(night.isoformat().encode())))


def same_weekday(tonight: date, first_year: int) -> tuple[date, ...]:
    """This weekday of this week (ISO 8601) in earlier years from ``first_year`` on; a week 53 is not in every year."""
    _, week, weekday = tonight.isocalendar()
    found = []
    for year in range(first_year, tonight.isocalendar().year):
        try:
            found.append(date.fromisocalendar(year, week, weekday))
        except ValueError:
            continue
    return tuple(found)


def firsts_of_years(marked: Iterable[date], began: date) -> dict[int, date]:
    """The first night of each year on which a mark was noted, by year, ``marked`` oldest first.

    One shortly after the last of the year before, or after the mark ``began``
    to be noted, is no first.
    """
    found: dict[int, date] = {}
    seen: set[int] = set()
    before = began
    for night in marked:
        if night.year not in seen and night - before > LATELY:
            found[night.year] = night
        seen.add(night.year)
        before = night
    return found


def weekday_told(tonight: date) -> str:
    """Such as "The Saturday of week 46"."""
    return f"The {WEEKDAYS[tonight.weekday()]} of week {tonight.isocalendar().week}"

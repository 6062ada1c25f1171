"""What stands on the page for a clinician, before it is set or written as a table."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.model import Tracker
from keeper.study.readings.spread import Spread, share, spread


@dataclass(frozen=True, slots=True)
class PatternSaid:
    """What is told of the readings: a sentence, and what stands small below it; ``tried`` is what was found out by trying."""

    sentence: str
    small: str = ""
    tried: bool = False


@dataclass(frozen=True, slots=True)
class ClinicianReading:
    """A reading over the nights of the page; one value a night, None where nothing was noted; of a mark 1 or 0.

    ``low`` and ``high`` are the ends of its axis, ``drawn`` is how it is drawn.
    """

    tracker: Tracker
    values: tuple[float | None, ...]
    low: float
    high: float
    drawn: str

    @property
    def noted(self) -> tuple[float, ...]:
        """The values there are."""
        return tuple(value for value in self.values if value is not None)

    @property
    def spread(self) -> Spread:
        """Median and quartiles; of a mark the share of nights with it, and its interval."""
        noted = self.noted
        return share(round(sum(noted)), len(noted)) if self.tracker.form == "mark" else spread(noted)


@dataclass(frozen=True, slots=True)
class ClinicianPage:
    """``said`` are patterns and tryings, ``none`` is said where there are none of what was asked; ``method`` is one sentence
    on how, ``cautions`` come last.
    """

    first: date
    last: date
    readings: tuple[ClinicianReading, ...]
    said: tuple[PatternSaid, ...]
    none: str
    method: str
    cautions: tuple[str, ...]

    @property
    def nights(self) -> tuple[date, ...]:
        """Each night of the page."""
        return tuple(self.first + timedelta(n) for n in range((self.last - self.first).days + 1))


def ticks(first: date, last: date) -> tuple[tuple[float, str], ...]:
    """What is named below the strips: where along them (0 to 1), and as what.

    Days where there are few, else months, else years; never more than has room.
    """
    nights = (last - first).days + 1
    days = [first + timedelta(n) for n in range(nights)]
    if nights <= 62:
        named = [(day, str(day.day) if day.day > 1 else f"1 {_month(day)}") for day in days if day.day in (1, 8, 15, 22)]
    elif nights <= 800:
        step = 1 if nights <= 430 else 3
        named = [(day, _month(day)) for day in days if day.day == 1 and (day.month - 1) % step == 0]
    else:
        step = max(1, nights // 365 // 12 + 1)
        named = [(day, str(day.year)) for day in days if (day.month, day.day) == (1, 1) and day.year % step == 0]
    return tuple((((day - first).days + 0.5) / nights, words) for day, words in named)


def _month(day: date) -> str:
    from keeper.dates.written import MONTHS

    short = MONTHS[day.month - 1][:3]
    return f"{short} {day.year}" if day.month == 1 else short


BY_NIGHT, BY_WEEK, BY_MONTH = 1, 7, 30
"""Over how many nights a point of a strip goes: more points than these have no room side by side."""

_MOST_POINTS = 430


def nights_in_point(nights: int) -> int:
    """How many nights one point of a strip stands for."""
    return next((many for many in (BY_NIGHT, BY_WEEK) if nights <= many * _MOST_POINTS), BY_MONTH)


def points(values: Sequence[float | None], many: int, mark: bool) -> tuple[float | None, ...]:
    """The values of so many nights at a time: their median; of a mark the share of nights with it."""
    if many == 1:
        return tuple(values)
    made: list[float | None] = []
    for at in range(0, len(values), many):
        noted = [value for value in values[at : at + many] if value is not None]
        middle = sum(noted) / len(noted) if mark and noted else spread(noted).middle
        made.append(middle)
    return tuple(made)

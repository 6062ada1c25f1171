"""When the level of a reading shifted, and how a month stands to the usual, in sentences and figures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from statistics import median

from keeper.dates import written
from keeper.dates.written import counted
from keeper.model import Tracker
from keeper.review.courses.values import NOTHING_YET, Figures, listed, times, value
from keeper.review.month_series import scale
from keeper.study.patterns.changes import MONTHS_NEEDED, NIGHTS_NEEDED, SHORTEST, Level, Standing, standing

NIGHTS_OF_A_MONTH = 10
"""A month with fewer readings stands for nothing."""

NAMED = 3
"""So many shifts are told in the sentence; all of them are in the figures."""

METHOD = (
    "Stretches of one level, by least squares (PELT: Killick, Fearnhead and Eckley 2012, by the library ruptures). What a shift costs: "
    "3 times the variance in the long run times the logarithm of the nights (after Yao 1988); in the long run, since nights resemble their "
    f"neighbours. A stretch lasts {SHORTEST} nights at least, and its first night is known only roughly. A season is a shift too: whether a stretch is "
    "merely a winter, you see best. Missed are short shifts and slow slides."
)


@dataclass(frozen=True, slots=True)
class ChangesTold:
    """What is said, and for the strip: the nights' values from ``first`` on, the levels, and the reading's axis."""

    reading: Tracker
    first: date
    values: tuple[float | None, ...]
    levels: tuple[Level, ...]
    sentences: tuple[str, ...]
    figures: Figures
    low: float = 0.0
    high: float = 1.0

    def night(self, number: int) -> date:
        """The night of a place in the values."""
        return self.first + timedelta(days=number)


def changes_told(reading: Tracker, first: date, values: Sequence[float | None], levels: Sequence[Level]) -> ChangesTold:
    """Put the levels, and the latest month with enough readings, in words."""
    noted = [one for one in values if one is not None]
    told = ChangesTold(reading, first, tuple(values), tuple(levels), (), Figures((), ()), *scale(reading, max(noted, default=1.0)))
    sentences = tuple(filter(None, (_sentence(told, len(noted)), _of_month(told))))
    return ChangesTold(reading, first, told.values, told.levels, sentences, _figures(told), told.low, told.high)


def level_told(told: ChangesTold, place: int) -> str:
    """One stretch in words."""
    level = told.levels[place]
    between = written.span(told.night(level.first), told.night(level.last))
    return f"{between}: {told.reading.name} {value(told.reading, level.mean)} on average, {counted(level.noted, 'night')}"


def _sentence(told: ChangesTold, noted: int) -> str:
    name = told.reading.name
    if not told.levels:
        return f"{NOTHING_YET}it takes {NIGHTS_NEEDED} nights with {name}, and there {'is' if noted == 1 else 'are'} {written.number(noted)}."
    shifts = [_shift(told, one, other) for one, other in pairwise(told.levels)]
    if not shifts:
        return f"Over {counted(noted, 'night')} no shift in the level of {name} stands out from chance."
    latest = f"; the latest {NAMED}:" if len(shifts) > NAMED else ":"
    return f"Over {counted(noted, 'night')} the level of {name} shifted {times(len(shifts))}{latest} {listed(shifts[-NAMED:])}."


def _shift(told: ChangesTold, one: Level, other: Level) -> str:
    means = f"from {value(told.reading, one.mean)} to {value(told.reading, other.mean)}"
    return f"around {written.full_date(told.night(other.first))} {means}"


def months(told: ChangesTold) -> Mapping[date, float]:
    """The median of each month with readings enough, oldest first."""
    found: dict[date, list[float]] = {}
    for number, one in enumerate(told.values):
        if one is not None:
            found.setdefault(told.night(number).replace(day=1), []).append(one)
    return {month: median(its) for month, its in found.items() if len(its) >= NIGHTS_OF_A_MONTH}


def _of_month(told: ChangesTold) -> str:
    medians = dict(months(told))
    if not medians:
        return ""
    latest = max(medians)
    found = standing(medians.pop(latest), list(medians.values()))
    return _standing(told.reading, latest, found) if found else _too_few(told.reading, len(medians))


def _too_few(reading: Tracker, others: int) -> str:
    return (
        f"How a month of {reading.name} stands to the usual can be said from {MONTHS_NEEDED} other months on, each with "
        f"{NIGHTS_OF_A_MONTH} nights; there {'is' if others == 1 else 'are'} {others}."
    )


def _standing(reading: Tracker, month: date, found: Standing) -> str:
    how = "below the usual" if found.value < found.low else "above the usual" if found.value > found.high else "within the usual"
    low, high = value(reading, found.low), value(reading, found.high)
    where = f"lie between {low} and {high}" if low != high else f"are at {low}"
    return (
        f"{written.month_and_year(month)} is {how}: the middle of {reading.name} is {value(reading, found.value)}; of the {written.number(found.others)} other "
        f"months half {where}, and {written.number(found.below)} {'lies' if found.below == 1 else 'lie'} lower."
    )


def _figures(told: ChangesTold) -> Figures:
    rows = [
        (
            written.shorter_date(told.night(one.first)), written.shorter_date(told.night(one.last)),
            value(told.reading, one.mean), written.number(one.noted),
        )
        for one in told.levels
    ]  # fmt: skip
    return Figures(("First night", "Last night", "Mean", "Nights noted"), tuple(rows))

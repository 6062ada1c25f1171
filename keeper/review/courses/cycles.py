"""Cycles of a mark laid under one another, and the course of a reading over their days."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

from keeper.dates import written
from keeper.dates.written import counted, shortest
from keeper.model import Tracker
from keeper.review.courses.values import NOTHING_YET, Figures, value
from keeper.review.month_series import scale
from keeper.review.patterns.candidates import quoted
from keeper.study.patterns.following import sustained_rise
from keeper.study.readings.spread import Spread, spread

NEEDED = 2
"""Whole cycles under which nothing is laid out."""

LONGEST = 60
"""Days of a cycle that are drawn."""

RULE, PERSON = "rule", "you"
"""Who says where the second phase begins."""

RECORD = (
    "A record of cycles that have ended. It is never a forecast, says nothing of fertile days, and the cycle under way is left out."
)

METHOD = (
    "A cycle begins with a night that has the mark, after 10 nights or more without, and ends before the next. Above: the median of each day, and the "
    "middle half of the cycles."
)

METHOD_OF_RISE = (
    "The shade is a sustained rise of the waking temperature: from the first of three readings that all lie above the highest of the six before "
    "(\u201cthree over six\u201d, as Marquette University\u2019s institute for natural family planning describes it, there with a tenth of a degree more; Marshall "
    "1968, from memory). It misses a slow rise and cycles with few readings, and takes a fever, a late morning or scattered readings for a rise; in a study of 74 cycles "
    "the curve itself misled in 5 (Hilgers and Bailey 1980). What you move or remove stays as you say."
)


@dataclass(frozen=True, slots=True)
class Cycle:
    """From its first night on: a reading's values, a night each. ``rise``: the day, from 1, on which the second phase
    begins, or None; ``said``: RULE, PERSON, or "" where the rule finds none.
    """

    begins: date
    values: tuple[float | None, ...]
    rise: int | None = None
    said: str = ""

    def night(self, day: int) -> date:
        """The night of a day."""
        return self.begins + timedelta(days=day - 1)


@dataclass(frozen=True, slots=True)
class CyclesTold:
    """Whole cycles, newest first, and the course over their days. ``temperature`` is what the phases are known by, or None."""

    mark: Tracker
    reading: Tracker
    temperature: Tracker | None
    cycles: tuple[Cycle, ...]
    days: tuple[Spread, ...]
    sentences: tuple[str, ...]
    by_day: Figures
    by_cycle: Figures
    low: float = 0.0
    high: float = 1.0


def cycle(
    begins: date, values: Sequence[float | None], temperatures: Sequence[float | None], said: Mapping[date, date | None]
) -> Cycle:
    """One cycle; what the person ``said`` of it counts, else what the rule finds in the temperatures."""
    if begins in said:
        rise = said[begins]
        day = (rise - begins).days + 1 if rise else None
        return Cycle(begins, tuple(values), day if day and day <= len(values) else None, PERSON)
    found = sustained_rise(temperatures)
    return Cycle(begins, tuple(values), None if found is None else found + 1, "" if found is None else RULE)


def cycles_told(mark: Tracker, reading: Tracker, temperature: Tracker | None, cycles: Sequence[Cycle]) -> CyclesTold:
    """Put the cycles, newest first, in words and figures."""
    if len(cycles) < NEEDED:
        why = f"{NOTHING_YET}it takes {NEEDED} whole cycles of {quoted(mark.name)}, and there {'is' if len(cycles) == 1 else 'are'} {len(cycles)}."
        return CyclesTold(mark, reading, temperature, (), (), (why,), Figures((), ()), Figures((), ()))
    days = tuple(spread(_noted(cycles, day)) for day in range(min(LONGEST, max(len(one.values) for one in cycles))))
    sentences = tuple(filter(None, (_sentence(mark, cycles), _of_phases(temperature, cycles))))
    figures = _by_day(reading, days), _by_cycle(cycles, temperature)
    return CyclesTold(mark, reading, temperature, tuple(cycles), days, sentences, *figures, *_ends(reading, cycles))


def day_told(told: CyclesTold, place: int, day: int) -> str:
    """One night of a cycle in words."""
    one = told.cycles[place]
    if day > len(one.values):
        return f"cycle from {written.full_date(one.begins)}: {counted(len(one.values), 'night')}"
    noted = value(told.reading, one.values[day - 1]) or "not noted"
    phase = f", second phase from day {one.rise}" if one.rise else ""
    return f"day {day}, {written.short_date(one.night(day))}: {told.reading.name} {noted}{phase}"


def middle_told(told: CyclesTold, day: int) -> str:
    """One day of all cycles in words."""
    one, reading = told.days[day - 1], told.reading
    if not one.nights:
        return f"day {day}: {reading.name} not noted"
    half = f", half between {value(reading, one.low)} and {value(reading, one.high)}" if one.nights > 1 else ""
    return f"day {day}: {reading.name} {value(reading, one.middle)} in the middle{half}, {counted(one.nights, 'cycle')}"


def _noted(cycles: Sequence[Cycle], day: int) -> list[float]:
    return [one.values[day] for one in cycles if day < len(one.values) and one.values[day] is not None]


def _sentence(mark: Tracker, cycles: Sequence[Cycle]) -> str:
    lengths = [len(one.values) for one in cycles]
    ends = f", from {min(lengths)} to {max(lengths)}" if min(lengths) < max(lengths) else ""
    return f"{counted(len(cycles), 'whole cycle')} of {quoted(mark.name)}: {shortest(median(lengths), 1)} nights long in the middle{ends}."


def _of_phases(temperature: Tracker | None, cycles: Sequence[Cycle]) -> str:
    if temperature is None:
        return ""
    rises = [one for one in cycles if one.rise]
    yours = sum(one.said == PERSON for one in rises)
    moved = f", {yours} of them where you say" if yours else ""
    removed = sum(one.said == PERSON and not one.rise for one in cycles)
    gone = f" You removed it from {counted(removed, 'cycle')}." if removed else ""
    return f"A sustained rise of {temperature.name} is marked in {len(rises)} of {len(cycles)}{moved}.{gone}"


def _by_day(reading: Tracker, days: Sequence[Spread]) -> Figures:
    rows = tuple(
        (str(day), *(value(reading, part) for part in (one.middle, one.low, one.high)), str(one.nights))
        for day, one in enumerate(days, 1)
    )
    return Figures(("Day", "Median", "A quarter below", "A quarter above", "Cycles"), rows)


def _by_cycle(cycles: Sequence[Cycle], temperature: Tracker | None) -> Figures:
    heads, rows = ("Begins", "Nights"), [(written.shorter_date(one.begins), str(len(one.values))) for one in cycles]
    if temperature is None:
        return Figures(heads, tuple(rows))
    said = {RULE: "the rule", PERSON: "you", "": ""}
    with_rise = [(*row, str(one.rise or "none"), said[one.said]) for row, one in zip(rows, cycles, strict=True)]
    return Figures((*heads, "Second phase from day", "Said by"), tuple(with_rise))


def _ends(reading: Tracker, cycles: Sequence[Cycle]) -> tuple[float, float]:
    """The axis of a scale; of another reading, as far as all but the outermost hundredths of its values go."""
    noted = sorted(one for its in cycles for one in its.values if one is not None)
    if not noted:
        return 0.0, 1.0
    if reading.form == "scale":
        return scale(reading, noted[-1])
    aside = len(noted) // 100
    low, high = noted[aside], noted[-1 - aside]
    return low, high if high > low else low + 1.0

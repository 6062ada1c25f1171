"""The chart of a pattern: what is drawn, in the values it is noted in, and the same in words."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor, log10
from statistics import fmean, median

from keeper.dates import written
from keeper.review.patterns.candidates import Candidate
from keeper.review.patterns.sentences import lag_words, level, side
from keeper.review.patterns.told import LINK, WAVE, PatternTold
from keeper.study.patterns.pattern import MEANS, RISKS, WEEKDAY, YES

Column = Sequence[float | None]

STEPS = 30
"""Values are put together into at most so many steps of an axis."""

_TICKS = 5


@dataclass(frozen=True)
class ChartAxis:
    """One side of a chart: its name, its ends, and what is written where."""

    name: str
    low: float
    high: float
    ticks: tuple[tuple[float, str], ...]


@dataclass(frozen=True)
class ChartSpot:
    """So many nights at a place of the chart; ``share``: of the nights of its side, 0 to 1."""

    x: float
    y: float
    nights: int
    share: float


@dataclass(frozen=True)
class ChartLevel:
    """A level from x to x, with what is written at it; one that is ``filled`` stands on the axis."""

    left: float
    right: float
    y: float
    words: str
    filled: bool = False


@dataclass(frozen=True)
class PatternChart:
    """A chart. ``lines``: courses over the axis across, each the y of its points. ``cut``: where the axis across is cut, or None.
    ``words`` says the same to the ear.
    """

    across: ChartAxis
    up: ChartAxis
    words: str
    spots: tuple[ChartSpot, ...] = ()
    levels: tuple[ChartLevel, ...] = ()
    lines: tuple[tuple[str, tuple[float, ...]], ...] = ()
    cut: float | None = None


def chart_of(told: PatternTold, first: date, columns: Mapping[str, Column], known: Mapping[str, Candidate]) -> PatternChart:
    """The chart of a pattern; ``columns`` begin with the night ``first``."""
    if told.kind != LINK:
        return _round(told, first, columns, known)
    one, two = columns[told.first], columns[told.second]
    pairs = [(x, y) for x, y in zip(one, two[told.lag :], strict=False) if x is not None and y is not None]
    if told.contrast is not None and told.contrast.kind == RISKS:
        return _shares(told, pairs, known)
    return _sides(told, pairs, known) if told.cut is None or told.cut.side == YES else _points(told, pairs, known)


def _points(told: PatternTold, pairs: list[tuple[float, float]], known: Mapping[str, Candidate]) -> PatternChart:
    first, second = known[told.first], known[told.second]
    across, up = _axis(first, [x for x, _ in pairs]), _axis(second, [y for _, y in pairs], told.lag)
    cut = (told.cut.at + told.cut.beyond) / 2 if told.cut else None
    levels = ()
    if told.cut:
        below, above = ([y for x, y in pairs if (x < cut) == is_below] for is_below in (True, False))
        levels = (_level(across.low, cut, below, told, second), _level(cut, across.high, above, told, second))
    return PatternChart(across, up, _words(told, known, pairs), _spots(pairs, across, up), levels, cut=cut)


def _sides(told: PatternTold, pairs: list[tuple[float, float]], known: Mapping[str, Candidate]) -> PatternChart:
    first, second = known[told.first], known[told.second]
    pairs = [(0.0 if x > 0 else 1.0, y) for x, y in pairs]
    up = _axis(second, [y for _, y in pairs], told.lag)
    parts = [[y for x, y in pairs if x == at] for at in (0.0, 1.0)]
    levels = tuple(_level(at - 0.3, at + 0.3, part, told, second) for at, part in enumerate(parts) if part)
    return PatternChart(_two(first, [len(part) for part in parts], told), up, _words(told, known, pairs), _spots(pairs, None, up), levels)


def _shares(told: PatternTold, pairs: list[tuple[float, float]], known: Mapping[str, Candidate]) -> PatternChart:
    first, second = known[told.first], known[told.second]
    sides = told.contrast.with_mark, told.contrast.without
    top = _round_above(max(one.value for one in sides) or 0.1)
    ticks = tuple((top * step / 2, written.percent(top * step / 2)) for step in range(3))
    up = ChartAxis(_up_name(second, told.lag), 0.0, top, ticks)
    levels = tuple(
        ChartLevel(at - 0.3, at + 0.3, one.value, f"{written.number(round(one.value * one.nights))} of {written.number(one.nights)}", True)
        for at, one in enumerate(sides)
    )
    return PatternChart(_two(first, [one.nights for one in sides], told), up, _words(told, known, pairs), levels=levels)


def _round(told: PatternTold, first: date, columns: Mapping[str, Column], known: Mapping[str, Candidate]) -> PatternChart:
    """Round the week, or the year."""
    weekly = told.rhythm == WEEKDAY
    names = [name[:3] for name in (written.WEEKDAYS if weekly else written.MONTHS)]
    across = ChartAxis("", -0.5, len(names) - 0.5, tuple(enumerate(names)))
    means = {key: _group_means(first, column, weekly) for key, column in columns.items()}
    if told.kind == WAVE:
        candidate, its = known[told.first], means[told.first]
        up = _axis(candidate, [value for value in its if value is not None])
        if candidate.is_mark:
            top = _round_above(max(value or 0 for value in its) or 0.1)
            up = ChartAxis(candidate.noun, 0.0, top, tuple((top * step / 2, written.percent(top * step / 2)) for step in range(3)))
        return PatternChart(across, up, _told_round(names, its, candidate), lines=((candidate.noun, _whole(its)),))
    lines = tuple((known[key].noun, _standing_between(means[key])) for key in (told.first, told.second))
    words = ". ".join(_told_round(names, means[key], known[key]) for key in (told.first, told.second))
    return PatternChart(across, ChartAxis("", 0.0, 1.0, ((0.0, "low"), (1.0, "high"))), words, lines=lines)


def _group_means(first: date, column: Column, weekly: bool) -> list[float | None]:
    parts: list[list[float]] = [[] for _ in range(7 if weekly else 12)]
    for day, value in enumerate(column):
        if value is not None:
            night = first + timedelta(days=day)
            parts[night.weekday() if weekly else night.month - 1].append(value)
    return [fmean(part) if part else None for part in parts]


def _whole(means: Sequence[float | None]) -> tuple[float, ...]:
    known = [value for value in means if value is not None]
    return tuple(fmean(known) if value is None else value for value in means)


def _standing_between(means: Sequence[float | None]) -> tuple[float, ...]:
    whole = _whole(means)
    low, high = min(whole), max(whole)
    return tuple((value - low) / (high - low) if high > low else 0.5 for value in whole)


def _told_round(names: Sequence[str], means: Sequence[float | None], candidate: Candidate) -> str:
    told = (written.percent(value) if candidate.is_mark else level(value, candidate) for value in means if value is not None)
    its = (name for name, value in zip(names, means, strict=True) if value is not None)
    return f"{candidate.noun}: " + ", ".join(f"{name} {value}" for name, value in zip(its, told, strict=True))


def _level(left: float, right: float, values: list[float], told: PatternTold, second: Candidate) -> ChartLevel:
    if not values:
        return ChartLevel(left, right, 0.0, "")
    means = told.contrast is not None and told.contrast.kind == MEANS
    middle = fmean(values) if means else median(values)
    # A difference of means is told to a tenth: its ends to a hundredth, or they would not seem to agree.
    return ChartLevel(left, right, middle, level(middle, second, 2 if means else 1))


def _two(first: Candidate, nights: Sequence[int], told: PatternTold) -> ChartAxis:
    of = side(told.cut, first) if told.cut else first.with_it
    return ChartAxis("", -0.6, 1.6, ((0.0, f"{written.counted(nights[0], 'night')} {of}"), (1.0, f"{written.counted(nights[1], 'other')}")))


def _axis(candidate: Candidate, values: Sequence[float], lag: int = 0) -> ChartAxis:
    low, high = min(values, default=0.0), max(values, default=1.0)
    step = _step(high - low)
    low, high = floor(low / step) * step, max(floor(high / step) * step, high)
    ticks = []
    while len(ticks) < 3 * _TICKS and low + len(ticks) * step <= high + step / 1e6:
        at = low + len(ticks) * step
        ticks.append((at, _tick(at, candidate)))
    room = (high - low or 1.0) * 0.06
    return ChartAxis(_up_name(candidate, lag), low - room, high + room, tuple(ticks))


def _up_name(candidate: Candidate, lag: int) -> str:
    unit = candidate.tracker.unit if candidate.tracker and candidate.tracker.form in ("count", "amount") else ""
    told = f"{candidate.noun}, {unit}" if unit else candidate.noun
    return f"{told}, {lag_words(lag)}" if lag else told


def _tick(value: float, candidate: Candidate) -> str:
    if candidate.tracker and candidate.tracker.form == "hours":
        minutes = round(value * 60)
        return f"{minutes // 60}:{minutes % 60:02}"
    return written.shortest(value)


def _step(span: float) -> float:
    """A round step, so that an axis has about five."""
    if span <= 0:
        return 1.0
    power = 10.0 ** floor(log10(span / _TICKS))
    return next(step * power for step in (1, 2, 5, 10) if span / (step * power) <= _TICKS * 1.2)


def _round_above(value: float) -> float:
    return next(top for top in (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0) if top >= min(value, 1.0) - 1e-9)


def _spots(pairs: Sequence[tuple[float, float]], across: ChartAxis | None, up: ChartAxis) -> tuple[ChartSpot, ...]:
    """Nights at the same place put together; where values are many, within a small step."""
    found = Counter((_near(x, across), _near(y, up)) for x, y in pairs)
    of_side = Counter(x if across is None else 0.0 for x, _ in pairs)
    return tuple(ChartSpot(x, y, nights, nights / of_side[x if across is None else 0.0]) for (x, y), nights in sorted(found.items()))


def _near(value: float, axis: ChartAxis | None) -> float:
    if axis is None or (value * 2).is_integer():
        return value
    step = (axis.high - axis.low) / STEPS
    return axis.low + round((value - axis.low) / step) * step


def _words(told: PatternTold, known: Mapping[str, Candidate], pairs: Sequence[tuple[float, float]]) -> str:
    first, second = known[told.first], known[told.second]
    nights = written.counted(len(pairs), "night")
    if told.contrast is None or told.contrast.with_mark is None:
        return f"{nights} of {first.noun} and {second.noun}"
    sides = (told.contrast.with_mark, told.contrast.without)
    values = [written.percent(one.value) if told.contrast.kind == RISKS else level(one.value, second) for one in sides]
    of = side(told.cut, first) if told.cut else first.with_it
    return (f"{nights}. {second.noun}: {values[0]} on {written.counted(sides[0].nights, 'night')} {of}, "
            f"{values[1]} on {written.counted(sides[1].nights, 'other')}")  # fmt: skip

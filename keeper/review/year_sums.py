"""The sums of a year: counts, themes through the months, means of readings."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from keeper.model import Line, Reading, Tracker
from keeper.review.month_series import scale
from keeper.review.year import Counts, MonthMean, ThemeFlow, YearReadings
from keeper.study.language.words import word_count
from keeper.study.readings.measure import on_axis

THEMES_SHOWN = 7
"""How many themes flow through the page, those of the most nights first."""


def counts(lines: Sequence[Line], photos: int) -> Counts:
    """How much a year holds."""
    said = sum(word_count(line.text) for line in lines)
    return Counts(len({line.night for line in lines}), len(lines), said, photos)


def theme_flow(lines: Sequence[Line], themes: Mapping[str, tuple[int, str]]) -> tuple[ThemeFlow, ...]:
    """The largest themes through the months; ``themes`` has the number and name for a line's id."""
    kept: dict[int, set[date]] = defaultdict(set)
    came_up: dict[tuple[int, str], set[date]] = defaultdict(set)
    for line in lines:
        kept[line.night.month].add(line.night)
        if line.id in themes:
            came_up[themes[line.id]].add(line.night)
    largest = sorted(came_up, key=lambda theme: (-len(came_up[theme]), theme[0]))[:THEMES_SHOWN]
    return tuple(ThemeFlow(*theme, len(came_up[theme]), _shares(came_up[theme], kept)) for theme in largest)


def _shares(nights: Iterable[date], kept: Mapping[int, Collection[date]]) -> tuple[float, ...]:
    often = Counter(night.month for night in nights)
    return tuple(often[month] / len(kept[month]) if kept.get(month) else 0.0 for month in range(1, 13))


def readings_by_month(
    year: int, trackers: Iterable[Tracker], readings: Iterable[Reading], kept: Collection[date],
    highest: Mapping[str, float],
) -> tuple[YearReadings, ...]:  # fmt: skip
    """The means of each tracker that was noted in a year, and those of the year before.

    ``kept`` are the nights of which anything was kept: on these a mark that
    was not set is a no, once its tracker has begun. ``highest`` is the highest
    value ever noted of those that have no scale of their own.
    """
    noted: dict[str, list[Reading]] = defaultdict(list)
    for reading in readings:
        noted[reading.tracker_id].append(reading)
    found = []
    for tracker in trackers:
        its = noted[tracker.id]
        if any(reading.night.year == year for reading in its):
            of = [_means(tracker, its, kept, which) for which in (year, year - 1)]
            found.append(YearReadings(tracker, *of, *scale(tracker, highest.get(tracker.id, 0.0))))
    return tuple(found)


def _means(tracker: Tracker, its: Iterable[Reading], kept: Collection[date], year: int) -> tuple[MonthMean, ...]:
    values: dict[int, list[float]] = defaultdict(list)
    if tracker.form == "mark":
        told = {reading.night: reading.value for reading in its}
        for night in kept:
            if night.year == year and tracker.began <= night <= (tracker.ended or night):
                values[night.month].append(told.get(night, 0.0))
    else:
        for reading in its:
            if reading.night.year == year:
                values[reading.night.month].append(on_axis(tracker, reading))
    return tuple(_mean(values[month]) for month in range(1, 13))


def _mean(values: Sequence[float]) -> MonthMean:
    return MonthMean(sum(values) / len(values), len(values)) if values else MonthMean()

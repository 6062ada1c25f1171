"""The sums of a year: counts, and themes through the months."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from keeper.model import Line
from keeper.review.year import Counts, ThemeFlow
from keeper.study.language.words import word_count

THEMES_SHOWN = 7
"""How many themes flow through the page, those of the most nights first."""


def counts(lines: Sequence[Line], photos: int) -> Counts:
    """How much a year holds."""
    said = sum(word_count(line.text) for line in lines)
    return Counts(len({line.night for line in lines}), len(lines), said, photos)


def theme_flow(lines: Sequence[Line], themes: Mapping[str, Sequence[tuple[int, str]]]) -> tuple[ThemeFlow, ...]:
    """The largest themes through the months; ``themes`` has number and name of each of its themes for a line's id."""
    kept: dict[int, set[date]] = defaultdict(set)
    came_up: dict[tuple[int, str], set[date]] = defaultdict(set)
    for line in lines:
        kept[line.night.month].add(line.night)
        for theme in themes.get(line.id, ()):
            came_up[theme].add(line.night)
    largest = sorted(came_up, key=lambda theme: (-len(came_up[theme]), theme[0]))[:THEMES_SHOWN]
    return tuple(ThemeFlow(*theme, len(came_up[theme]), _shares(came_up[theme], kept)) for theme in largest)


def _shares(nights: Iterable[date], kept: Mapping[int, Collection[date]]) -> tuple[float, ...]:
    often = Counter(night.month for night in nights)
    return tuple(often[month] / len(kept[month]) if kept.get(month) else 0.0 for month in range(1, 13))

"""Around a mark: the course of a reading, in sentences, figures and for a chart."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from keeper.dates.written import counted, number
from keeper.model import Tracker
from keeper.review.courses.values import NOTHING_YET, Figures, listed, share, value
from keeper.review.month_series import scale
from keeper.review.patterns.candidates import Candidate

if TYPE_CHECKING:
    # numpy comes with it, and the page is opened before anything is asked.
    from keeper.study.patterns.around import Around

BAR = 0.05
"""Where chance leaves what is usual as far in more than this share of draws, nothing is said to stand out."""

METHOD = (
    "The mean of each night around the nights with the mark (superposed epochs: Chree 1913). Between the edges of the band lie "
    "95 % of the same means around nights drawn by lot, 999 times: nights with the mark that lie near one another are moved "
    "together, by up to 45 nights either way, and so meet the same season (after Haurwitz and Brier 1981). What stands out is judged over all nights "
    "of the chart at once, at 5 %. Whoever asks of many marks and readings finds one in twenty by chance alone; the page Patterns "
    "counts its questions, this one does not."
)


@dataclass(frozen=True, slots=True)
class AroundTold:
    """What is said; ``found`` is None where nothing can be said. ``low`` to ``high`` is what the chart shows of the axis."""

    mark: Candidate
    reading: Tracker
    span: int
    sentences: tuple[str, ...]
    figures: Figures
    found: "Around | None" = None
    low: float = 0.0
    high: float = 1.0


def around_told(
    mark: Candidate, reading: Tracker, span: int, values: Sequence[float | None], marked: Sequence[float | None],
    found: "Around | None", clusters: int,
) -> AroundTold:  # fmt: skip
    """Put what was found in words; ``clusters`` are the times of the mark that lie more than ``span`` nights apart."""
    if found is None:
        many = sum(1 for one in marked if one)
        return AroundTold(mark, reading, span, (_why_not(mark, reading, span, many, clusters),), Figures((), ()))
    low, high = _ends(reading, found)
    sentences = tuple(filter(None, (_sentence(mark, reading, found), _besides(reading, found), _chance(found))))
    return AroundTold(mark, reading, span, sentences, _figures(reading, found, values, marked), found, low, high)


def stands_out(told: AroundTold, place: int) -> bool:
    """Whether a night is outside of what is usual, where any stands out; else one in twenty lies outside by chance."""
    found = told.found
    known = found.low[place] == found.low[place]
    return known and found.p <= BAR and not found.low[place] <= found.means[place] <= found.high[place]


def offset_told(offset: int) -> str:
    """Such as "the night itself", "the night after" or "3 nights before"."""
    if offset == 0:
        return "the night itself"
    side = "after" if offset > 0 else "before"
    return f"the night {side}" if abs(offset) == 1 else f"{abs(offset)} nights {side}"


def point_told(told: AroundTold, place: int) -> str:
    """One night of the chart in words."""
    found, reading = told.found, told.reading
    if not found.counts[place]:
        return f"{offset_told(found.offsets[place])}: {reading.name} not noted"
    return (
        f"{offset_told(found.offsets[place])}: {reading.name} {value(reading, found.means[place])} on average, "
        f"usual {_usual(reading, found, place)}, {counted(found.counts[place], 'night')}"
    )


def _why_not(mark: Candidate, reading: Tracker, span: int, many: int, clusters: int) -> str:
    if not many:
        return f"{NOTHING_YET}there is no night {mark.with_it}."
    from keeper.study.patterns.around import CLUSTERS_NEEDED

    if clusters < CLUSTERS_NEEDED:
        apart = counted(span, "night")
        such = "" if many == clusters else f", and {number(clusters)} of them so far apart"
        return (
            f"{NOTHING_YET}it takes {CLUSTERS_NEEDED} nights {mark.with_it}, each more than {apart} after the one before. So far there "
            f"{'is' if many == 1 else 'are'} {number(many)}{such}."
        )
    return f"{NOTHING_YET}too few readings of {reading.name} lie around the {counted(many, 'night')} {mark.with_it}."


def _sentence(mark: Candidate, reading: Tracker, found: "Around") -> str:
    nights = counted(found.marked, "night")
    if found.p > BAR:
        span = counted(found.offsets[-1], "night")
        return (
            f"Around the {nights} {mark.with_it}, {reading.name} is as around others: from {span} before to {span} after "
            "none stands out from chance."
        )
    place, where = found.offsets.index(found.farthest), offset_told(found.farthest)
    # Its nights are those behind this very mean.
    behind = counted(found.counts[place], "night")
    return (
        f"{'On t' if where.startswith('t') else ''}{where.removeprefix('t')} ({behind} {mark.with_it}), {reading.name} was "
        f"{value(reading, found.means[place])} on average; around other nights of the same seasons it is {_usual(reading, found, place)}."
    )


def _usual(reading: Tracker, found: "Around", place: int) -> str:
    return f"between {value(reading, found.low[place])} and {value(reading, found.high[place])}"


def _besides(reading: Tracker, found: "Around") -> str:
    """The other nights outside of the band, where one stands out."""
    others = [
        offset_told(offset) for offset, mean, low, high in zip(found.offsets, found.means, found.low, found.high, strict=True)
        if offset != found.farthest and (mean < low or mean > high)
    ]  # fmt: skip
    if found.p > BAR or not others:
        return ""
    return f"Outside of what is usual also: {listed(others)}."


def _chance(found: "Around") -> str:
    nights = len(found.offsets)
    return f"Chance alone takes one of the {nights} nights as far in {share(found.p)} of draws."


def _figures(reading: Tracker, found: "Around", values: Sequence[float | None], marked: Sequence[float | None]) -> Figures:
    heads = ("Night", "Mean", "Median", "Usual from", "Usual to", "Nights")
    yes = [night for night, one in enumerate(marked) if one]
    rows = []
    for place, offset in enumerate(found.offsets):
        its = [values[night + offset] for night in yes if 0 <= night + offset < len(values)]
        noted = [one for one in its if one is not None]
        numbers = (found.means[place], median(noted) if noted else None, found.low[place], found.high[place])
        rows.append((offset_told(offset), *(value(reading, one) for one in numbers), number(found.counts[place])))
    return Figures(heads, tuple(rows))


def _ends(reading: Tracker, found: "Around") -> tuple[float, float]:
    """The part of the axis in which everything lies, with a little air; never less than a tenth of a scale."""
    shown = [one for row in (found.means, found.low, found.high) for one in row if one == one]
    low, high = min(shown), max(shown)
    low_end, high_end = scale(reading, high)
    least = (high_end - low_end) / 10
    middle, wide = (low + high) / 2, max((high - low) * 1.2, least)
    return middle - wide / 2, middle + wide / 2

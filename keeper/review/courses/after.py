"""After a mark: how often another came, and otherwise, in a sentence and figures."""

from dataclasses import dataclass
from math import isinf, isnan

from keeper.dates.written import counted, number
from keeper.review.courses.values import NOTHING_YET, Figures, share
from keeper.review.patterns.candidates import Candidate
from keeper.study.patterns.following import Following
from keeper.study.patterns.pattern import Side
from keeper.study.readings.spread import Spread
from keeper.study.readings.spread import share as spread_of_share

NEEDED = 5
"""Nights on either side under which nothing is said."""

BAR = 0.05

METHOD = (
    "Nights with the first mark are taken as they come, then nights without, wherever there is room: the nights counted after "
    "one are never counted after another. After each, the second mark came or did not. Chance: Fisher\u2019s exact test (1935), either way. "
    "How many times as often: the risk ratio with its 95 % interval (Katz and others 1978). Both take the occasions to be independent "
    "of one another: where the second mark comes in long runs, or both follow a season, they are too sure of it."
)


@dataclass(frozen=True, slots=True)
class Phase:
    """Only nights ``first`` to ``last`` after the latest night with a mark take part; that night itself is 0."""

    mark: Candidate
    first: int
    last: int

    @property
    def told(self) -> str:
        """Such as "in nights 1 to 14 after one with begun"."""
        nights = f"nights {self.first} to {self.last}" if self.first < self.last else f"night {self.first}"
        return f"in {nights} after one {self.mark.with_it}"


@dataclass(frozen=True, slots=True)
class AfterTold:
    """What is said; ``found`` is None where nothing can be said."""

    first: Candidate
    second: Candidate
    within: int
    phase: Phase | None
    sentences: tuple[str, ...]
    figures: Figures
    found: Following | None = None


def after_told(first: Candidate, second: Candidate, within: int, phase: Phase | None, found: Following | None) -> AfterTold:
    """Put what was found in words."""
    sides = (found.measure.with_mark, found.measure.without) if found else (Side(0, 0.0), Side(0, 0.0))
    if min(side.nights for side in sides) < NEEDED:
        return AfterTold(first, second, within, phase, (_why_not(first, second, phase, *sides),), Figures((), ()))
    told = (_sentence(first, second, within, phase, *sides), _how_many_times(found, *sides), _chance(found))
    return AfterTold(first, second, within, phase, tuple(filter(None, told)), _figures(first, second, *sides), found)


def _why_not(first: Candidate, second: Candidate, phase: Phase | None, with_mark: Side, without: Side) -> str:
    if phase and phase.mark == first and phase.first > 0:
        return f"{NOTHING_YET}a night {first.with_it} is night 0 of the phase that begins with it, and so never {phase.told}."
    where = f", {phase.told}," if phase else ""
    return (
        f"{NOTHING_YET}it takes {NEEDED} nights {first.with_it}{where} and {NEEDED} without, after which it is known whether {second.noun} "
        f"came; there are {number(with_mark.nights)} and {number(without.nights)}."
    )


def _sentence(first: Candidate, second: Candidate, within: int, phase: Phase | None, with_mark: Side, without: Side) -> str:
    when = "On the night" if within == 1 else f"Within {counted(within, 'night')}"
    where = f", {phase.told}" if phase else ""
    return f"{when} after one {first.with_it}{where}, {second.noun} came {_of(with_mark)}; otherwise {_of(without)}."


def _of(side: Side) -> str:
    return f"on {number(round(side.value * side.nights))} of {counted(side.nights, 'occasion')} ({share(side.value)})"


def _how_many_times(found: Following, with_mark: Side, without: Side) -> str:
    ratio = found.measure
    if isnan(ratio.value) or (not with_mark.value and not without.value):
        return ""
    if isinf(ratio.value):
        return f"That is at least {number(ratio.low, 1)} times as often (95 %)."
    return f"That is {number(ratio.value, 1)} times as often, between {number(ratio.low, 1)} and {number(ratio.high, 1)} (95 %)."


def _chance(found: Following) -> str:
    if found.p > BAR:
        return f"It does not stand out from chance, which gives as uneven numbers in {share(found.p)} of cases."
    return f"Chance alone gives as uneven numbers in {_small(found.p)} of cases."


def _small(p: float) -> str:
    return share(p) if p >= 0.001 else "less than 0.1 %"


def _figures(first: Candidate, second: Candidate, with_mark: Side, without: Side) -> Figures:
    heads = ("", f"{second.noun} came", "did not", "Occasions", "Share")
    rows = []
    for told, side in ((f"after one {first.with_it}", with_mark), ("otherwise", without)):
        hits = round(side.value * side.nights)
        rows.append((told, number(hits), number(side.nights - hits), number(side.nights), share(side.value)))
    return Figures(heads, tuple(rows))


def sides(told: AfterTold) -> tuple[Spread, Spread]:
    """The shares of both sides, each with its 95 % interval."""
    its = (told.found.measure.with_mark, told.found.measure.without)
    return tuple(spread_of_share(round(side.value * side.nights), side.nights) for side in its)


def side_told(told: AfterTold, place: int) -> str:
    """One side in words."""
    name, came, _, nights, part = told.figures.rows[place]
    return f"{name}: {came} of {nights}, {part}"

"""From answers to what is told of them: which side of a column is told of, what goes with the season, each pair once."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from keeper.actions.patterns.columns import Columns
from keeper.review.patterns.candidates import Candidate
from keeper.review.patterns.told import LINK, MOVED, WAVE, PatternTold
from keeper.study.patterns.contrast import contrast, cut
from keeper.study.patterns.pattern import ABOVE, BAR, BELOW, SEASON, WEEKDAY, YES, Cut, Pattern, Side
from keeper.study.patterns.rhythms import yearly_peak
from keeper.study.patterns.waves import Wave

MOST_MOVED = 40
"""So many of what a rhythm moves are told: where there are many readings and years, most pairs are moved by the season."""


def patterns_told(
    found: Sequence[Pattern], waves: Sequence[tuple[Wave, float]], its: Columns, known: Mapping[str, Candidate]
) -> tuple[tuple[PatternTold, ...], int]:
    """What stands out, strongest first, then what only moves together; each pair of columns once, at its strongest.

    Of what only moves together the plainest; besides, how many there are. ``waves`` come with their q. A pair without an order (lag 0) is told from its mark on.
    """
    standing = [one for one in found if one.stands_out]
    links = [_link(one, _also(one, standing), its, known) for one in _once(standing)]
    of_rhythms = [_wave(one, q, its) for one, q in sorted(waves, key=lambda pair: pair[0].p) if q <= BAR]
    apart = {frozenset((one.first, one.second)) for one in links}
    moved = [one for one in _once([one for one in found if one.rhythm]) if frozenset((one.first, one.second)) not in apart]
    plainest = sorted(moved, key=lambda one: -abs(one.strength))[:MOST_MOVED]
    peaks = {key: _peak(its, key) for key in {key for one in plainest for key in (one.first, one.second)}}
    return (*links, *of_rhythms, *(_moved(one, peaks) for one in plainest)), len(moved)


def _once(found: Sequence[Pattern]) -> list[Pattern]:
    firsts: dict[frozenset[str], Pattern] = {}
    for one in found:
        firsts.setdefault(frozenset((one.first, one.second)), one)
    return list(firsts.values())


def _also(one: Pattern, standing: Sequence[Pattern]) -> tuple[int, ...]:
    return tuple(sorted(other.lag for other in standing if (other.first, other.second) == (one.first, one.second) and other.lag != one.lag))


def _plain(kind: str, one: Pattern) -> PatternTold:
    return PatternTold(
        kind, one.first, one.second, one.lag, one.nights, one.strength, one.low, one.high, one.within, one.p, one.q, one.shrink,
        one.hidden, one.rhythm,
    )  # fmt: skip


def _link(one: Pattern, also: tuple[int, ...], its: Columns, known: Mapping[str, Candidate]) -> PatternTold:
    if one.lag == 0 and one.second in its.marks and one.first not in its.marks:
        one = replace(one, first=one.second, second=one.first)
    first, second = both(its, one.first, one.second, one.lag)
    at = side_of(known[one.first], first)
    measured = contrast(first, second, at, one.second in its.marks, max(one.nights / one.worth, 1.0))
    return replace(_plain(LINK, one), cut=at, contrast=measured, also=also)


def both(its: Columns, first: str, second: str, lag: int) -> tuple[np.ndarray, np.ndarray]:
    """The values of two columns on the nights noted of both, the second so many nights later."""
    one, two = (np.array(its.values[key], float) for key in (first, second))
    one, two = one[: len(one) - lag], two[lag:]
    noted = ~np.isnan(one) & ~np.isnan(two)
    return one[noted], two[noted]


def side_of(candidate: Candidate, values: np.ndarray) -> Cut:
    """The side that is told of: yes; the worse one, where one is better; else the high one."""
    if candidate.is_mark:
        return Cut(YES)
    worse_below = candidate.tracker is not None and candidate.tracker.better == "higher"
    return cut(values, BELOW if worse_below else ABOVE)


def _moved(one: Pattern, peaks: Mapping[str, int]) -> PatternTold:
    return replace(_plain(MOVED, one), peaks=(peaks[one.first], peaks[one.second]) if one.rhythm == SEASON else (0, 0))


def _peak(its: Columns, key: str) -> int:
    night = yearly_peak(its.values[key])
    return 0 if night is None else (its.first + timedelta(days=night)).month


def _wave(one: Wave, q: float, its: Columns) -> PatternTold:
    return PatternTold(
        WAVE, one.name, one.kind, 0, one.nights, p=one.p, q=q, rhythm=one.kind, groups=groups(its, one.name, one.kind)
    )


def groups(its: Columns, key: str, rhythm: str) -> tuple[Side, ...]:
    """Nights and mean of a column on each day of the week from Monday, or in each month; a mean of 0 where there is no night."""
    of = (date.weekday, 7) if rhythm == WEEKDAY else (lambda night: night.month - 1, 12)
    noted = [(of[0](its.first + timedelta(days=day)), value) for day, value in enumerate(its.values[key]) if value is not None]
    parts = [[value for group, value in noted if group == wanted] for wanted in range(of[1])]
    return tuple(Side(len(part), sum(part) / len(part) if part else 0.0) for part in parts)

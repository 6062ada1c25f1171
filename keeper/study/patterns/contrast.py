"""A pattern for people: the second on nights after one side of the first, against all others.

What is told, not how it was asked: whether a pair stands out is decided by all its nights (see `finding`). A reading is cut
where about a fifth of its nights lie to one side, whatever the second does there, so no cut is picked for its effect.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from keeper.study.patterns import measures
from keeper.study.patterns.pattern import BELOW, MEANS, NIGHTS_OF_EACH, YES, Cut, Measure, Side

SHARE = 0.2
"""Of the nights, the share that is told of as low or high."""


def cut(values: Sequence[float], side: str) -> Cut:
    """Where a reading is cut, BELOW or ABOVE: at one of its values, so that about a fifth lies there, and 20 nights if it can be."""
    known, counts = np.unique(np.array(values, float), return_counts=True)
    within = np.cumsum(counts) if side == BELOW else np.cumsum(counts[::-1])[::-1]
    rest = len(values) - within
    short = np.maximum(NIGHTS_OF_EACH - np.minimum(within, rest), 0)
    far = np.abs(within / len(values) - SHARE) + short * 10.0 + (rest == 0) * 1e6
    at = int(np.argmin(far))
    return Cut(side, float(known[at]), float(known[min(max(at + (1 if side == BELOW else -1), 0), len(known) - 1)]))


def contrast(first: np.ndarray, second: np.ndarray, at: Cut, second_is_mark: bool, inflation: float) -> Measure:
    """The second on the nights of a cut of the first and on the others; both over the same nights, all noted.

    Of two readings or a mark and a reading the difference of medians (MEDIANS); where its interval, wide by the steps in
    which one notes, tells nothing either way, that of means (MEANS). Into a mark the risk ratio (RISKS).
    """
    there = first > 0 if at.side == YES else first <= at.at if at.side == BELOW else first >= at.at
    with_it, without = second[there], second[~there]
    if second_is_mark:
        return measures.risk_ratio(int(with_it.sum()), len(with_it), int(without.sum()), len(without), inflation)
    medians = measures.difference_of_medians(with_it, without, inflation)
    means = difference_of_means(with_it, without, inflation)
    return means if medians.low <= 0 <= medians.high and not means.low <= 0 <= means.high else medians


def difference_of_means(with_it: np.ndarray, without: np.ndarray, inflation: float = 1.0) -> Measure:
    """Welch's (Biometrika 34, 1947), of as many nights fewer as `inflation` says. Equal to scipy's at an inflation of 1."""
    from scipy.special import stdtrit

    one, other = (float(x.var(ddof=1)) / (len(x) / inflation) for x in (with_it, without))
    sides = Side(len(with_it), float(with_it.mean())), Side(len(without), float(without.mean()))
    difference = sides[0].value - sides[1].value
    free = (one + other) ** 2 / max(one**2 / max(len(with_it) / inflation - 1, 1) + other**2 / max(len(without) / inflation - 1, 1), 1e-300)
    half = float(stdtrit(max(free, 1.0), 0.975)) * (one + other) ** 0.5
    return Measure(MEANS, difference, difference - half, difference + half, *sides)

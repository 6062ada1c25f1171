"""The measure that fits a pair, with its 95 % interval; plain sums over two columns of the same nights.

`inflation` is how many nights of these tell as much as one would if nights did not resemble their neighbours (Bartlett
1946; see `nights_in_one`): the interval is as wide as that of so many nights fewer.
"""

from __future__ import annotations

import math

import numpy as np

from keeper.study.patterns.pattern import MEDIANS, RANKS, RISKS, Measure, Side

SURE = 1.959963984540054
"""Standard errors on either side of a 95 % interval."""

LAGS = 14
"""Nights over which likeness is added up."""


def nights_in_one(likeness: np.ndarray, nights: np.ndarray) -> np.ndarray:
    """For each pair (columns x columns) how many nights are worth one independent of the others; at least 1.

    1 + 2 sum of (1 - k/n) r_x(k) r_y(k), of Bartlett, J. R. Stat. Soc. Suppl. 8 (1946), as Pyper & Peterman, Can. J.
    Fish. Aquat. Sci. 55 (1998), use it. likeness: autocorrelations at lags 1, 2 ... (columns x lags).
    """
    k = np.arange(1, likeness.shape[1] + 1)
    plain = likeness @ likeness.T
    less = (likeness * k) @ likeness.T / np.maximum(nights, 1)
    return np.maximum(1.0, 1 + 2 * (plain - less))


def rank_correlation(first: np.ndarray, second: np.ndarray) -> float:
    """Spearman's, ties sharing their middle rank; NaN where one of the two is always the same."""
    (_, one), (_, other) = (np.unique(values, return_inverse=True) for values in (first, second))
    return of_codes(one, other)


def of_codes(first: np.ndarray, second: np.ndarray) -> float:
    """Spearman's correlation of whole numbers from 0 that stand in the order of the values."""
    n = len(first)
    ranks, squares = [], []
    for codes in (first, second):
        counts = np.bincount(codes)
        # Twice the middle rank, less n + 1: whole numbers, so the sums are exact.
        twice = 2.0 * np.cumsum(counts) - counts - n
        ranks.append(twice[codes])
        squares.append(counts @ (twice * twice))
    power = math.sqrt(squares[0]) * math.sqrt(squares[1])
    return max(-1.0, min(1.0, float(ranks[0] @ ranks[1]) / power)) if power else math.nan


def interval_of_ranks(r: float, nights: int, inflation: float) -> tuple[float, float]:
    """By Fisher's z, with the standard error of Bonett & Wright, Psychometrika 65 (2000), for Spearman's correlation."""
    if abs(r) == 1:
        return r, r
    half = SURE * math.sqrt(inflation * (1 + r * r / 2) / (nights - 3))
    return math.tanh(math.atanh(r) - half), math.tanh(math.atanh(r) + half)


def ranks_measure(r: float, low: float, high: float) -> Measure:
    """Of two readings."""
    return Measure(RANKS, r, low, high)


def difference_of_medians(with_mark: np.ndarray, without: np.ndarray, inflation: float = 1.0) -> Measure:
    """Median of the readings of nights with a mark, minus that of the nights without.

    Each median has the interval between two of its readings (by the binomial distribution in its normal
    approximation: Conover, Practical Nonparametric Statistics, 3rd ed. 1999, 3.2), half a step wider at either end, since
    a reading noted as 7 may be anything from 6.5 to 7.5; the two are put together by squares (Zou & Donner, Statistics
    in Medicine 27, 2008). No form of distribution is assumed.
    """
    step = _step(with_mark, without)
    (one, low1, high1), (two, low2, high2) = (_median(np.sort(x), step, inflation) for x in (with_mark, without))
    below, above = math.hypot(one - low1, high2 - two), math.hypot(high1 - one, two - low2)
    sides = Side(len(with_mark), one), Side(len(without), two)
    return Measure(MEDIANS, one - two, one - two - below, one - two + above, *sides)


def _step(with_mark: np.ndarray, without: np.ndarray) -> float:
    """The smallest step between two readings."""
    known = np.unique(np.concatenate([with_mark, without]))
    return float(np.diff(known).min()) if len(known) > 1 else 0.0


def _median(ordered: np.ndarray, step: float, inflation: float) -> tuple[float, float, float]:
    n = len(ordered)
    half = SURE * math.sqrt(n * inflation) / 2
    low, high = max(math.floor(n / 2 - half), 0), min(math.ceil(n / 2 + half), n - 1)
    middle = (float(ordered[(n - 1) // 2]) + float(ordered[n // 2])) / 2
    return middle, float(ordered[low]) - step / 2, float(ordered[high]) + step / 2


def risk_ratio(hits: int, of: int, other_hits: int, of_others: int, inflation: float = 1.0) -> Measure:
    """Share of `hits` among the nights after the first mark, over the share among the others.

    Interval: Katz, Baptista, Azen & Pike, Biometrics 34 (1978), on the logarithm; with half a night added everywhere
    where one of the two never came (Walter, Biometrika 62, 1975).
    """
    add = 0.0 if hits and other_hits else 0.5
    a, n, b, m = hits + add, of + add, other_hits + add, of_others + add
    half = SURE * math.sqrt(inflation * max(1 / a - 1 / n + 1 / b - 1 / m, 0))
    middle = a / n / (b / m)
    sides = Side(of, hits / of), Side(of_others, other_hits / of_others)
    value = sides[0].value / sides[1].value if other_hits else math.inf if hits else math.nan
    low, high = middle * math.exp(-half), middle * math.exp(half)
    return Measure(RISKS, value, 0.0 if not hits else low, math.inf if not other_hits else high, *sides)

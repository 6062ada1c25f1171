"""How likely chance alone gives as much: what is left of two columns, freed of the likeness to the nights before."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from keeper.study.patterns.within import Parts

LONGEST_GAP = 4
"""Nights of a gap that are bridged by what the nights before it let expect; after that the mean is as good."""

MARGIN = 1.05
"""The spread is taken a twentieth wider, since the likeness that is taken out is itself only estimated."""


@dataclass(frozen=True)
class Sums:
    """Of many pairs: correlation, nights, skewness under shuffling, and spread against that of shuffling."""

    r: np.ndarray
    nights: np.ndarray
    skewness: np.ndarray
    spread: np.ndarray


def freed(rows: np.ndarray, noted: np.ndarray, likeness: np.ndarray) -> np.ndarray:
    """Each night less what the two before it let expect; nights not noted stand as they were expected.

    The same sum is done to whatever is compared (Cochrane & Orcutt 1949), so a link keeps its size.
    """
    return _freed(rows * noted, noted, _gaps(noted), likeness)


def _gaps(noted: np.ndarray) -> list[np.ndarray]:
    """Where the first night of each gap lies, where the second, and so on, up to the longest that is bridged.

    Places in the array laid out as one; a gap among the first two nights of a row, with no two before it, is left out.
    """
    nights, missing = noted.shape[1], noted == 0
    first = missing.copy()
    first[:, 1:] &= ~missing[:, :-1]
    first[:, :2] = False
    places = [np.flatnonzero(first)]
    missing = np.append(missing.reshape(-1), False)
    while len(places) < LONGEST_GAP:
        after = places[-1] + 1
        places.append(after[missing[after] & (after % nights > 0)])
    return places


def _freed(rows: np.ndarray, noted: np.ndarray, gaps: list[np.ndarray], likeness: np.ndarray) -> np.ndarray:
    filled = np.ascontiguousarray(rows).copy()
    flat = filled.reshape(-1)
    for places in gaps:
        flat[places] = likeness[0] * flat[places - 1] + likeness[1] * flat[places - 2]
    out = rows.copy()
    out[:, 1:] -= likeness[0] * filled[:, :-1]
    out[:, 2:] -= likeness[1] * filled[:, :-2]
    return out * noted


def chances(
    parts: Parts, marks: np.ndarray, lag: int, wanted: np.ndarray, progress: Callable[[float], None] = lambda share: None
) -> tuple[np.ndarray, np.ndarray]:
    """p of each pair (first x second) at a lag, and the correlation it belongs to.

    The second's likeness is taken out of both. At lag 0 neither comes second: both ways are asked and their p joined
    (Liu & Xie's Cauchy combination, J. Am. Stat. Assoc. 115, 2020). Only pairs with a `wanted` column in them; 1 and 0 for
    the others.
    """
    count = len(marks)
    p, r = np.ones((count, count)), np.zeros((count, count))
    for j in range(count):
        progress(j / count)
        # A slice, where it may be: nothing is then copied.
        rows = slice(None) if wanted[j] else np.flatnonzero(wanted)
        sums = _sums(parts, rows, j, lag)
        spread = np.where(marks[rows] | marks[j], np.maximum(sums.spread, 1), 1)
        z = sums.r * np.sqrt(sums.nights - 1) / np.sqrt(spread) / MARGIN
        p[rows, j], r[rows, j] = tails(z, sums.skewness / spread**1.5), sums.r
    return (joined(p, p.T), (r + r.T) / 2) if lag == 0 else (p, r)


def _sums(parts: Parts, rows: slice | np.ndarray, j: int, lag: int) -> Sums:
    nights = parts.left.shape[1]
    both = parts.noted[rows, : nights - lag] * parts.noted[j, lag:]
    gaps, likeness = _gaps(both), parts.likeness[j]
    first, second = (_freed(of * both, both, gaps, likeness) for of in (parts.left[rows, : nights - lag], parts.left[j, lag:]))
    return sums(first, second, both)


def sums(first: np.ndarray, second: np.ndarray, both: np.ndarray) -> Sums:
    """Row by row, over the nights that are 1 in `both`.

    Skewness: of the correlation over all orders of one of the two, exactly. Spread: the variance that allows for it
    being larger on some nights than on others (White, Econometrica 48, 1980), over the variance of shuffling; where
    marks come in clusters this is what keeps two clusters that happen to meet from standing out.
    """
    n = np.maximum(both.sum(1), 3)
    a, b = ((one - (one.sum(1) / n)[:, None]) * both for one in (first, second))
    aa, bb = a * a, b * b
    va, vb = (np.maximum(squares.sum(1), 1e-300) for squares in (aa, bb))
    ab = np.einsum("ij,ij->i", a, b)
    rest = b - (ab / va)[:, None] * a
    rest *= rest
    spread = np.einsum("ij,ij->i", aa, rest) * n / np.maximum(va * rest.sum(1), 1e-300)
    cubes = np.einsum("ij,ij->i", aa, a) * np.einsum("ij,ij->i", bb, b)
    skewness = n * np.sqrt(n - 1) / (n - 2) * cubes / (va * vb) ** 1.5
    return Sums(ab / np.sqrt(va * vb), n, skewness, spread)


def tails(z: np.ndarray, skewness: np.ndarray) -> np.ndarray:
    """Twice the smaller tail of a Pearson III distribution of mean 0, variance 1 and this skewness."""
    from scipy.special import gammainc, gammaincc, ndtr

    even = np.abs(skewness) < 1e-3
    skewness = np.where(even, 1, skewness)
    shape = 4 / skewness**2
    at = np.maximum(shape + 2 * z / skewness, 0)
    smaller = np.where(even, ndtr(-np.abs(z)), np.minimum(gammaincc(shape, at), gammainc(shape, at)))
    return np.minimum(1.0, 2 * smaller)


def joined(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """The Cauchy combination of two p of the same question."""
    # A p of 1 must not outweigh a small one.
    mean = sum(1 / np.tan(np.pi * np.clip(p, 1e-300, 0.99)) for p in (one, other)) / 2
    return np.where(mean > 0, np.arctan(1 / np.maximum(mean, 1e-300)), np.pi / 2 - np.arctan(mean)) / np.pi

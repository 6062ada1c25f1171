"""Around a mark: the course of a reading in the nights before and after, against other nights of the same seasons.

Superposed epochs (Chree, Phil. Trans. R. Soc. A 212, 1913). What is usual is found as Haurwitz & Brier, Monthly Weather
Review 109 (1981), advise, by the same sum around nights drawn by lot; but marks come in clusters and readings run on, so
a cluster is moved as one, by up to 45 nights either way, and meets the same season there. It fails where there are few
clusters (the band is then wide), and where the mark itself follows a drift quicker than the season.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

DRAWS = 999
SEASON = 45
"""How far, in nights, a cluster is moved: what lies so near is of the same season."""

CLUSTERS_NEEDED = 5
"""So many clusters, and so many readings on one and the same offset, are the least."""

SURE = 0.95

AT_ONCE = 2_000_000
"""Readings looked up in one go, so that whoever waits can be told how far it is."""


@dataclass(frozen=True)
class Around:
    """The mean of a reading at each offset from the marked nights (-span to span; NaN where never noted).

    The mean, not the median: a scale of whole numbers has few medians, and a dip of half a step would not be seen.
    low, high: between these lie 95 % of the means around other nights of the same seasons, offset by offset. counts:
    nights behind each mean. p: how often those others leave what is usual as far, at any offset.
    marked: nights with the mark. clusters: of which none lies within `span` of another. farthest: the offset at which
    the mean is farthest from the usual, in spreads of those others.
    """

    offsets: tuple[int, ...]
    means: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    counts: tuple[int, ...]
    marked: int
    clusters: int
    p: float
    farthest: int


def around(
    reading: Sequence[float | None], mark: Sequence[float | None], *, span: int = 7, seed: int = 0,
    heard: Callable[[float], object] = lambda share: None,
) -> Around | None:  # fmt: skip
    """The course of a reading around each night with a mark (above 0). None under five clusters, or five readings.

    heard: told again and again how far it is, 0 to 1; what it raises breaks it off. ValueError for a span below 1 or
    columns of unequal length.
    """
    if span < 1 or len(reading) != len(mark):
        raise ValueError("a span is a night or more, and both columns have the same nights")
    values, yes = np.array(reading, float), np.flatnonzero(np.nan_to_num(np.array(mark, float)) > 0)
    cluster = _clusters(yes, span)
    if not len(yes) or cluster[-1] + 1 < CLUSTERS_NEEDED:
        return None
    means, counts = _means(values, yes[None], span)
    if counts.max() < CLUSTERS_NEEDED:
        return None
    others = _others(values, yes, cluster, span, np.random.default_rng(seed), heard)
    with warnings.catch_warnings():
        # Where a reading was never noted, there is no usual.
        warnings.simplefilter("ignore", RuntimeWarning)
        low, high = np.nanquantile(others, ((1 - SURE) / 2, (1 + SURE) / 2), axis=0)
        p, farthest = _p(means[0], others)
    rows = (tuple(float(v) for v in row) for row in (means[0], low, high))
    return Around(
        tuple(range(-span, span + 1)), *rows, tuple(counts[0].tolist()), len(yes), int(cluster[-1]) + 1, p, farthest - span
    )


def clusters(mark: Sequence[float | None], span: int) -> int:
    """How many clusters of marked nights there are, of which none lies within `span` nights of another."""
    yes = [night for night, value in enumerate(mark) if value is not None and value > 0]
    return int(_clusters(np.array(yes), span)[-1]) + 1 if yes else 0


def _clusters(yes: np.ndarray, span: int) -> np.ndarray:
    """For each marked night the number of its cluster, from 0."""
    return np.cumsum(np.diff(yes, prepend=yes[:1]) > span)


def _others(
    values: np.ndarray, yes: np.ndarray, cluster: np.ndarray, span: int, rng: np.random.Generator, heard: Callable[[float], object]
) -> np.ndarray:
    """The means around nights drawn by lot (draws x offsets)."""
    moved = rng.integers(-SEASON, SEASON + 1, (DRAWS, int(cluster[-1]) + 1))
    found = []
    for first, last in _pieces(max(1, AT_ONCE // (len(yes) * (2 * span + 1)))):
        heard(first / DRAWS)
        found.append(_means(values, yes + moved[first:last, cluster], span)[0])
    return np.vstack(found)


def _pieces(size: int) -> Iterator[tuple[int, int]]:
    for first in range(0, DRAWS, size):
        yield first, min(first + size, DRAWS)


def _means(values: np.ndarray, centres: np.ndarray, span: int) -> tuple[np.ndarray, np.ndarray]:
    """The mean at each offset, and the nights behind it, for each row of centres (rows x offsets)."""
    wide = np.pad(values, SEASON + span, constant_values=np.nan)
    means, counts = [], []
    for offset in range(-span, span + 1):
        found = wide[centres + offset + SEASON + span]
        count = (~np.isnan(found)).sum(1)
        counts.append(count)
        means.append(np.where(count > 0, np.nansum(found, 1) / np.maximum(count, 1), np.nan))
    return np.stack(means, 1), np.stack(counts, 1)


def _p(seen: np.ndarray, others: np.ndarray) -> tuple[float, int]:
    """Farthest from the usual, in spreads, at any offset: how many of the draws are as far (Phipson & Smyth 2010), and where."""
    every = np.vstack([seen, others])
    spread = np.maximum(np.nanstd(every, axis=0), 1e-12)
    off = np.nan_to_num(np.abs(every - np.nanmean(every, axis=0)) / spread)
    far = off.max(axis=1)
    return float((far >= far[0] - 1e-12).mean()), int(off[0].argmax())

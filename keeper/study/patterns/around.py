"""Around a mark: the course of a reading in the nights before and after, against other nights of the same seasons.

Superposed epochs (Chree, Phil. Trans. R. Soc. A 212, 1913). What is usual is found as Haurwitz & Brier, Monthly Weather
Review 109 (1981), advise, by the same sum around nights drawn by lot; but marks come in clusters and readings run on, so
a cluster is moved as one, by up to 45 nights either way, and meets the same season there. It fails where there are few
clusters (the band is then wide), and where the mark itself follows a drift quicker than the season.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

DRAWS = 999
SEASON = 45
"""How far, in nights, a cluster is moved: what lies so near is of the same season."""

CLUSTERS_NEEDED = 5
SURE = 0.95


@dataclass(frozen=True)
class Around:
    """The mean of a reading at each offset from the marked nights (-span to span; NaN where never noted).

    low, high: between these lie 95 % of the means around other nights of the same seasons, offset by offset. counts:
    nights behind each mean. p: how often those others leave what is usual as far, at any offset.
    marked: nights with the mark. clusters: of which none lies within `span` of another.
    """

    offsets: tuple[int, ...]
    means: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    counts: tuple[int, ...]
    marked: int
    clusters: int
    p: float


def around(
    reading: Sequence[float | None], mark: Sequence[float | None], *, span: int = 7, seed: int = 0
) -> Around | None:
    """The course of a reading around each night with a mark (above 0). None under five clusters of marked nights.

    ValueError for a span below 1 or columns of unequal length.
    """
    if span < 1 or len(reading) != len(mark):
        raise ValueError("a span is a night or more, and both columns have the same nights")
    values, yes = np.array(reading, float), np.flatnonzero(np.nan_to_num(np.array(mark, float)) > 0)
    cluster = _clusters(yes, span)
    if not len(yes) or cluster[-1] + 1 < CLUSTERS_NEEDED:
        return None
    means, counts = _means(values, yes[None], span)
    moved = np.random.default_rng(seed).integers(-SEASON, SEASON + 1, (DRAWS, int(cluster[-1]) + 1))
    others, _ = _means(values, yes + moved[:, cluster], span)
    low, high = np.nanquantile(others, ((1 - SURE) / 2, (1 + SURE) / 2), axis=0)
    rows = (tuple(float(v) for v in row) for row in (means[0], low, high))
    return Around(
        tuple(range(-span, span + 1)), *rows, tuple(counts[0].tolist()), len(yes), int(cluster[-1]) + 1, _p(means[0], others)
    )


def _clusters(yes: np.ndarray, span: int) -> np.ndarray:
    """For each marked night the number of its cluster, from 0."""
    return np.cumsum(np.diff(yes, prepend=yes[:1]) > span)


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


def _p(seen: np.ndarray, others: np.ndarray) -> float:
    """Farthest from the usual, in spreads, at any offset: how many of the draws are as far (Phipson & Smyth 2010)."""
    every = np.vstack([seen, others])
    spread = np.maximum(np.nanstd(every, axis=0), 1e-12)
    far = np.nanmax(np.abs(every - np.nanmean(every, axis=0)) / spread, axis=1)
    return float((far >= far[0] - 1e-12).mean())

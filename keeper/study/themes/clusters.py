"""From points to themes: grouping, the number of themes, and what a first grouping teaches."""

from __future__ import annotations

import math

from keeper.study.k_means import k_means
from keeper.study.themes.counts import unit

STARTS = 5
FEW_STARTS = 4  # for very many lines, where starts differ less
MANY_GROUPS = 100  # beyond, one start and fewer rounds: what they miss is little and is joined afterwards
FEW_LINES = 500  # beyond, lines are never so alike that there are fewer different ones than groups
FIRST = 40
MANY_LINES = 12_000  # beyond, more groups to start from
SPARE = 1.4  # as many more groups are made than themes are wished, before the nearest are joined
APART = (0.51, 0.63)  # themes whose middles lie nearer than this (1 - cosine) are one: of few lines, of many
APART_GROWS = 0.057  # with each e-fold of the lines: the more there are, the surer are middles, and the nearer do they lie
APART_OF = 365
FINE_APART = 0.6  # the same for small themes
SETTLE_FROM = 20  # lines for each theme; fewer are too few to learn from
SETTLE_ON = 4000
STICKY = 0.25  # a line leaves the theme where it was only for one that is nearer by so much


def first_count(lines: int) -> int:
    """How many groups to start from: few for few lines, 40 up to 12,000, then slowly more (59 for 55,000)."""
    return max(2, min(FIRST, lines // 8)) if lines <= MANY_LINES else round(FIRST * (lines / MANY_LINES) ** 0.25)


def apart(lines: int) -> float:
    """How far the middles of themes lie from one another (1 - cosine), when there are so many lines."""
    few, many = APART
    return min(many, few + APART_GROWS * max(0.0, math.log(max(1, lines) / APART_OF)))


def group(points, smoothed, *, count: int | None = None, fine: int | None = None, seed: int = 0):
    """(n,) labels 0..k-1 from unit rows: spherical k-means, average-link merging of the middles, one lesson learned.

    `count` = the wished number; None = merged until the middles are apart. `fine`: then up to about so many small ones.
    ValueError if count is below 1.
    """
    import numpy as np

    if count is not None and count < 1:
        raise ValueError("a number of themes is at least 1")
    n = len(smoothed)
    if n == 0:
        return np.zeros(0, dtype=int)
    wished = count or fine
    start = max(FIRST // 2, round(SPARE * wished)) if wished else first_count(n)
    labels = _k_means(smoothed, min(start, n), seed)
    labels = merged(smoothed, labels, count, FINE_APART if fine else apart(n))
    return np.unique(labels if fine else settled_where_many(points, smoothed, labels, seed), return_inverse=True)[1]


def settled_where_many(points, smoothed, labels, seed: int):
    """`settled`, where there are lines enough to learn from; else the labels themselves."""
    if labels.max() > 0 and len(labels) >= SETTLE_FROM * (labels.max() + 1):
        return settled(points, smoothed, labels, seed)
    return labels


def _k_means(smoothed, count: int, seed: int):
    import numpy as np

    if count < 2:
        return np.zeros(len(smoothed), int)
    if len(smoothed) <= FEW_LINES:
        # Lines that say the same are one group; k-means wants as many different rows as groups.
        rows, same = np.unique(smoothed.round(2), axis=0, return_inverse=True)
        if len(rows) <= count:
            return same.ravel()
    # Rows are of length one, so that the squared distance is 2 - 2 cosine: the spherical k-means of Dhillon & Modha
    # (2001) but for the length of the middles. Middles are found on a part when there are many lines.
    part = smoothed if len(smoothed) <= 8000 else smoothed[np.random.default_rng(seed).permutation(len(smoothed))[:8000]]
    starts, rounds = STARTS if len(part) == len(smoothed) else FEW_STARTS, 100
    if count > MANY_GROUPS:
        starts, rounds = 1, 30
    means = k_means(part, count, starts=starts, rounds=rounds, seed=seed)
    return means.predict(smoothed) if len(part) < len(smoothed) else means.labels_


def middles(rows, labels, count: int | None = None):
    """(k, d) unit rows: the mean direction of each label 0..k-1; zeros for a label without lines."""
    import numpy as np
    from scipy.sparse import csr_matrix

    kept = np.flatnonzero(labels >= 0)
    size = count if count is not None else int(labels.max(initial=-1)) + 1
    of_theme = csr_matrix((np.ones(len(kept), np.float32), (labels[kept], kept)), shape=(size, len(labels)))
    return unit(of_theme @ rows)


def merged(smoothed, labels, count: int | None, least: float):
    """Join labels by average linkage of the cosine between middles: down to `count`, or while nearer than `least`."""
    import numpy as np
    from scipy.cluster.hierarchy import fcluster, linkage

    labels = np.unique(labels, return_inverse=True)[1]
    if labels.max() < 1:
        return labels
    tree = linkage(middles(smoothed, labels), "average", metric="cosine")
    if count is None:
        return fcluster(tree, least, "distance")[labels] - 1
    return fcluster(tree, count, "maxclust")[labels] - 1


def settled(points, smoothed, labels, seed: int = 0):
    """Labels again, from what the most central lines of each theme teach a linear classifier.

    The most central 60 % of each label train a multinomial logistic regression on points and smoothed points side by
    side; it then says where every line belongs (Rakib, Zeh, Jankowska & Milios 2020, enhancement of short text
    clustering by iterative classification).
    """
    import numpy as np
    from sklearn.linear_model import LogisticRegression

    both = np.hstack([points, smoothed])
    taught = _central(smoothed, labels)
    if len(taught) > SETTLE_ON:
        taught = np.sort(np.random.default_rng(seed).choice(taught, SETTLE_ON, replace=False))
    return LogisticRegression(C=2, max_iter=60).fit(both[taught], labels[taught]).predict(both)


def _central(smoothed, labels):
    import numpy as np

    near, kept = closeness(smoothed, labels), []
    for theme in range(labels.max(initial=-1) + 1):
        inside = np.flatnonzero(labels == theme)
        kept.append(inside[np.argsort(-near[inside], kind="stable")[: max(3, int(0.6 * len(inside)))]])
    return np.sort(np.concatenate(kept))


def closeness(rows, labels):
    """(n,) cosine of each row with the middle of its label; 0 for loose lines (-1)."""
    import numpy as np

    if labels.max(initial=-1) < 0:
        return np.zeros(len(rows), np.float32)
    near = np.einsum("nd,nd->n", rows, middles(rows, labels)[np.maximum(labels, 0)])
    return np.where(labels >= 0, near, 0)


def continued(smoothed, before, rounds: int = 3):
    """(n,) labels that go on from earlier ones (`before`, -1 = in none): old lines stay unless clearly misplaced."""
    import numpy as np

    known = int(before.max(initial=-1)) + 1
    labels, old = before.copy(), before >= 0
    for _ in range(rounds):
        near = smoothed @ middles(smoothed, labels, known).T
        best = near.argmax(axis=1)
        stays = old & (near[np.arange(len(best)), np.maximum(before, 0)] + STICKY >= near.max(axis=1))
        labels = np.where(stays, before, best)
    return labels

"""k-means as scikit-learn's, but that the rows to begin with are found for all starts together, in a third of the time."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from sklearn.cluster import KMeans


def k_means(rows: np.ndarray, count: int, *, starts: int, rounds: int, seed: int) -> KMeans:
    """Groups of (n, d) float32 rows, the best of so many starts; there must be as many rows as groups."""
    import numpy as np
    from sklearn.cluster import KMeans

    begun = iter(spread(rows - rows.mean(axis=0), count, starts, np.random.RandomState(seed)))
    # It takes their mean from the rows, too, and then asks for each start where to begin.
    return KMeans(count, init=lambda *_, **__: next(begun), n_init=starts, max_iter=rounds).fit(rows)


def spread(rows: np.ndarray, count: int, starts: int, random: np.random.RandomState) -> np.ndarray:
    """(starts, count, d) rows far from one another, of some drawn each time the best (Arthur & Vassilvitskii 2007, k-means++).

    What is drawn is what scikit-learn would draw for one start after the other, so that they are the same.
    """
    import numpy as np

    n, tried, every = len(rows), 2 + int(np.log(count)), np.arange(starts)
    # Of rows that are much alike, little would be left of the difference in single precision.
    wide, chosen, luck = rows.astype(np.float64), np.empty((starts, count), int), np.empty((starts, count, tried))
    lengths = np.einsum("nd,nd->n", wide, wide)
    for start in every:
        chosen[start, 0] = random.choice(n, p=np.full(n, 1 / n))
        luck[start, 1:] = random.uniform(size=(count - 1, tried))
    near, ones = _distances(wide, lengths, chosen[:, 0]), np.ones(n, np.float32)
    left = near @ ones
    for at in range(1, count):
        sums, wanted = near.cumsum(axis=1), luck[:, at] * left[:, None]
        drawn = np.stack([np.searchsorted(sums[i], wanted[i]) for i in every]).clip(None, n - 1)
        nearer = np.minimum(near[:, None], _distances(wide, lengths, drawn.ravel()).reshape(starts, tried, n))
        left_by = nearer @ ones
        best = left_by.argmin(axis=1)
        near, left, chosen[:, at] = nearer[every, best], left_by[every, best], drawn[every, best]
    return rows[chosen]


def _distances(wide: np.ndarray, lengths: np.ndarray, chosen: np.ndarray) -> np.ndarray:
    """(m, n) of the chosen rows to all, squared, in single precision; `lengths`: (n,) squared."""
    import numpy as np

    distances = wide[chosen] @ wide.T
    distances *= -2
    distances += lengths[chosen][:, None]
    distances += lengths
    return np.maximum(distances, 0).astype(np.float32)

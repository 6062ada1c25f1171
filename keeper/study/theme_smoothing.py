"""Lines drawn towards their like, so that a few words say more. Nothing of size n by n is ever held."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.theme_words import unit

if TYPE_CHECKING:
    import numpy as np

REFERENCE_LINES = 4000  # neighbours are looked for among at most so many lines, so that cost stays linear
MANY_LINES = 8000  # from here on among half as many: there are enough like lines in any part
WIDTH = 3.3  # neighbours grow with the cube root of the lines: 33 for 1,000
BLOCK = 1000  # lines compared at a time: 1,000 x 4,000 similarities are 16 MB


@dataclass(frozen=True, eq=False)
class Neighbours:
    """For each of n lines its m most alike reference lines: `index` (n, m) into `lines`, `share` (n, m) adding up to 1."""

    lines: np.ndarray
    index: np.ndarray
    share: np.ndarray


def neighbours(points, shared, seed: int = 0) -> Neighbours:
    """The most alike lines of each line, by the cosine of their points plus that of their TF-IDF rows."""
    import numpy as np

    n = len(points)
    lines = np.arange(n)
    most = REFERENCE_LINES if n <= MANY_LINES else REFERENCE_LINES // 2
    if n > most:
        lines = np.sort(np.random.default_rng(seed).choice(n, most, replace=False))
    size = max(1, min(len(lines) - 1, max(10, round(WIDTH * len(lines) ** (1 / 3)))))
    index, alike = np.empty((n, size), np.int32), np.empty((n, size), np.float32)
    place = np.full(n, -1)
    place[lines] = np.arange(len(lines))
    there, words = np.ascontiguousarray(points[lines].T), shared[lines].T.tocsr()
    for at in range(0, n, BLOCK):
        block = slice(at, min(n, at + BLOCK))
        likeness = points[block] @ there + (shared[block] @ words).toarray()
        mine = np.flatnonzero(place[block] >= 0)
        likeness[mine, place[block][mine]] = -9  # a line is not its own neighbour
        index[block] = np.argpartition(-likeness, size - 1, axis=1)[:, :size]
        alike[block] = np.take_along_axis(likeness, index[block], axis=1)
    return Neighbours(lines, index, neighbour_shares(alike))


def neighbour_shares(alike):
    """(n, m) weights of neighbours, adding up to 1, by the square of their likeness."""
    import numpy as np

    squared = np.maximum(alike, 0) ** 2
    return squared / np.maximum(squared.sum(axis=1, keepdims=True), 1e-9)


def smooth(points, shared, *, rounds: int = 3, seed: int = 0, among: Neighbours | None = None):
    """Each point drawn towards its neighbours: `rounds` times unit(0.3 own + 0.7 theirs). (n, d) unit rows."""
    import numpy as np


    if len(points) < 3:
        return points
    near = among or neighbours(points, shared, seed)
    draw = _drawing(near)
    smoothed = points
    for _ in range(rounds):
        drawn = unit(draw @ smoothed[near.lines])
        drawn *= np.float32(0.7)
        drawn += np.float32(0.3) * smoothed
        smoothed = unit(drawn)
    return smoothed


def _drawing(near: Neighbours):
    """(n, lines) sparse matrix of the shares."""
    import numpy as np
    from scipy.sparse import csr_matrix

    n, size = near.index.shape
    cells = (near.share.ravel().astype(np.float32), near.index.ravel(), np.arange(0, n * size + 1, size))
    return csr_matrix(cells, shape=(n, len(near.lines)))

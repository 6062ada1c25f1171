"""Lines drawn towards their like, so that a few words say more. Nothing of size n by n is ever held."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes.counts import unit

if TYPE_CHECKING:
    import numpy as np

REFERENCE_LINES = 4000  # neighbours are looked for among at most so many lines, so that cost stays linear
MANY_LINES = 8000  # from here on among half as many: there are enough like lines in any part
WIDTH = 4.0  # neighbours grow with the cube root of the lines: 40 for 1,000
OF_A_THEME = 1.25  # neighbours for each line of a theme, when so many are wished that a theme has few lines
WORDS_WEIGH = 1.5  # a word in common counts more than words of like meaning
STEEPNESS = 1.5
BLOCK = 1000  # lines compared at a time: 1,000 x 4,000 similarities are 16 MB


@dataclass(frozen=True, eq=False)
class Neighbours:
    """For each of n lines its m most alike reference lines: `index` (n, m) into `lines`, `share` (n, m) adding up to 1."""

    lines: np.ndarray
    index: np.ndarray
    share: np.ndarray


def neighbours(points, shared, *, themes: int | None = None, seed: int = 0) -> Neighbours:
    """The most alike lines of each line, by the cosine of their points plus 1.5 times that of their TF-IDF rows.

    `themes`: how many are wished, if that is known. Where each can only have a few lines, so many neighbours are
    looked for that they may come from one theme.
    """
    import numpy as np

    n = len(points)
    lines = np.arange(n)
    most = REFERENCE_LINES if n <= MANY_LINES else REFERENCE_LINES // 2
    if n > most:
        lines = np.sort(np.random.default_rng(seed).choice(n, most, replace=False))
    size = _width(len(lines), themes)
    index, alike = np.empty((n, size), np.int32), np.empty((n, size), np.float32)
    place = np.full(n, -1)
    place[lines] = np.arange(len(lines))
    there, words = np.ascontiguousarray(points[lines].T), (WORDS_WEIGH * shared[lines]).T.tocsr()
    for at in range(0, n, BLOCK):
        block = slice(at, min(n, at + BLOCK))
        likeness = points[block] @ there + (shared[block] @ words).toarray()
        mine = np.flatnonzero(place[block] >= 0)
        likeness[mine, place[block][mine]] = -9  # a line is not its own neighbour
        index[block] = np.argpartition(-likeness, size - 1, axis=1)[:, :size]
        alike[block] = np.take_along_axis(likeness, index[block], axis=1)
    return Neighbours(lines, index, neighbour_shares(alike))


def _width(lines: int, themes: int | None) -> int:
    usual = max(10, round(WIDTH * lines ** (1 / 3)))
    fit = max(4, round(OF_A_THEME * lines / themes)) if themes else usual
    return max(1, min(lines - 1, usual, fit))


def neighbour_shares(alike):
    """(n, m) weights of neighbours, adding up to 1; they grow faster than likeness, by its power 1.5."""
    import numpy as np

    steep = np.maximum(alike, 0) ** STEEPNESS
    return steep / np.maximum(steep.sum(axis=1, keepdims=True), 1e-9)


def smooth(points, shared, *, rounds: int = 3, themes: int | None = None, seed: int = 0):
    """Each point drawn towards its `neighbours`: `rounds` times unit(0.3 own + 0.7 theirs). (n, d) unit rows."""
    import numpy as np

    if len(points) < 3:
        return points
    near = neighbours(points, shared, themes=themes, seed=seed)
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

"""From lines to points: words weighed, words given directions, lines where their words point.

All arrays are float32 and C-ordered; n lines, v stems, d dimensions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes.background import background_weight, far_rows, topical_weight
from keeper.study.themes.counts import count_matrix, unit, unit_sparse, weigh, word_vectors
from keeper.study.themes.smoothing import MANY_LINES, REFERENCE_LINES, smooth
from keeper.study.tongues.keyed import tongue_of_lines, tongues

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.tongues.table import Background

OWN_DIMENSIONS = 50
ACROSS = 2.5  # what the table counts more where lines are in several languages: only there they come near to each other
FAR_DIMENSIONS = 100  # the table has more, for all its subjects; those that the lines speak of need no more


@dataclass(frozen=True, eq=False)
class Space:
    """What turns words into a line's point, learned from all lines.

    stems: v known stems. idf, weight: (v,). own: (v, d1) word directions learned from the lines, zero rows for stems
    seen once. own_common, far_common: the direction that all lines share, removed from each. turn: (d2, d3)
    from the table's dimensions to the fewer in which the lines differ most. far_weight: weight of the background table
    beside the own vectors, 0 = not used. count: number of lines learned from. near_means, far_means: (t, d1) and (t, d3)
    what the lines of each language have in common, taken from them first, where stems have several languages to them.
    """

    stems: tuple[str, ...]
    idf: np.ndarray
    weight: np.ndarray
    own: np.ndarray
    own_common: np.ndarray
    far_common: np.ndarray
    turn: np.ndarray
    far_weight: float
    count: int
    tongues: tuple[str, ...] = ()
    near_means: np.ndarray | None = None
    far_means: np.ndarray | None = None

    def seen(self) -> dict[str, int]:
        """In how many lines each stem stood."""
        import numpy as np

        times = (1 + self.count) / np.exp(self.idf.astype(np.float64) - 1) - 1
        return dict(zip(self.stems, times.round().astype(int).tolist(), strict=True))


def learn_space(docs: Sequence[Sequence[str]], tables: Mapping[str, Background], seed: int = 0):
    """Learn a Space from the stems of each line; with it the (n, v) counts and the (v, d2) background directions of its stems.

    Twice: the first points tell which words keep steady company; those that do not (they turn up in all sorts of
    lines) are weighed down for the second.
    """
    import numpy as np

    stems = tuple(sorted({stem for doc in docs for stem in doc}))
    counts = count_matrix(docs, stems)
    seen = np.bincount(counts.indices, minlength=len(stems))
    idf = (np.log((1 + len(docs)) / (1 + seen)) + 1).astype(np.float32)
    far, topicality = far_rows(stems, tables)
    own = _own_vectors(counts, seen, seed)
    far_weight = background_weight(counts, far, len(docs)) if tables else 0.0
    if len(tongues(stems)[0]) > 1:
        far_weight *= ACROSS
    turn = _turn(weigh(counts, idf, topical_weight(topicality)), far)
    first = _common(stems, idf, topical_weight(topicality), own, far @ turn, turn, far_weight, counts)
    weight = first.weight * _steadiness(first, counts, seen, far)
    return _common(stems, idf, weight, own, far @ turn, turn, far_weight, counts), counts, far


def _turn(weighed, far):
    """(d2, d3) the principal directions of the lines in the table's space, the shared one among them."""
    import numpy as np

    step = 1 + weighed.shape[0] // REFERENCE_LINES
    rows = unit(weighed[::step] @ far)
    return np.linalg.eigh((rows.T @ rows).astype(np.float64))[1][:, -FAR_DIMENSIONS:].astype(np.float32)


def _own_vectors(counts, seen, seed: int):
    import numpy as np

    # In many lines a word seen a few times has no company to speak of, yet makes the table of pairs large.
    often = np.flatnonzero(seen >= 2 + counts.shape[0] // MANY_LINES)
    if len(often) < 3:
        return np.zeros((counts.shape[1], 1), np.float32)
    vectors = word_vectors(counts[:, often], OWN_DIMENSIONS, seed)
    own = np.zeros((counts.shape[1], vectors.shape[1]), np.float32)
    own[often] = vectors
    return own


def _common(stems, idf, weight, own, far, turn, far_weight, counts) -> Space:
    """A Space with its shared directions worked out (Arora, Liang & Ma 2017)."""
    import numpy as np

    weighed = weigh(counts, idf, weight)
    often = np.linalg.norm(own, axis=1) > 0
    near, away, tongue = unit(_only(weighed, often) @ own), unit(weighed @ far), tongue_of_lines(counts, stems, tongues(stems)[0])
    near_means, far_means = _means(near, tongue), _means(away, tongue)
    own_common = _first_direction(_centred(near, tongue, near_means))
    far_common = _first_direction(_centred(away, tongue, far_means))
    return Space(
        stems, idf, weight, own, own_common, far_common, turn, far_weight, counts.shape[0], tongues(stems)[0],
        near_means, far_means,
    )  # fmt: skip


def _means(rows, tongue):
    """(t, d) the mean of the lines of each language; None where there are not two of them."""
    import numpy as np

    if tongue.max(initial=-1) < 1:
        return None
    some = np.linalg.norm(rows, axis=1) > 0
    parts = [rows[some & (tongue == i)] for i in range(tongue.max() + 1)]
    return np.stack([part.mean(axis=0) if len(part) else np.zeros(rows.shape[1]) for part in parts]).astype(np.float32)


def _centred(rows, tongue, means):
    """Rows of length one, without what all lines of their language have in common."""
    import numpy as np

    if means is None:
        return rows
    there = (np.linalg.norm(rows, axis=1, keepdims=True) > 0) & (tongue[:, None] >= 0)
    return unit(np.where(there, rows - means[np.maximum(tongue, 0)], rows))


def _only(weighed, kept):
    import numpy as np
    from scipy.sparse import diags

    return unit_sparse(weighed @ diags(np.asarray(kept, dtype=np.float32)))


def _first_direction(rows):
    import numpy as np

    return np.linalg.eigh((rows.T @ rows).astype(np.float64))[1][:, -1].astype(np.float32)


def line_points(space: Space, counts, far):
    """(n, d) unit rows, one point for each line, and the (n, v) TF-IDF rows of the words seen more than once."""
    import numpy as np

    weighed = weigh(counts, space.idf, space.weight)
    shared = _only(weighed, np.linalg.norm(space.own, axis=1) > 0)
    tongue = tongue_of_lines(counts, space.stems, space.tongues)
    near = _without(_centred(unit(shared @ space.own), tongue, space.near_means), space.own_common)
    if space.far_weight == 0:
        return near, shared
    far_rows = unit(weighed @ (far @ space.turn))
    away = _without(_centred(far_rows, tongue, space.far_means), space.far_common)
    return unit(np.hstack([near, np.float32(space.far_weight) * away])), shared


def _without(rows, direction):
    import numpy as np

    return unit(rows - np.outer(rows @ direction, direction).astype(np.float32, copy=False))


def _steadiness(space: Space, counts, seen, far):
    """(v,) 0.45 to 1: square root of how alike the lines are that share a word, once smoothed."""
    import numpy as np

    if counts.shape[0] > REFERENCE_LINES:
        part = np.random.default_rng(0).choice(counts.shape[0], REFERENCE_LINES, replace=False)
        counts = counts[np.sort(part)]
        seen = np.bincount(counts.indices, minlength=counts.shape[1])
    points, shared = line_points(space, counts, far)
    smoothed = smooth(points, shared, rounds=1)
    there = counts.copy()
    there.data[:] = 1
    pull = ((there.T @ smoothed) ** 2).sum(axis=1)
    alike = np.where(seen > 1, (pull - seen) / (seen - 1 + 3 / np.maximum(seen, 1)), 0) / np.maximum(seen, 1)
    usual = np.percentile(np.repeat(alike, seen), 90) if seen.sum() else 1.0
    return np.sqrt(np.clip(alike / max(usual, 1e-6), 0.2, 1)).astype(np.float32)

"""Word directions learned once from a dictionary, and how far these lines may lean on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource
from keeper.study.themes.counts import unit

if TYPE_CHECKING:
    import numpy as np

COMMON_TOPICALITY = 0.2  # of a word that the background table does not know: neither vague nor telling
USEFUL_MARGIN = 0.03  # nearness of words of one line over that of words apart, from which on the table is fully trusted


@dataclass(frozen=True, eq=False)
class Background:
    """Word directions learned once from a dictionary of the language; see resources/words/build_background.py.

    `rows` tells a stem's row in `vectors` (unit rows) and in `topicality` (0..1, how much the word says of a subject:
    the mean cosine of the dictionary entries that use it).
    """

    rows: dict[str, int]
    vectors: np.ndarray
    topicality: np.ndarray


@lru_cache(maxsize=4)
def background(language: str) -> Background | None:
    """The shipped table of a language, or None when there is none."""
    import numpy as np

    path = resource(f"words/background-{language}.npz")
    if not path.is_file():
        return None
    with np.load(path, allow_pickle=False) as table:
        stems = table["stems"].tobytes().decode("utf-8").split("\n")
        vectors, topicality = unit(table["vectors"].astype(np.float32)), table["topicality"].astype(np.float32) / 255
    return Background({stem: i for i, stem in enumerate(stems)}, vectors, topicality)


def far_rows(stems: Sequence[str], table: Background | None):
    """(v, d2) background directions of stems (zeros where unknown), and (v,) their topicality."""
    import numpy as np

    size = table.vectors.shape[1] if table else 1
    vectors, topicality = np.zeros((len(stems), size), np.float32), np.full(len(stems), COMMON_TOPICALITY, np.float32)
    for i, stem in enumerate(stems):
        row = table.rows.get(stem, -1) if table else -1
        if row >= 0:
            vectors[i], topicality[i] = table.vectors[row], table.topicality[row]
    return vectors, topicality


def topical_weight(topicality):
    """Vague words count less: square root of topicality, 0.5 to 1."""
    import numpy as np

    return np.sqrt(np.clip(topicality / COMMON_TOPICALITY, 0.25, 1)).astype(np.float32)


def background_weight(counts, far, lines: int) -> float:
    """How much the dictionary's word directions count beside those learned from the lines themselves.

    More for few lines, less as the lines can speak for themselves; less when the table knows few of their words; none
    when words that share a line are no nearer to one another in the table than words that do not (then the lines use
    words in another sense than the dictionary: technical text).
    """
    import numpy as np

    known = np.linalg.norm(far, axis=1) > 0
    total = counts.data.sum()
    coverage = counts.data[known[counts.indices]].sum() / total if total else 0.0
    by_count = np.clip(2.2 * (365 / max(1, lines)) ** 0.2, 0.8, 2.4)
    return float(by_count * np.clip((coverage - 0.4) / 0.4, 0, 1) * usefulness(counts, far))


def usefulness(counts, far) -> float:
    """0..1: do words of one line lie nearer to one another in the table than words of different lines?"""
    import numpy as np

    sums = (counts @ far)[:3000]
    squares = np.asarray(counts[:3000].multiply(counts[:3000]) @ (far**2).sum(axis=1)).ravel()
    known = np.asarray(counts[:3000] @ (np.linalg.norm(far, axis=1) > 0)).ravel()
    pairs = known * (known - 1)
    if pairs.sum() == 0:
        return 1.0
    within = ((sums**2).sum(axis=1) - squares)[pairs > 0].sum() / pairs.sum()
    across = (sums.sum(axis=0) ** 2).sum() - (sums**2).sum()
    across /= max(1.0, known.sum() ** 2 - (known**2).sum())
    return float(np.clip((within - across) / USEFUL_MARGIN, 0, 1))

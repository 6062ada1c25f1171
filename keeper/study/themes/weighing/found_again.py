"""Leftovers: groups that a look through other words does not find again.

What is truly about one thing says so in more than one word. So some of the words of all lines are left out at random, the
lines are grouped again, and each group is asked how much of it comes together once more (Hennig 2007, cluster-wise
assessment of cluster stability: the mean of the greatest Jaccard likenesses). Lines that share a word but no subject,
and lines that only lay between the others, part. Lines are never compared with what they are about to anyone: this is
a sum, and the same in any language.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from keeper.study.themes import clusters
from keeper.study.themes.smoothing import smooth
from keeper.study.themes.weighing.looks import through_part_of_their_words

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.learning import Learned

LOOKS = 3
KEPT_WORDS = 0.7
LEAST, MIXED = 0.35, 0.5  # of what is usual among these lines: all are found again the less, the fewer words they have
SEEN = 2000  # lines looked at where there are more
FEW = 5  # of a group among the lines looked at; fewer tell nothing


def found_again(learned: Learned, labels: np.ndarray, seed: int = 0) -> np.ndarray:
    """(k,) how much of each of the groups 0..k-1 comes together again, 0..1; nan where too few lines of it were seen.

    labels: (n,) the group of each line, -1 = loose.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    part = learned.some
    if len(part) > SEEN:
        part = np.sort(rng.choice(part, SEEN, replace=False))
    before = labels[part]
    looks = [_alike(before, _looked(learned, part, rng, seed + look)) for look in range(LOOKS)]
    size = int(labels.max(initial=-1)) + 1
    seen = np.bincount(before[before >= 0], minlength=size) if size else np.zeros(0)
    enough = seen >= np.minimum(FEW, np.bincount(labels[labels >= 0], minlength=size))
    return np.where(enough & (seen > 0), np.mean(looks, axis=0), np.nan) if size else seen


def usual(again: np.ndarray, labels: np.ndarray) -> float:
    """What half of the lines in groups reach or exceed, each with the number of its group; 0 where none is in one."""
    import numpy as np

    of_lines = again[labels[labels >= 0]]
    of_lines = of_lines[np.isfinite(of_lines)]
    return float(np.median(of_lines)) if len(of_lines) else 0.0


def _looked(learned: Learned, part: np.ndarray, rng: np.random.Generator, seed: int) -> np.ndarray:
    """The groups of the lines `part` when some of their words are left out; -1 for a line of which nothing is left."""
    import numpy as np

    some, points, shared = through_part_of_their_words(learned, part, rng, KEPT_WORDS)
    labels = np.full(len(part), -1)
    labels[some] = clusters.group(points, smooth(points, shared, seed=seed), seed=seed)
    return labels


def _alike(before: np.ndarray, after: np.ndarray) -> np.ndarray:
    """(k,) the greatest Jaccard likeness of each group before with one after, among the lines that have one in both."""
    import numpy as np

    both = (before >= 0) & (after >= 0)
    together = np.zeros((int(before.max(initial=-1)) + 1, int(after.max(initial=-1)) + 1))
    np.add.at(together, (before[both], after[both]), 1)
    either = together.sum(axis=1, keepdims=True) + together.sum(axis=0, keepdims=True) - together
    return (together / np.maximum(either, 1)).max(axis=1, initial=0.0)

"""What comes together again and again: the lines are looked at several times, each time through a part of their words.

One grouping of lines that say much beside what they are about is half chance: another start, or a word less, and it comes
out otherwise. What many groupings agree on is less so (Fred and Jain 2005, evidence accumulation). So each line is known
by the groups it came into, and lines that came into the same ones are alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.k_means import k_means
from keeper.study.themes.clusters import first_count, merged, middles
from keeper.study.themes.counts import unit
from keeper.study.themes.points import line_points
from keeper.study.themes.smoothing import smooth

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.learning import Learned

LOOKS = 12
KEPT_WORDS = 0.9
SEEN = 2000  # lines looked at where there are more
FINER, COARSER = 1.4, 0.6  # of the groups that a look begins with, so that looks do not all part at the same seams
DIMENSIONS = 60
ROUNDS = 30
FIRST = 2  # times as many groups as usual are joined
LOOSELY = 0.3  # of the looks, in which two lines of a group come together in the mean; less, and it is none


@dataclass(frozen=True, eq=False)
class Looks:
    """Of the lines `part`: (m, g) in which groups each came, unit rows, and (m,) small groups of those that came together."""

    part: np.ndarray
    came: np.ndarray
    rows: np.ndarray
    first: np.ndarray

    def joined(self, smoothed: np.ndarray, count: int) -> np.ndarray:
        """(n,) labels 0..k-1 of all rows, `count` groups of what came together; a row not looked at goes to the nearest."""
        import numpy as np

        inside = merged(self.rows, self.first, count, 0.0)
        if len(self.part) == len(smoothed):
            return inside
        labels = (smoothed @ middles(smoothed[self.part], inside).T).argmax(axis=1)
        labels[self.part] = inside
        return np.unique(labels, return_inverse=True)[1]

    def together(self, labels: np.ndarray) -> np.ndarray:
        """(k,) how often two lines of each group 0..k-1 come together; `labels`: (n,) of all rows, -1 = loose.

        1 stands for always, and in a group wider than those of a look for as often as its lines could.
        """
        import numpy as np

        found = np.zeros(int(labels.max(initial=-1)) + 1)
        wide = len(self.part) * LOOKS / self.came.shape[1]
        for group in range(len(found)):
            its = self.came[labels[self.part] == group]
            total = its.sum(axis=0)
            often = (total @ total - (its * its).sum()) / max(1, len(its) * (len(its) - 1))
            found[group] = often / min(1.0, wide / max(1, len(its)))
        return found


def looked(learned: Learned, seed: int = 0) -> Looks:
    """Looks at the lines `some` of what was learned."""
    import numpy as np
    from sklearn.utils.extmath import randomized_svd

    rng = np.random.default_rng(seed)
    part = np.arange(len(learned.some))
    if len(part) > SEEN:
        part = np.sort(rng.choice(part, SEEN, replace=False))
    came = np.hstack([_look(learned, learned.some[part], rng, seed + look) for look in range(LOOKS)]) / np.sqrt(LOOKS)
    left, values, _ = randomized_svd(came, min(DIMENSIONS, min(came.shape) - 1), random_state=seed)
    rows = unit(left * values).astype(np.float32)
    groups = min(FIRST * first_count(len(part)), len(np.unique(rows.round(3), axis=0)))
    return Looks(part, came, rows, k_means(rows, groups, starts=3, rounds=ROUNDS, seed=seed).labels_)


def through_part_of_their_words(
    learned: Learned, part: np.ndarray, rng: np.random.Generator, kept: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(s,) places in `part` of the lines of which a word is left, and (s, d) of each its point and what it shares.

    kept: the share of their words, drawn by chance, through which they are looked at.
    """
    import numpy as np

    counts = learned.counts[part].tocsr()
    counts.data = counts.data * (rng.random(counts.nnz) < kept)
    counts.eliminate_zeros()
    points, shared = line_points(learned.space, counts, learned.far)
    some = np.flatnonzero(np.linalg.norm(points, axis=1) > 0)
    return some, points[some], shared[some]


def _look(learned: Learned, part: np.ndarray, rng: np.random.Generator, seed: int) -> np.ndarray:
    """(m, g) 1 for the group that a line comes into; nothing for a line of which no word is left."""
    import numpy as np

    some, points, shared = through_part_of_their_words(learned, part, rng, KEPT_WORDS)
    usual = first_count(len(part))
    groups = max(2, min(int(rng.uniform(COARSER, FINER) * usual), len(some) // 4))
    rows = smooth(points, shared, seed=seed)
    there = np.zeros((len(part), groups), np.float32)
    there[some, k_means(rows, groups, starts=1, rounds=ROUNDS, seed=seed).labels_] = 1
    return there

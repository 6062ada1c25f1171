"""The guard against chance: would the same words, dealt out among the lines anew, give such themes too?

Grouping finds themes in anything. What shuffled lines do not have is words that keep company: pairs that come together
in one line after another, and words of one line that the dictionary, too, holds to be near.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes.counts import presence
from keeper.study.tongues.keyed import tongue_of_lines, tongues

if TYPE_CHECKING:
    import numpy as np

SHUFFLES = 24
SAMPLE = 2000  # lines looked at; more would not make a surer guard
SURE_FROM = 3.5  # standard deviations above the shuffled lines; chance gets there about once in a thousand times
SURE_AT = 16.0
DEALT_AGAIN, EACH = 20, 4  # words that came twice to a line are dealt again with so many others, so often
MOSTLY_KNOWN = 0.5  # share of the words
PAIRS_BESIDE_TABLE = 0.4  # what two words always joined by a hyphen give counts less where meaning can be asked


@dataclass(frozen=True)
class Company:
    """How far words keep company: standard deviations above shuffled lines, by recurring pairs and by the dictionary."""

    pairs: float
    nearness: float

    @property
    def beats_chance(self) -> bool:
        """Whether either stands clear of what shuffled lines give."""
        return max(self.pairs, self.nearness) >= SURE_FROM

    @property
    def holds(self) -> bool:
        """Whether what once beat chance may go on: a lower bar, so that nothing flickers at the border."""
        return max(self.pairs, self.nearness) >= SURE_FROM / 2

    @property
    def sure(self) -> float:
        """0 at chance, 1 from sixteen standard deviations up; grows with the logarithm."""
        above = max(self.pairs, self.nearness, 0.0)
        return min(1.0, math.log1p(above) / math.log1p(SURE_AT))


def company(counts, far, seed: int = 0, stems: Sequence[str] = ()) -> Company:
    """Compare lines with shuffled ones: (n, v) sparse counts, (v, d) background directions (zeros where unknown).

    A permutation test: words are dealt out anew among the lines, each line keeping its length. Where `stems` have
    languages to them, words are dealt out among those of their language: that lines are in one tells of no theme.
    Deterministic for a seed.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    if counts.shape[0] > SAMPLE:
        counts = counts[np.sort(rng.choice(counts.shape[0], SAMPLE, replace=False))]
    there, tongue = presence(counts), tongues(stems)[1]
    # Whether lines say a word twice is the person's way of writing; neither way of dealing may be the one that tells.
    ways = [[way(counts, rng, tongue) for _ in range(SHUFFLES)] for way in (_dealt_anew, _dealt_blindly)]
    # A handful of recurring pairs is no normal variate: few lines must not be sure by them alone.
    pairs = min(_above(recurring_pairs, there, chance) for chance in ways) * min(1.0, there.shape[0] / 200)
    if _share_known(there, far) >= MOSTLY_KNOWN:
        pairs *= PAIRS_BESIDE_TABLE
    return Company(pairs, min(_above(lambda dealt: line_nearness(dealt, far), there, chance) for chance in ways))


def _share_known(there, far) -> float:
    import numpy as np

    return float((np.abs(far).sum(axis=1) > 0)[there.indices].mean()) if there.nnz else 0.0


def dealt_lines(counts, seed: int = 0, stems: Sequence[str] = ()):
    """Lines as long as those of the (n, v) counts, with words dealt out among them at random; some, if there are many."""
    import numpy as np

    rng = np.random.default_rng(seed)
    if counts.shape[0] > SAMPLE:
        counts = counts[np.sort(rng.choice(counts.shape[0], SAMPLE, replace=False))]
    return _dealt_anew(counts, rng, tongues(stems)[1])


def _dealt_anew(counts, rng, tongue):
    """Each line with as many different words as before, dealt among them so that each is in as many lines as before.

    Dealt blindly, a common word would come twice to some lines and so be in fewer of them; beside those even lines of no
    meaning would seem to hold together (tables of fixed margins: Gotelli 2000, Ecology 81).
    """
    import numpy as np

    rows = np.repeat(np.arange(counts.shape[0]), np.diff(counts.indptr))
    dealt = _permuted(counts.indices, rng, tongue)
    for _ in range(DEALT_AGAIN):
        twice = _twice(rows, dealt)
        if not len(twice):
            break
        some = np.union1d(twice, rng.choice(len(dealt), min(len(dealt), EACH * len(twice)), replace=False))
        dealt[some] = _permuted(dealt[some], rng, tongue)
    return _as_lines(dealt, counts.indptr, counts.shape)


def _dealt_blindly(counts, rng, tongue):
    """Each line as long as before, words said twice among them, with words of the others; what comes twice counts once."""
    import numpy as np

    times = counts.data.astype(int)
    ends = np.concatenate([[0], np.cumsum(times)])[counts.indptr]
    return _as_lines(_permuted(np.repeat(counts.indices, times), rng, tongue), ends, counts.shape)


def _as_lines(words, ends, shape):
    import numpy as np
    from scipy.sparse import csr_matrix

    lines = csr_matrix((np.ones(len(words), np.float32), words, ends.copy()), shape=shape)
    lines.sum_duplicates()
    lines.data[:] = 1
    return lines


def _twice(rows, columns):
    """Where a line has a word that it had before."""
    import numpy as np

    # Line, word and place as one number, so that it need only be sorted.
    told = (rows.astype(np.int64) * (int(columns.max(initial=0)) + 1) + columns) * len(rows) + np.arange(len(rows))
    told.sort()
    cell, place = np.divmod(told, max(1, len(rows)))
    return place[1:][cell[1:] == cell[:-1]]


def _permuted(indices, rng, tongue):
    """Columns dealt out anew, those of each language among themselves; `tongue`: (v,) the language of each, or nothing."""
    import numpy as np

    if not len(tongue) or tongue.max() < 1:
        return rng.permutation(indices)
    dealt, of = indices.copy(), tongue[indices]
    for one in np.unique(of):
        dealt[of == one] = rng.permutation(indices[of == one])
    return dealt


def _above(measure: Callable[..., float], there, chance: Sequence) -> float:
    import numpy as np

    values = np.array([measure(dealt) for dealt in chance])
    spread = float(values.std(ddof=1))
    return float((measure(there) - values.mean()) / spread) if spread > 0 else 0.0


def recurring_pairs(there) -> float:
    """How much more often than by chance word pairs recur: Dunning's G2 (1993) over pairs that share two lines or more."""
    import numpy as np

    seen = np.asarray(there.sum(axis=0)).ravel()
    together = (there.T @ there).tocsc()
    again = np.flatnonzero(together.data >= 2)
    column = np.searchsorted(together.indptr, again, side="right") - 1
    half = together.indices[again] < column
    again, column = again[half], column[half]
    times, one, other = together.data[again], seen[together.indices[again]], seen[column]
    return float((times * np.log(times * there.shape[0] / (one * other))).sum())


def line_nearness(there, far) -> float:
    """Mean cosine of two different words of one line, by the background table; 0 without a table."""
    import numpy as np

    known = (np.abs(far).sum(axis=1) > 0).astype(np.float32)
    sums, each = there @ far, there @ known
    pairs = float((each * (each - 1)).sum())
    return float(((sums**2).sum() - each.sum()) / pairs) if pairs > 0 else 0.0


def theme_company(counts, far, labels, usual_nearness: float, stems: Sequence[str] = ()) -> np.ndarray:
    """(k,) how many standard deviations each theme's lines stand above chance, the better of two ways.

    Pairs: how often the word pairs of its lines come up in other lines, against what the words' own frequencies would
    give (Poisson). Nearness: mean cosine of two words of a line, against `usual_nearness`, that of shuffled lines.
    """
    import numpy as np

    if counts.shape[0] > 2 * SAMPLE:
        part = np.sort(np.random.default_rng(0).choice(counts.shape[0], 2 * SAMPLE, replace=False))
        counts, size, labels = counts[part], int(labels.max(initial=-1)) + 1, labels[part]
    else:
        size = int(labels.max(initial=-1)) + 1
    there = presence(counts)
    observed, expected = _recurrences(there, tongue_of_lines(there, stems, tongues(stems)[0]))
    near, spread = _nearness_by_line(there, far)
    result = np.zeros(size)
    for theme in range(size):
        inside = labels == theme
        o, e = observed[inside].sum(), expected[inside].sum()
        told = near[inside & spread]
        by_nearness = (told.mean() - usual_nearness) / (told.std() / math.sqrt(len(told)) + 1e-6) if len(told) > 4 else 0
        result[theme] = max((o - e) / math.sqrt(max(e, 1.0) * 2), by_nearness)
    return result


def _recurrences(there, tongue):
    """(n,) how often a line's word pairs come up in other lines, and (n,) how often they would by chance."""
    import numpy as np

    seen = np.asarray(there.sum(axis=0)).ravel()
    together = (there.T @ there).tocsr()
    together.setdiag(0)
    within = np.asarray((there @ together).multiply(there).sum(axis=1)).ravel() / 2
    length = np.asarray(there.sum(axis=1)).ravel()
    observed = within - length * (length - 1) / 2
    sums, squares = there @ seen, there @ seen**2
    # Words of a language have the lines of that language to meet in.
    lines = np.bincount(tongue + 1)[tongue + 1]
    expected = (sums**2 - squares) / 2 / np.maximum(1, lines)
    return observed, expected


def _nearness_by_line(there, far):
    import numpy as np

    known = (np.abs(far).sum(axis=1) > 0).astype(np.float32)
    sums, each = there @ far, there @ known
    pairs = each * (each - 1)
    near = ((sums**2).sum(axis=1) - each) / np.maximum(pairs, 1)
    return near, pairs > 0


def shuffled_nearness(counts, far, seed: int = 0, stems: Sequence[str] = ()) -> float:
    """What `line_nearness` is for lines whose words were dealt out anew."""
    import numpy as np

    return line_nearness(_dealt_anew(counts, np.random.default_rng(seed), tongues(stems)[1]), far)

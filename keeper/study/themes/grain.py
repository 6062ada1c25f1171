"""How fine the themes of these lines are: a dozen or two, or many small ones.

Most lines of a life fall into themes that are wide and run into one another. Some do not: short notes that name one
thing each fall into many small groups, which a dozen themes would throw together. The words tell which it is: they are
grouped both ways, and the way stays that makes them likelier.
"""

from __future__ import annotations

from keeper.study.themes import clusters
from keeper.study.themes.smoothing import smooth

TRIAL = 2000  # lines on which both ways are tried
LINES_EACH = 8
MOST = 160
SURE = 100.0  # natural units of log likelihood; lines dealt out of wide themes gain some tens by chance
THEME_PRIOR, WORD_PRIOR = 1.0, 0.1


def fine_count(lines: int) -> int:
    """About how many small themes so many lines can have."""
    return min(MOST, lines // LINES_EACH)


def grouped(points, rows, shared, counts, seed: int = 0):
    """(n,) labels 0..k-1, the (n, d) smoothed rows in which they were found, and whether they are fine.

    points, rows: (n, d) unit rows, before and after smoothing as for wide themes; shared: (n, v) TF-IDF rows; counts:
    (n, v) how often each stem is in each line. Small themes are tried on some of the lines where there are many.
    """
    import numpy as np

    coarse = clusters.group(points, rows, seed=seed)
    n = len(points)
    if n < LINES_EACH:
        return coarse, rows, False
    part = np.arange(n)
    if n > TRIAL:
        part = np.sort(np.random.default_rng(seed).choice(n, TRIAL, replace=False))
    fine, fine_rows = _fine(points[part], shared[part], seed)
    if not _likelier(counts[part], fine, np.unique(coarse[part], return_inverse=True)[1]):
        return coarse, rows, False
    return (*_fine(points, shared, seed), True) if n > TRIAL else (fine, fine_rows, True)


def smoothed(points, shared, seed: int = 0):
    """(n, d) unit rows: each point drawn towards so few others that they may all be of a small theme."""
    return smooth(points, shared, themes=fine_count(len(points)), seed=seed)


def _fine(points, shared, seed: int):
    rows = smoothed(points, shared, seed)
    return clusters.group(points, rows, fine=fine_count(len(points)), seed=seed), rows


def _likelier(counts, fine, coarse) -> bool:
    return log_evidence(counts, fine) - log_evidence(counts, coarse) > SURE


def log_evidence(counts, labels) -> float:
    """Log probability of lines and their words when each theme has words of its own.

    The Dirichlet-multinomial mixture of Yin & Wang (2014), with its parameters summed out: a theme is drawn for each line
    (concentration 1), then its words (0.1 for each word of the vocabulary). Many themes pay for the words that they do
    not share.
    """
    import numpy as np
    from scipy.sparse import csr_matrix
    from scipy.special import gammaln

    n, vocabulary = counts.shape
    themes = int(labels.max()) + 1
    dealt = csr_matrix((np.ones(n), (labels, np.arange(n))), shape=(themes, n))
    words = dealt @ counts
    lines, totals = np.bincount(labels, minlength=themes), np.asarray(words.sum(axis=1)).ravel()
    of_lines = gammaln(themes * THEME_PRIOR) - gammaln(n + themes * THEME_PRIOR)
    of_lines += (gammaln(lines + THEME_PRIOR) - gammaln(THEME_PRIOR)).sum()
    of_words = (gammaln(vocabulary * WORD_PRIOR) - gammaln(totals + vocabulary * WORD_PRIOR)).sum()
    of_words += (gammaln(words.data + WORD_PRIOR) - gammaln(WORD_PRIOR)).sum()
    return float(of_lines + of_words)

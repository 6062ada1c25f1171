"""Word directions learned once and shipped, and how far these lines may lean on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from keeper.study.tongues.keyed import bare
from keeper.study.tongues.unknown import guessed

if TYPE_CHECKING:
    from keeper.study.tongues.table import Background

COMMON_TOPICALITY = 0.2  # of a word that the background table does not know: neither vague nor telling
LEAST_KNOWN = 0.25  # of the words; below, they are of another tongue, and what they look like tells nothing
TABLE_WEIGHT, TABLE_FADES = 2.2, 0.2  # beside what 365 lines tell by themselves, and how that grows less with more
USEFUL_MARGIN = 0.016  # nearness of words of one line over that of words apart, from which on the table is fully trusted


def far_rows(stems: Sequence[str], tables: Mapping[str, Background]):
    """(v, d2) background directions of stems (zeros where unknown), and (v,) their topicality.

    A stem with a language to it is looked for in that one's table, another in each of them in order of their codes.
    """
    import numpy as np

    size = next((table.vectors.shape[1] for table in tables.values()), 1)
    vectors, topicality = np.zeros((len(stems), size), np.float32), np.full(len(stems), COMMON_TOPICALITY, np.float32)
    missing: dict[str, list[int]] = {}
    for i, stem in enumerate(stems):
        word, language = bare(stem)
        some = [language] if language else sorted(tables)
        found = next(((code, tables[code].rows[word]) for code in some if code in tables and word in tables[code].rows), None)
        if found is None:
            for code in (code for code in some if code in tables):
                missing.setdefault(code, []).append(i)
            continue
        vectors[i], topicality[i] = tables[found[0]].vectors[found[1]], tables[found[0]].topicality[found[1]]
    known = len(stems) - len({i for some in missing.values() for i in some})
    if known >= LEAST_KNOWN * len(stems):
        for code, some in sorted(missing.items()):
            vectors[some] = guessed([bare(stems[i])[0] for i in some], tables[code])
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
    by_count = np.clip(TABLE_WEIGHT * (365 / max(1, lines)) ** TABLE_FADES, 0.8, 1.1 * TABLE_WEIGHT)
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

"""Themes by their subjects: which words tell what a theme is about, and which lines say one of them.

Narrow themes are held together by very few words, of which some only happen to stand in the same lines. What most of the
telling words mean together is the subject; where they mean nothing together, there is none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from keeper.study.themes import clusters
from keeper.study.themes.background import far_rows
from keeper.study.themes.counts import presence, unit
from keeper.study.themes.weighing.belonging import HALF, counted, surest
from keeper.study.themes.weighing.fields import NEAREST, Meanings, meanings

if TYPE_CHECKING:
    import numpy as np
    from scipy.sparse import csr_matrix

    from keeper.study.themes.learning import Learned
    from keeper.study.tongues.table import Background

TELLING = 12  # words that tell a theme from the others, at most
STANDS_OUT = 1.5  # standard deviations by which such a word is said more in the theme than elsewhere
USUAL = 200  # words of all lines together, that are thought to have been said in a theme beside its own
OF_ONE = 0.5  # words of a subject are so alike to the one that leads them (cosine)
SAME = 0.7  # subjects so alike are one
FAINT = 0.1  # of the heaviest
LEADS = 0.3  # of the heaviest
ITS_OWN = 0.9  # of the lines in themes that say a word; then those in none say it of the same
LEAST_TOLD = 0.2  # of what tells a theme, by the words of its subject; less, and it has none
ALIKE = 0.75  # to two telling words; a word so near to them says the same in other words
NOT_FAR = 0.6  # the same of a word in a line that is sure of the theme besides
PLAIN, OF_FIELD = 0.3, 0.7  # how far a word leans to a subject, and how near it is to the field, that says it by itself


class Subject(NamedTuple):
    """What most of the words that tell a theme mean together: (m,) these `words`, heaviest first, and (m,) their `weight`;
    `share`: how much of all that tells it they tell, 0..1. Without any words a theme has none.
    """

    words: np.ndarray
    weight: np.ndarray
    share: float


@dataclass(frozen=True, eq=False)
class _Lines:
    """The words that lines have, (n, v) sparse, and what these mean."""

    there: csr_matrix
    meant: Meanings

    @classmethod
    def of(cls, learned: Learned) -> _Lines:
        return cls(presence(learned.counts), meanings(learned.far))

    def subject(self, inside: np.ndarray) -> Subject:
        """That of the lines `inside`, (n,)."""
        return _subject(*telling(self.there, inside), self.meant)

    def saying(self, words: np.ndarray) -> np.ndarray:
        """(n,) whether a line has one of the words."""
        import numpy as np

        return np.asarray(self.there[:, words].sum(axis=1)).ravel() > 0


def of_subjects(learned: Learned, labels: np.ndarray, least: int) -> np.ndarray:
    """(n,) narrow themes by their subjects: without those that have none, and lines without a word of theirs; with new ones.

    labels: (n,), -1 = loose. Themes of nearly one subject are one. A field of meaning that no theme is of becomes one where
    at least so many loose lines speak of it and of no other. No theme is of fewer than `least` lines; then loose lines come
    that say what leads one, or are sure of it. Where no word directions are known nothing can be told, and all stay.
    """
    import numpy as np

    if not learned.far.any():
        return labels
    lines = _Lines.of(learned)
    labels = _joined(lines, labels)
    found, field, near = labels.copy(), lines.meant.field, lines.meant.near
    taken: set[int] = set()
    for theme in _themes(labels):
        at = np.flatnonzero(labels == theme)
        words, _, share = lines.subject(labels == theme)
        found[at[lines.there[at] @ _said_by(words, lines.meant) == 0]] = -1
        if share < LEAST_TOLD or (found[at] >= 0).sum() < least:
            found[at] = -1
        else:
            taken |= set(field[words[near[words] >= OF_FIELD]].tolist())
    plain = (lines.meant.leaning >= PLAIN) & (near >= OF_FIELD)
    found = _with_fields(lines.there, found, np.where(plain, field, -1), taken, least)
    return _with_leading(learned, lines, found, plain)


def said_of(learned: Learned, labels: np.ndarray) -> np.ndarray:
    """(k, v) whether each word, by itself, says what each of the themes 0..k-1 is about; labels: (n,), -1 = loose."""
    import numpy as np

    lines, many = _Lines.of(learned), int(labels.max(initial=-1)) + 1
    said = [_said_by(lines.subject(labels == theme).words, lines.meant) for theme in range(many)]
    return np.array(said, bool).reshape(many, lines.there.shape[1])


def saying(learned: Learned, labels: np.ndarray, words: np.ndarray) -> np.ndarray:
    """(n,) whether a line has a word of the theme that it is labelled with; words: (k, v), see `said_of`. Where none of the
    words of a theme says what it is about, all its lines do.
    """
    import numpy as np

    some = np.flatnonzero(labels >= 0)
    says = np.ones(len(labels), bool)
    if len(some):
        there = presence(learned.counts)[some] @ words.T.astype(np.float32)
        says[some] = (there[np.arange(len(some)), labels[some]] > 0) | ~words.any(axis=1)[labels[some]]
    return says


def _themes(labels: np.ndarray) -> list[int]:
    return sorted(set(labels.tolist()) - {-1})


def _joined(lines: _Lines, labels: np.ndarray) -> np.ndarray:
    """(n,) the same, with themes whose subjects are nearly one as one theme: the choir's songs and what is played to them."""
    import numpy as np

    labels, subjects = labels.copy(), {theme: lines.subject(labels == theme) for theme in _themes(labels)}
    while True:
        having = [theme for theme, its in subjects.items() if its.share >= LEAST_TOLD]
        if len(having) < 2:
            return labels
        middles = unit(np.array([subjects[theme].weight @ lines.meant.rows[subjects[theme].words] for theme in having]))
        alike = np.tril(middles @ middles.T, -1)
        one, other = np.unravel_index(alike.argmax(), alike.shape)
        if alike[one, other] < SAME:
            return labels
        labels[labels == having[one]] = having[other]
        del subjects[having[one]]
        subjects[having[other]] = lines.subject(labels == having[other])


def _with_leading(learned: Learned, lines: _Lines, labels: np.ndarray, plain: np.ndarray) -> np.ndarray:
    """(n,) the same, with loose lines that say what leads the theme nearest to them: a plain word, or one that it has for itself.

    So do those that are sure of it, where what they say is not far from its subject: herring, of soup and bread.
    plain: (v,) whether a word says a field by itself.
    """
    import numpy as np

    found, themes = labels.copy(), _themes(labels)
    if not themes:
        return found
    middles = clusters.middles(learned.smoothed, counted(labels)).T
    drawn, own = (learned.smoothed @ middles).argmax(axis=1), (learned.points @ middles).argmax(axis=1)
    told = np.asarray(lines.there[labels >= 0].sum(axis=0)).ravel()
    place, sure = surest(learned, counted(labels))
    for at, theme in enumerate(themes):
        words, weight, _ = lines.subject(labels == theme)
        leading = words[weight >= LEADS * weight.max(initial=0)]
        its = np.asarray(lines.there[labels == theme].sum(axis=0)).ravel()[leading] >= ITS_OWN * told[leading]
        says = lines.saying(leading[its]) | (lines.saying(leading[plain[leading]]) & (own == at))
        if len(words) >= NEAREST:
            says |= lines.saying(np.flatnonzero(_alike(words, lines.meant) >= NOT_FAR)) & (place == at) & (sure >= HALF)
        found[says & (labels < 0) & (drawn == at)] = theme
    return found


def without_manner(learned: Learned, labels: np.ndarray) -> np.ndarray:
    """(n,) the same without the themes whose telling words are clearly of manner; labels: (n,), -1 = loose."""
    lines, found = _Lines.of(learned), labels.copy()
    for theme in _themes(labels):
        words, weight = telling(lines.there, labels == theme)
        mean, clear = _mean(lines.meant.leaning[words], weight)
        if mean < -clear:
            found[labels == theme] = -1
    return found


def _with_fields(there, labels: np.ndarray, of_word: np.ndarray, taken: set[int], least: int) -> np.ndarray:
    """The same, and lines of no theme that speak of one field alone; of_word: (v,) the field that a word tells plainly, or -1."""
    import numpy as np

    alone = np.full(len(labels), -1)
    for line in np.flatnonzero(labels < 0):
        said = of_word[there.indices[there.indptr[line] : there.indptr[line + 1]]]
        told = set(said[said >= 0].tolist())
        if len(told) == 1:
            alone[line] = told.pop()
    found, number = labels.copy(), int(labels.max(initial=-1)) + 1
    for field in sorted(set(alone.tolist()) - {-1} - taken):
        if (alone == field).sum() >= least:
            found[alone == field] = number
            number += 1
    return found


def one_subject(weights: Mapping[str, float], tables: Mapping[str, Background]) -> tuple[list[str], str]:
    """Those of the stems, which tell a theme with these weights, that mean one subject, heaviest first; and the plainest word of it.

    The plainest lies nearest to a field of meaning: of slept, awake and sleep it is sleep. None and "" where no word
    directions are known.
    """
    import numpy as np

    stems = list(weights)
    far, _ = far_rows(stems, tables)
    if not far.any():
        return [], ""
    meant = meanings(far)
    words = sorted(_subject(np.arange(len(stems)), np.array([weights[stem] for stem in stems]), meant, 0.0).words)
    return [stems[i] for i in words], stems[max(words, key=lambda i: meant.near[i])] if words else ""


def _subject(words: np.ndarray, weight: np.ndarray, meant: Meanings, faint: float = FAINT) -> Subject:
    """What those of the telling words mean that mean most together; `faint`: of the heaviest, what weighs less is none of it."""
    import numpy as np

    kept = meant.leaning[words] >= 0
    words, weight = words[kept], weight[kept]
    if not len(words):
        return Subject(words, weight, 0.0)
    alike = meant.rows[words] @ meant.rows[words].T >= OF_ONE
    np.fill_diagonal(alike, True)
    lead = int((alike @ weight).argmax())
    its = alike[lead] & (weight >= faint * weight[alike[lead]].max())
    return Subject(words[its], weight[its], float(alike[lead] @ weight))


def _mean(values: np.ndarray, weight: np.ndarray) -> tuple[float, float]:
    """The weighted mean of values, and its standard error; below nothing where there are none."""
    import numpy as np

    if not len(values):
        return -1.0, 0.0
    mean = float(values @ weight)
    return mean, float(np.sqrt((values - mean) ** 2 @ weight * (weight**2).sum()))


def _said_by(words: np.ndarray, meant: Meanings) -> np.ndarray:
    """(v,) 1 for these words of a subject, and for those that say the same."""
    import numpy as np

    says = np.zeros(len(meant.leaning))
    if len(words) >= NEAREST:
        says[_alike(words, meant) >= ALIKE] = 1
    says[words] = 1
    return says


def _alike(words: np.ndarray, meant: Meanings) -> np.ndarray:
    """(v,) how near each word is to those two of a subject's words that are nearest; of manners -1."""
    import numpy as np

    return np.where(meant.leaning >= 0, np.sort(meant.rows @ meant.rows[words].T, axis=1)[:, -NEAREST:].mean(axis=1), -1.0)


def telling(there, inside: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(m,) the words that stand out in the lines `inside`, most first, and (m,) how much each tells of them, adding up to 1.

    Log odds against the other lines, with all lines as what is expected of any (Monroe, Colaresi & Quinn 2008, Fightin'
    words, Political Analysis 16, equations 15 to 22). A word that one line alone has does not stand out.
    there: (n, v) sparse, 1 where a line has a word.
    """
    import numpy as np

    seen, said = np.asarray(there.sum(axis=0)).ravel(), np.asarray(there[inside].sum(axis=0)).ravel()
    expected = USUAL * seen / max(1.0, seen.sum())
    one, other = said + expected, seen - said + expected
    odds = np.log(one / (one.sum() - one).clip(1e-9)) - np.log(other / (other.sum() - other).clip(1e-9))
    above = np.where(said > 1, odds / np.sqrt(1 / one.clip(1e-9) + 1 / other.clip(1e-9)), 0.0)
    words = np.argsort(-above, kind="stable")[:TELLING]
    words = words[above[words] > STANDS_OUT]
    weight = above[words] * said[words]
    return words, weight / max(1e-9, weight.sum())

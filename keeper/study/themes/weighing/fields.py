"""What words are of: a subject, or the manner in which lines speak of any.

People name a theme by its subject: soup, the sea, letters. A group of lines that share "asked" and "answered", numbers, or
doors and windows has none. Which words are of subjects is told by fields of meaning (resources/subjects.txt), placed among
the shipped word directions, which are one space in all languages.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource
from keeper.study.themes.counts import presence, unit
from keeper.study.tongues.heard import heard
from keeper.study.tongues.table import background

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.learning import Learned

TELLING = 12  # words that tell a theme from the others, at most
STANDS_OUT = 1.5  # standard deviations by which such a word is said more in the theme than elsewhere
USUAL = 200  # words of all lines together, that are thought to have been said in a theme beside its own
NEAREST = 2  # words of a field, that a word is asked to be near to, beside the middle of all
OF_ONE = 0.35  # words of a subject are so alike to the one that leads them (cosine)
LEAST_TOLD = 0.2  # of what tells a theme, by the words of its subject; less, and it has none
ALIKE = 0.75  # to two telling words; a word so near to them says the same in other words
PLAIN, OF_FIELD = 0.3, 0.7  # how far a word leans to a subject, and how near it is to the field, that says it by itself


def of_subjects(learned: Learned, labels: np.ndarray, least: int) -> np.ndarray:
    """(n,) narrow themes by their subjects: without those that have none, and lines without a word of theirs; with new ones.

    labels: (n,), -1 = loose. A theme's subject is what most of its telling words mean together. A field of meaning that no
    theme is of becomes one where at least so many loose lines speak of it and of no other. No theme is of fewer than `least`
    lines. Where no word directions are known it cannot be told, and all stay.
    """
    import numpy as np

    if not learned.far.any():
        return labels
    there = presence(learned.counts)
    leaning, rows, found = leanings(learned.far), _apart(learned.far), labels.copy()
    taken: set[int] = set()
    fields, near = _fields_of(rows)
    for theme in sorted(set(labels.tolist()) - {-1}):
        at = np.flatnonzero(labels == theme)
        words, share = _subject(*telling(there, labels == theme), rows, leaning)
        found[at[there[at] @ _said_by(words, rows, leaning) == 0]] = -1
        if share < LEAST_TOLD or (found[at] >= 0).sum() < least:
            found[at] = -1
        else:
            taken |= set(fields[words[near[words] >= OF_FIELD]].tolist())
    plain = (leaning >= PLAIN) & (near >= OF_FIELD)
    return _with_fields(there, found, np.where(plain, fields, -1), taken, least)


def without_manner(learned: Learned, labels: np.ndarray) -> np.ndarray:
    """(n,) the same without the themes whose telling words are clearly of manner; labels: (n,), -1 = loose."""
    there = presence(learned.counts)
    leaning, found = leanings(learned.far), labels.copy()
    for theme in sorted(set(labels.tolist()) - {-1}):
        words, weight = telling(there, labels == theme)
        mean, clear = _mean(leaning[words], weight)
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


def _subject(words: np.ndarray, weight: np.ndarray, rows: np.ndarray, leaning: np.ndarray) -> tuple[np.ndarray, float]:
    """Those of the telling words that mean one subject, the heaviest such, and how much of all they tell."""
    import numpy as np

    kept = leaning[words] >= 0
    words, weight = words[kept], weight[kept]
    if not len(words):
        return words, 0.0
    alike = rows[words] @ rows[words].T >= OF_ONE
    np.fill_diagonal(alike, True)
    lead = int((alike @ weight).argmax())
    return words[alike[lead]], float(alike[lead] @ weight)


def _mean(values: np.ndarray, weight: np.ndarray) -> tuple[float, float]:
    """The weighted mean of values, and its standard error; below nothing where there are none."""
    import numpy as np

    if not len(values):
        return -1.0, 0.0
    mean = float(values @ weight)
    return mean, float(np.sqrt((values - mean) ** 2 @ weight * (weight**2).sum()))


def _said_by(words: np.ndarray, rows: np.ndarray, leaning: np.ndarray) -> np.ndarray:
    """(v,) 1 for these words of a subject, and for those that say the same."""
    import numpy as np

    says = np.zeros(len(leaning))
    if len(words):
        if len(words) >= NEAREST:
            near = np.sort(rows @ rows[words].T, axis=1)[:, -NEAREST:].mean(axis=1)
            says[(near >= ALIKE) & (leaning >= 0)] = 1
        says[words] = 1
    return says


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


def leanings(far: np.ndarray) -> np.ndarray:
    """(v,) -1..1: how much nearer each word, given by its direction, is to a subject than to a manner; 0 of unknown ones."""
    import numpy as np

    fields = _fields()
    if fields is None or far.shape[1] != fields[0][0].shape[1]:
        return np.zeros(len(far), np.float32)
    rows = _apart(far)
    near = [np.max([_nearness(rows, field) for field in part], axis=0) for part in fields]
    return np.where(np.linalg.norm(far, axis=1) > 0, near[0] - near[1], 0.0)


def _fields_of(rows: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(v,) the subject that each word, given by its row, is nearest to, and (v,) how near."""
    import numpy as np

    fields = _fields()
    if fields is None or rows.shape[1] != fields[0][0].shape[1]:
        return np.full(len(rows), -1), np.zeros(len(rows))
    near = np.stack([_nearness(rows, field) for field in fields[0]], axis=1)
    return near.argmax(axis=1), near.max(axis=1)


def _nearness(rows: np.ndarray, field: np.ndarray) -> np.ndarray:
    """(v,) of each word to a field: half to the words of it that are nearest, half to their middle."""
    import numpy as np

    middle = unit(field.mean(axis=0, keepdims=True))[0]
    return 0.5 * np.sort(rows @ field.T, axis=1)[:, -NEAREST:].mean(axis=1) + 0.5 * (rows @ middle)


def _apart(far: np.ndarray) -> np.ndarray:
    """Unit rows without what all words have in common; zeros of unknown ones."""
    import numpy as np

    table = background("en")
    if table is None or far.shape[1] != table.vectors.shape[1]:
        return np.zeros_like(far)
    return unit(far - table.vectors.mean(axis=0)) * (np.linalg.norm(far, axis=1, keepdims=True) > 0)


@lru_cache(maxsize=1)
def _fields() -> tuple[list[np.ndarray], list[np.ndarray]] | None:
    """Of the subjects and of the manners, the directions of the words of each field; None where there is no table."""
    table = background("en")
    if table is None:
        return None
    parts: dict[str, list[np.ndarray]] = {}
    for line in resource("subjects.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            part = parts.setdefault(line.strip("[]"), [])
        elif line and not line.startswith("#"):
            stems = [word.stem for word in heard([line.partition(":")[2]], ("en",))[0]]
            part.append(_apart(table.vectors[[table.rows[stem] for stem in stems if stem in table.rows]]))
    return parts["subjects"], parts["manner"]

"""Fields of meaning, and where words lie among them: of a subject, or of the manner in which lines speak of any.

People name a theme by its subject: soup, the sea, letters. A group of lines that share "asked" and "answered", numbers, or
doors and windows has none. Which words are of subjects is told by fields of meaning (resources/subjects.txt), placed among
the shipped word directions, which are one space in all languages.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource
from keeper.study.themes.counts import unit
from keeper.study.tongues.heard import heard
from keeper.study.tongues.table import background

if TYPE_CHECKING:
    import numpy as np

NEAREST = 2  # words of a field, that a word is asked to be near to, beside the middle of all


@dataclass(frozen=True, eq=False)
class Meanings:
    """What v words mean: (v, d) unit `rows` without what all words have in common, the subject `field` that each is nearest to
    (-1 where there are none) and how `near`, and its `leaning`, -1..1: how much nearer it is to a subject than to a manner.

    A word whose direction is not known leans nowhere.
    """

    rows: np.ndarray
    field: np.ndarray
    near: np.ndarray
    leaning: np.ndarray


def meanings(far: np.ndarray) -> Meanings:
    """What words mean, given by their (v, d) directions; rows of zeros are unknown ones."""
    import numpy as np

    fields, rows = _fields(), _apart(far)
    if fields is None or far.shape[1] != fields[0][0].shape[1]:
        return Meanings(rows, np.full(len(far), -1), np.zeros(len(far)), np.zeros(len(far), np.float32))
    subjects, manners = (np.stack([_nearness(rows, field) for field in part], axis=1) for part in fields)
    near, known = subjects.max(axis=1), np.linalg.norm(far, axis=1) > 0
    return Meanings(rows, subjects.argmax(axis=1), near, np.where(known, near - manners.max(axis=1), 0.0))


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

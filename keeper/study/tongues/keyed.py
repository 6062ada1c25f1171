"""Stems with their language to them, where lines are in several: die is one word in German, another in English."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

_SIGN = "\x1f"


def keyed(stem: str, language: str) -> str:
    """A stem with its language to it."""
    return f"{stem}{_SIGN}{language}"


def bare(stem: str) -> tuple[str, str]:
    """A stem and the language it is of; "" where it has none to it."""
    word, _, language = stem.partition(_SIGN)
    return word, language


def tongues(stems: Sequence[str]) -> tuple[tuple[str, ...], np.ndarray]:
    """The languages that stems have to them, by code, and (v,) the place of each stem's among them, -1 for none."""
    import numpy as np

    if _SIGN not in "".join(stems):
        return (), np.full(len(stems), -1)
    told = [bare(stem)[1] for stem in stems]
    names = tuple(sorted(set(told) - {""}))
    place = {name: i for i, name in enumerate(names)}
    return names, np.array([place.get(language, -1) for language in told], dtype=int)


def tongue_of_lines(counts, stems: Sequence[str], names: Sequence[str]) -> np.ndarray:
    """(n,) the place among `names` of the language that most words of each line are of, -1 where none has one."""
    import numpy as np

    if not names:
        return np.full(counts.shape[0], -1)
    told = np.array([bare(stem)[1] for stem in stems])
    shares = np.stack([counts @ (told == name).astype(np.float32) for name in names], axis=1)
    return np.where(shares.max(axis=1) > 0, shares.argmax(axis=1), -1)

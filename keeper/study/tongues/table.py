"""Word directions learned once and shipped, a table for each language."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource

if TYPE_CHECKING:
    import numpy as np


@dataclass(frozen=True, eq=False)
class Background:
    """Word directions of a language, all languages' in one space; see resources/words/build_directions.py.

    `rows` tells a stem's row in `vectors` (unit rows) and in `topicality` (0..1, how much the word says of a subject:
    the mean cosine of the dictionary entries that use it).
    """

    language: str
    rows: dict[str, int]
    vectors: np.ndarray
    topicality: np.ndarray


@lru_cache(maxsize=6)
def background(language: str) -> Background | None:
    """The shipped table of a language, or None when there is none."""
    return _read(f"words/directions-{language}.npz", language)


def dictionary() -> Background:
    """The directions that a dictionary of English gives, from which those of all languages are made."""
    return _read("words/background-en.npz", "en")


def _read(name: str, language: str) -> Background | None:
    import numpy as np

    path = resource(name)
    if not path.is_file():
        return None
    with np.load(path, allow_pickle=False) as table:
        stems = table["stems"].tobytes().decode("utf-8").split("\n")
        vectors, topicality = table["vectors"].astype(np.float32), table["topicality"].astype(np.float32) / 255
    vectors /= np.maximum(1e-9, np.linalg.norm(vectors, axis=1, keepdims=True))
    return Background(language, {stem: i for i, stem in enumerate(stems)}, vectors, topicality)

"""Words that a dictionary puts near one another, held small.

Measured on half remembered lines they help where they stand beside stems and spelling; alone they do worse than BM25.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource

if TYPE_CHECKING:
    import numpy as np

DIMENSIONS = 96
"""Of those of the table, which come in the order of what they tell: so few are held, and found through in a moment."""


@lru_cache(maxsize=2)
def _table(language: str) -> tuple[list[str], dict[str, int], np.ndarray] | None:
    import numpy as np

    path = resource(f"words/background-{language}.npz")
    if not path.is_file():
        return None
    with np.load(path, allow_pickle=False) as table:
        stems = table["stems"].tobytes().decode("utf-8").split("\n")
        vectors = table["vectors"][:, :DIMENSIONS].astype(np.float32)
    vectors /= np.maximum(1e-9, np.linalg.norm(vectors, axis=1, keepdims=True))
    return stems, {stem: row for row, stem in enumerate(stems)}, vectors.astype(np.float32)


@lru_cache(maxsize=500)
def alike(stem: str, language: str, least: float, number: int) -> tuple[tuple[str, float], ...]:
    """Stems whose direction has a cosine of ``least`` or more with that of one, the nearest first; at most ``number``."""
    import numpy as np

    table = _table(language)
    row = table[1].get(stem, -1) if table else -1
    if row < 0:
        return ()
    stems, _, vectors = table
    near = vectors @ vectors[row]
    near[row] = -1
    best = np.argsort(-near)[:number]
    return tuple((stems[place], float(near[place])) for place in best if near[place] >= least)

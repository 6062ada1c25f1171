"""The words of a language by how often they are used, as its shipped table has them."""

from __future__ import annotations

from functools import lru_cache

from keeper.shipped import resource


@lru_cache(maxsize=4)
def ranks(language: str) -> dict[str, int]:
    """Word -> its place among those most used, 0 the most; as written where the table tells so, else by stem. Empty without a table."""
    import numpy as np

    path = resource(f"words/directions-{language}.npz")
    if not path.is_file():
        return {}
    with np.load(path, allow_pickle=False) as table:
        listed = table["forms" if "forms" in table else "stems"].tobytes().decode("utf-8").split("\n")
    return {word: at for at, word in enumerate(listed)}

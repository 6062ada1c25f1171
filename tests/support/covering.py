"""How well a choice of lines covers all of them: what choosing makes as great as it can."""

from collections.abc import Iterable

import numpy as np


def worth(alike: np.ndarray, chosen: Iterable[int]) -> float:
    """The sum over all lines of their likeness to the nearest that was chosen."""
    at = list(chosen)
    return float(alike[:, at].max(axis=1).sum()) if at else 0.0

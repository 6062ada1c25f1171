"""How near each line is to what was sought: BM25 over what its words may mean."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

K1, B = 1.2, 0.75
"""How soon a word said again counts no more, and how much a long line is held to be one of many words."""


def rarity(lines: int, having: int) -> float:
    """What it tells that a line has a word that ``having`` of all ``lines`` have.

    The weight of Robertson and Spaerck Jones (1976), kept above nothing by adding one within the logarithm.
    """
    return math.log(1 + (lines - having + 0.5) / (having + 0.5))


def saturated(times: np.ndarray, lengths: np.ndarray, average: float) -> np.ndarray:
    """What being said so many times counts in lines of so many words (BM25: Robertson and Zaragoza 2009, section 3)."""
    return times * (K1 + 1) / (times + K1 * (1 - B + B * lengths / average))


@dataclass(frozen=True, eq=False)
class Occurrences:
    """Where a word stands: (n,) places of lines, rising, and (n,) how many times in each."""

    places: np.ndarray
    times: np.ndarray


def together(standings: Sequence[Occurrences]) -> Occurrences:
    """Several words counted as one."""
    import numpy as np

    if len(standings) == 1:
        return standings[0]
    places, inverse = np.unique(np.concatenate([one.places for one in standings]), return_inverse=True)
    times = np.bincount(inverse, np.concatenate([one.times for one in standings]), len(places))
    return Occurrences(places, times)


def scores(
    sought: Iterable[Sequence[tuple[Occurrences, float]]],
    lengths: np.ndarray,
    stopped: Callable[[], bool] = lambda: False,
) -> np.ndarray:
    """(lines,) how near each is: the sum over the words sought of the best that one of its meanings gives.

    ``sought`` has for each word its meanings, as where they stand and what they count; ``lengths`` are (lines,) words
    of each. No meaning is held to be rarer than the likeliest, or of several as likely the commonest: else what somebody
    misspelt once would come before the word.
    """
    import numpy as np

    total, average = np.zeros(len(lengths), np.float32), max(1.0, float(lengths.mean()))
    for meanings in sought:
        best = np.zeros(len(lengths), np.float32)
        tells = [rarity(len(lengths), len(standing.places)) for standing, _ in meanings]
        likeliest = max((weight for _, weight in meanings), default=0)
        rarest = min((tell for tell, (_, weight) in zip(tells, meanings, strict=True) if weight == likeliest), default=0)
        for tell, (standing, weight) in zip(tells, meanings, strict=True):
            if stopped():
                return total
            gives = weight * min(tell, rarest) * saturated(standing.times, lengths[standing.places], average)
            best[standing.places] = np.maximum(best[standing.places], gives)
        total += best
    return total

"""When the level of a reading shifted, and how a month stands to the usual."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import quantiles

SHORTEST = 21
"""Nights a level lasts at least."""

PENALTY = 3.0
"""What a shift costs, in long-run variances times the logarithm of the nights; see `levels`."""

NIGHTS_NEEDED = 60

MONTHS_NEEDED = 6


@dataclass(frozen=True)
class Level:
    """A stretch of nights, first to last, with the same level. mean: of the reading; noted: nights behind it."""

    first: int
    last: int
    mean: float
    noted: int


@dataclass(frozen=True)
class Standing:
    """A month's middle reading among those of the other months. low, high: half of the others lie between. below: how
    many others lie below it, of `others`.
    """

    value: float
    low: float
    high: float
    below: int
    others: int


def levels(reading: Sequence[float | None]) -> tuple[Level, ...]:
    """The stretches between shifts of level; one if none is sure enough, none under 60 nights noted.

    PELT in C (Killick, Fearnhead & Eckley, J. Am. Stat. Assoc. 107, 2012, by the library ruptures) with least squares. The
    penalty of a shift is Yao's (Statistics & Probability Letters 6, 1988) with the variance in the long run instead of
    that of a night: readings that run on would be cut into pieces otherwise. A season is a shift of level too: whether a
    stretch is merely a winter, a person sees. Missed are shifts of under three weeks, and slow slides.
    """
    import numpy as np

    nights = np.array([night for night, value in enumerate(reading) if _is_noted(value)])
    if len(nights) < NIGHTS_NEEDED:
        return ()
    values = np.array([reading[night] for night in nights], float)
    ends = _ends(values, PENALTY * _long_run_variance(values) * math.log(len(values)))
    return tuple(
        Level(int(nights[first]), int(nights[end - 1]), float(values[first:end].mean()), end - first)
        for first, end in pairwise([0, *ends])
    )


def _is_noted(value: float | None) -> bool:
    return value is not None and not math.isnan(value)


def _ends(values, penalty: float) -> list[int]:
    # It takes long to come in, and is wanted seldom.
    from ruptures import KernelCPD

    if penalty <= 0:
        return [len(values)]
    return KernelCPD(kernel="linear", min_size=SHORTEST).fit(values).predict(pen=penalty)


def _long_run_variance(values) -> float:
    """Of a course whose nights resemble the two before, drift left out so that a shift does not hide itself."""
    import numpy as np

    from keeper.study.patterns.chance import freed
    from keeper.study.patterns.within import drift, likeness

    row, everywhere = (values - values.mean())[None], np.ones((1, len(values)))
    rest = row - drift(row, everywhere)
    factors = likeness(rest, everywhere)[0]
    steps = freed(rest, everywhere, factors)[0]
    return float(steps.var() / (1 - factors.sum()) ** 2)


def standing(month: float, others: Sequence[float]) -> Standing | None:
    """How a month's middle reading stands to those of other months; None under six others."""
    if len(others) < MONTHS_NEEDED:
        return None
    low, _, high = quantiles(others, n=4, method="inclusive")
    return Standing(month, low, high, sum(other < month for other in others), len(others))

"""Where two readings on one axis cross."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Crossing:
    """A night on which two readings change places.

    ``day`` counts from 1: the first night of the other order, or on which both
    are level on the way there. ``at`` and ``value`` are where the lines drawn
    between the nights meet. ``over``: the first of the two is above from then on.
    """

    day: int
    at: float
    value: float
    over: bool


def crossings(one: Sequence[float | None], other: Sequence[float | None]) -> tuple[Crossing, ...]:
    """The crossings of two rows of nights, None where nothing was noted.

    Nothing is made up: there is none across a night of which either is not
    noted. Rows that meet and part again as they were do not cross.
    """
    found: list[Crossing] = []
    before: tuple[int, float] | None = None
    level = 0
    for day, pair in enumerate(zip(one, other, strict=True), 1):
        if None in pair:
            before, level = None, 0
            continue
        gap = pair[0] - pair[1]
        if gap == 0:
            level = level or day
            continue
        if before and (before[1] > 0) != (gap > 0):
            found.append(_between(one, before, (day, gap), level))
        before, level = (day, gap), 0
    return tuple(found)


def _between(one: Sequence[float | None], before: tuple[int, float], after: tuple[int, float], level: int) -> Crossing:
    if level:
        return Crossing(level, float(level), one[level - 1], after[1] > 0)
    share = before[1] / (before[1] - after[1])
    earlier, later = one[before[0] - 1], one[after[0] - 1]
    return Crossing(after[0], before[0] + share, earlier + (later - earlier) * share, after[1] > 0)

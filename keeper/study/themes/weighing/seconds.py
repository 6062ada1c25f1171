"""A line may stand in two themes: supper after a swim is of both. And what a loose line would come nearest to.

The second is asked for more than the first: the line's own words have to bring it as near to the middle of that theme as most
of the theme's own lines come. A theme whose lines have little in common is nobody's second, and is offered to none.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.fitted import Middles

REACHED = 0.3  # of a theme's own lines are no nearer, by their own words alone, than what stands in it second has to be
HALF = 0.5  # of the closeness of its middle line, at which what is half about something else still stands in it

CLOSE = 0.35  # as near as this is near, however alike a theme's own lines are
MOST = 0.25  # of all lines may be near enough to a second theme; people give two subjects to three lines in ten


def inner(near: np.ndarray, others: np.ndarray, themes: int) -> float:
    """The closeness that a line has to reach to stand in a theme second.

    near: (m,) closeness of the theme's own lines, others: that of the lines in other themes; themes: how many there are.
    Where a theme's own lines are far from its middle too many others are as near as they: then it is asked for more.
    """
    import numpy as np

    least = min(reached(near), CLOSE)
    return max(least, float(np.quantile(others, max(0.0, 1 - MOST / (themes - 1))))) if len(others) else least


def reached(near: np.ndarray) -> float:
    """The same where even to be near is not enough: as near as much of the theme is."""
    import numpy as np

    return float(min(np.quantile(near, REACHED), HALF * np.median(near))) if len(near) else 1.0


def closeness(points: np.ndarray, smoothed: np.ndarray, middles: Middles) -> tuple[np.ndarray, np.ndarray]:
    """(n, k) cosine of each line with each middle, by its own words and as it was drawn towards its like; and of the former alone."""
    own = points @ middles.rows.T
    return 0.5 * own + 0.5 * (smoothed @ middles.rows.T), own


def second_of(near: np.ndarray, own: np.ndarray, first: int, middles: Middles, barred: Collection[int] = ()) -> int:
    """The place among the middles of the theme that a line stands in second, or -1; `first`: of its theme, -1 = loose.

    near, own: (k,) the row of the line, see `closeness`. `barred`: theme ids that it may not be in.
    """
    if first < 0:
        return -1
    fits = [
        j for j in range(len(middles.ids))
        if j != first and own[j] >= middles.inner[j] and near[j] > 0 and middles.ids[j] not in barred
    ]  # fmt: skip
    return max(fits, key=lambda j: (near[j], -j), default=-1)


def offered(near: np.ndarray, middles: Middles, barred: Collection[int] = ()) -> int | None:
    """The theme id that comes nearest to a loose line, if any comes near at all."""
    fits = [j for j in range(len(middles.ids)) if near[j] > 0 and middles.ids[j] not in barred]
    return middles.ids[max(fits, key=lambda j: (near[j], -j))] if fits else None


def beside(
    ids: Sequence[str], points: np.ndarray, smoothed: np.ndarray, home: Mapping[str, int], middles: Middles,
    barred: Mapping[str, Collection[int]], mixed: Collection[int] = (),
) -> tuple[dict[str, tuple[int, float]], dict[str, int]]:  # fmt: skip
    """Line -> its second theme and how near it is to that; and loose line -> the theme that comes nearest."""
    if not middles.ids:
        return {}, {}
    near, own = closeness(points, smoothed, middles)
    place = {theme: j for j, theme in enumerate(middles.ids)}
    second, nearest = {}, {}
    for i, line in enumerate(ids):
        no = {*barred.get(line, ()), *mixed}
        if line not in home:
            found = offered(near[i], middles, no)
            if found is not None:
                nearest[line] = found
            continue
        at = second_of(near[i], own[i], place.get(home[line], -1), middles, no)
        if at >= 0:
            second[line] = middles.ids[at], round(min(1.0, float(near[i, at])), 4)
    return second, nearest

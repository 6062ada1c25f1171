"""How far a page lies askew: the angle at which its rows, ruled or written, are sharpest.

Measured by the projection profile: dark points are counted row by row across
the page at each angle, and where rows of writing fall between rows of paper
the counts differ most (Bloomberg, Kopec and Dasari, "Measuring document image
skew and orientation", SPIE 2422, 1995: the sum of squared differences of
neighbouring rows).
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from numpy.typing import NDArray

WIDEST = 15.0
"""Degrees to either side within which a page is taken to lie."""

_COARSE, _FINE, _FINEST = 0.5, 0.1, 0.02
_MOST_POINTS = 60_000
_LEAST_POINTS = 200


def angle_of(dark: "NDArray") -> float:
    """Degrees by which a page is to be turned to the right so that its rows lie level; within WIDEST, 0 where none are seen.

    ``dark`` is a picture as an array of rows, true where there is ink; about
    a thousand dots a side are enough.
    """
    import numpy

    y, x = numpy.nonzero(dark)
    if len(x) < _LEAST_POINTS:
        return 0.0
    if len(x) > _MOST_POINTS:
        # Evenly, and without chance: the same page gives the same angle.
        some = numpy.linspace(0, len(x) - 1, _MOST_POINTS).astype(numpy.intp)
        x, y = x[some], y[some]
    best = _sharpest(x, y, dark.shape, 0.0, WIDEST, _COARSE)
    best = _sharpest(x, y, dark.shape, best, _COARSE, _FINE)
    return round(_sharpest(x, y, dark.shape, best, _FINE, _FINEST), 2)


def _sharpest(x: "NDArray", y: "NDArray", shape: tuple[int, int], around: float, within: float, step: float) -> float:
    import numpy

    steps = round(within / step)
    angles = [around + number * step for number in range(-steps, steps + 1)]
    # Of two that are as sharp the smaller: what lies level stays so.
    return max(angles, key=lambda angle: (_sharpness(x, y, shape, numpy.radians(angle)), -abs(angle)))


def _sharpness(x: "NDArray", y: "NDArray", shape: tuple[int, int], angle: float) -> float:
    import numpy

    # Turned to the right by so much, a point comes to lie at this height.
    height = x * numpy.sin(angle) + y * numpy.cos(angle)
    margin = shape[1] * abs(numpy.sin(angle))
    counts = numpy.bincount((height + margin).astype(numpy.intp), minlength=2)
    return float(numpy.sum(numpy.diff(counts.astype(float)) ** 2))

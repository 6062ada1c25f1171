"""Great circles for drawing on a flat map, cut where the map is."""

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, ceil, cos, degrees, hypot, radians, sin

from keeper.earth import Point

_STEP = 1.0
"""Degrees of arc between the points of a drawn line, at most."""

_NEVER_ROUND = 179.0
"""Degrees of longitude; a line within fewer neither crosses the date line nor goes over a pole."""


def line_between(here: Point, there: Point) -> list[list[tuple[float, float]]]:
    """The great circle between two points, for drawing: pieces of (longitude, latitude).

    A point every degree of arc at least. The line is cut at the date line,
    each piece reaching to 180 or -180, and at a pole, each piece reaching up
    to it. Between antipodes, which every great circle joins, it goes over the
    north pole. On a sphere, so up to 0.2 degrees beside the geodesic.
    """
    return _cut(_along(here, there))


def _along(here: Point, there: Point) -> list[tuple[float, float]]:
    start, end = _vector(here), _vector(there)
    cosine = sum(a * b for a, b in zip(start, end, strict=True))
    sine = hypot(*_cross(start, end))
    if sine < 1e-9 and cosine < 0:
        # The north pole would not do for the poles themselves: they take a meridian.
        meridian = there[1] if abs(here[0]) > 89.0 else here[1]
        via = (0.0, meridian) if abs(here[0]) > 89.0 or abs(there[0]) > 89.0 else (90.0, 0.0)
        return [*_along(here, via)[:-1], *_along(via, there)[1:]]
    angle = atan2(sine, cosine)
    steps = max(1, ceil(degrees(angle) / _STEP))
    return [(here[1], here[0]), *_between(start, end, angle, steps), (there[1], there[0])]


def _vector(point: Point) -> tuple[float, float, float]:
    latitude, longitude = radians(point[0]), radians(point[1])
    return cos(latitude) * cos(longitude), cos(latitude) * sin(longitude), sin(latitude)


def _cross(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, float, float]:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _between(start: tuple, end: tuple, angle: float, steps: int) -> Iterator[tuple[float, float]]:
    (a, b, c), (d, e, f) = start, end
    # Spelt out: there are a hundred thousand such points in fifty years of journeys.
    for step in range(1, steps):
        part = step / steps
        one, other = sin((1 - part) * angle), sin(part * angle)
        x, y, z = one * a + other * d, one * b + other * e, one * c + other * f
        yield degrees(atan2(y, x)), degrees(atan2(z, hypot(x, y)))


def _needs_no_cut(line: list[tuple[float, float]]) -> bool:
    longitudes, latitudes = zip(*line, strict=True)
    return max(longitudes) - min(longitudes) < _NEVER_ROUND and min(latitudes) > -90 and max(latitudes) < 90


def _cut(line: list[tuple[float, float]]) -> list[list[tuple[float, float]]]:
    if _needs_no_cut(line):
        return _whole([line])
    pieces = [[line[0]]]
    for (lon, lat), (lon2, lat2) in pairwise(line):
        turn = lon2 - lon
        if abs(abs(turn) - 180) < 1e-6 or 90 in (abs(lat), abs(lat2)):
            # At the pole a point has every longitude: go up one meridian and
            # down the other.
            pole = 90.0 if lat + lat2 > 0 else -90.0
            pieces[-1].append((lon, pole))
            pieces.append([(lon2, pole)])
        elif abs(turn) > 180:
            edge = 180.0 if turn < 0 else -180.0
            share = (edge - lon) / (turn + 2 * edge)
            crossing = lat + share * (lat2 - lat)
            pieces[-1].append((edge, crossing))
            pieces.append([(-edge, crossing)])
        pieces[-1].append((lon2, lat2))
    return _whole(pieces)


def _whole(pieces: list[list[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    return [piece for piece in map(_distinct, pieces) if len(piece) > 1] or [pieces[0][:1] * 2]


def _distinct(piece: list[tuple[float, float]]) -> list[tuple[float, float]]:
    return [piece[0], *(b for a, b in pairwise(piece) if a != b)]

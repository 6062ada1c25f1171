"""What the map draws, made ready on a lane: the land, and the ways from place to place.

Paths are in degrees, longitude to the right and latitude upwards.
"""

import struct
import sys
from array import array
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, takewhile

from PySide6.QtCore import QByteArray, QDataStream, QRectF, Qt
from PySide6.QtGui import QPainterPath, QPolygonF

from keeper.review.places import Way
from keeper.shipped import resource
from keeper.study.chart import Chart, unrolled
from keeper.study.great_circle import line_between
from keeper.study.outline import COARSE, FINE, read_outline

COARSEST, MIDDLE, FINEST = "coarsest", "middle", "finest"
LEVELS = (COARSEST, MIDDLE, FINEST)
"""The outlines of the land, by how closely one looks."""

_MIDDLE_BELOW, _FINEST_BELOW = 150.0, 60.0
"""Degrees of longitude across the map."""

_TOLERANCE = 0.12
"""Degrees: points of the middle outline closer than this are one; about two pixels."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed part of the land: what is filled, its shore, and its bounds.

    One that crosses the date line goes on beyond 180 degrees.
    """

    land: QPainterPath
    shore: QPainterPath
    bounds: QRectF


@dataclass(frozen=True, slots=True)
class DrawnWay:
    """A way as a line: its pieces and their bounds."""

    way: Way
    path: QPainterPath
    bounds: QRectF


def level_for(chart: Chart) -> str:
    """Which outline is fine enough for a map."""
    if chart.degrees_across >= _MIDDLE_BELOW:
        return COARSEST
    return MIDDLE if chart.degrees_across >= _FINEST_BELOW else FINEST


def land(level: str) -> tuple[Shape, ...]:
    """The land at a level; some tens of milliseconds. Raises NoOutline."""
    rings = read_outline(resource("outline") / (COARSE if level == COARSEST else FINE))
    # One ring is the south pole itself, seen from within.
    flat = (unrolled(ring.points) for ring in rings if ring.north > -89.9)
    if level == MIDDLE:
        flat = map(_thinned, flat)
    # What is left of an islet smaller than the tolerance is no shape.
    return tuple(_shape(points) for points in flat if len(points) > 3)


def _thinned(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    kept = [points[0]]
    x, y = kept[0]
    for point in points[1:]:
        if abs(point[0] - x) + abs(point[1] - y) >= _TOLERANCE:
            kept.append(point)
            x, y = point
    return [*kept, points[0]]


def _shape(points: Sequence[tuple[float, float]]) -> Shape:
    filled = shore = _outlined(points)
    bounds = filled.controlPointRect()
    if max(-bounds.top(), bounds.bottom()) >= 90:
        # The way along the pole, with which such a line ends, is no shore.
        shore = _outlined(list(takewhile(lambda point: abs(point[1]) < 90, points)))
    return Shape(filled, shore, bounds.adjusted(-1e-6, -1e-6, 1e-6, 1e-6))


def _outlined(points: Sequence[tuple[float, float]]) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(_polygon(points))
    return path


def _polygon(points: Sequence[tuple[float, float]]) -> QPolygonF:
    # As a stream of bytes: a third of the time that a QPointF for each takes,
    # and a lane that makes 60,000 of them holds up the window.
    numbers = array("d", chain.from_iterable(points))
    if sys.byteorder == "little":
        numbers.byteswap()
    made = QPolygonF()
    QDataStream(QByteArray(struct.pack(">I", len(points)) + numbers.tobytes())) >> made
    return made


def drawn_ways(ways: Iterable[Way]) -> list[DrawnWay]:
    """The lines of ways, great circles; some 0.2 ms each."""
    return [_drawn(way) for way in ways]


def _drawn(way: Way) -> DrawnWay:
    path = QPainterPath()
    for piece in line_between(way.here, way.there):
        path.addPolygon(_polygon(piece))
    # A line due north has no width, and nothing meets bounds without one.
    return DrawnWay(way, path, path.controlPointRect().adjusted(-1e-6, -1e-6, 1e-6, 1e-6))


def together(shapes: Iterable[Shape]) -> tuple[QPainterPath, QPainterPath]:
    """All land in one path, lakes left out of it, and all shores in another."""
    filled, shores = QPainterPath(), QPainterPath()
    filled.setFillRule(Qt.FillRule.OddEvenFill)
    for shape in shapes:
        filled.addPath(shape.land)
        shores.addPath(shape.shore)
    return filled, shores

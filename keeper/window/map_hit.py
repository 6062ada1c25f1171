"""Which way of the map lies under a point."""

from collections.abc import Iterable
from itertools import pairwise

from PySide6.QtCore import QPointF

from keeper.study.chart import Chart
from keeper.window.map_shapes import DrawnWay

WITHIN = 5.0
"""Pixels from a way within which it is meant."""


def way_at(ways: Iterable[DrawnWay], chart: Chart, where: QPointF) -> DrawnWay | None:
    """The way nearest to a spot of the map, of equals the first; None where none is near."""
    latitude, longitude = chart.point(where.x(), where.y())
    # The paths end at the date line, the map goes on over it.
    spot = QPointF((longitude + 180.0) % 360.0 - 180.0, latitude)
    wide, high = WITHIN / chart.across, WITHIN / chart.scale
    near = [way for way in ways if way.bounds.adjusted(-wide, -high, wide, high).contains(spot)]
    far = [(_pixels(way, spot, chart), number) for number, way in enumerate(near)]
    least, number = min(far, default=(WITHIN + 1, 0))
    return near[number] if least <= WITHIN else None


def _pixels(way: DrawnWay, spot: QPointF, chart: Chart) -> float:
    found = WITHIN + 1
    for piece in way.path.toSubpathPolygons():
        flat = [((p.x() - spot.x()) * chart.across, (p.y() - spot.y()) * chart.scale) for p in piece]
        found = min([found, *(_from_origin(*one, *other) for one, other in pairwise(flat))])
    return found


def _from_origin(x: float, y: float, x2: float, y2: float) -> float:
    along, up = x2 - x, y2 - y
    length = along * along + up * up
    share = min(1.0, max(0.0, -(x * along + y * up) / length)) if length else 0.0
    return ((x + share * along) ** 2 + (y + share * up) ** 2) ** 0.5

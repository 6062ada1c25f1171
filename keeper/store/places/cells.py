"""The net of cells laid over the globe, by which the gazetteer finds what is near.

A cell's number is its row from the south pole times 360, plus its column from
180 degrees west. Points are (latitude, longitude) in degrees.
"""

from math import asin, ceil, cos, degrees, floor, radians, sin


def cell_of(latitude: float, longitude: float, side: int = 1) -> int:
    """The number of the cell, of ``side`` degrees each way, in which a point lies."""
    return _row(latitude, side) * 360 + floor((longitude + 180) % 360 / side)


def cells_around(latitude: float, longitude: float, reach: float, side: int = 1) -> list[int]:
    """The cells that hold every point within ``reach`` degrees, across date line and poles."""
    # North of every point beside which the circle passes the pole, all
    # longitudes are within reach.
    aside = 180.0
    if abs(latitude) + reach < 90:
        aside = degrees(asin(min(sin(radians(reach)) / cos(radians(latitude)), 1.0)))
    around = 360 // side
    first = floor((longitude - aside + 180) % 360 / side)
    columns = {(first + step) % around for step in range(min(ceil(2 * aside / side) + 1, around))}
    rows = range(_row(max(latitude - reach, -90), side), _row(min(latitude + reach, 90), side) + 1)
    return [row * 360 + column for row in rows for column in sorted(columns)]


def _row(latitude: float, side: int) -> int:
    return min(floor((latitude + 90) / side), 180 // side - 1)

"""Points on the Earth, and how far apart two of them are."""

from functools import lru_cache
from math import asin, cos, radians, sin

Point = tuple[float, float]
"""Latitude and longitude in degrees, WGS 84."""

_MEAN_RADIUS = 6371008.8
"""In metres (IUGG)."""


@lru_cache(maxsize=1 << 16)
def metres_between(here: Point, there: Point) -> float:
    """Length in metres of the geodesic on the WGS 84 ellipsoid: the distance that is told, and held against a bound.

    C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013), through
    geographiclib.
    """
    # Not needed before the first journey is shown.
    from geographiclib.geodesic import Geodesic

    return Geodesic.WGS84.Inverse(*here, *there, Geodesic.DISTANCE)["s12"]


def rank_by_distance(here: Point, there: Point) -> float:
    """What puts many points in order of how near they are: metres on a sphere, by haversines, up to 0.6 % beside the true.

    A hundredth of the time of ``metres_between``; never to be shown.
    """
    (lat, lon), (lat2, lon2) = here, there
    up, along = sin(radians(lat2 - lat) / 2), sin(radians(lon2 - lon) / 2)
    half = up * up + cos(radians(lat)) * cos(radians(lat2)) * along * along
    return 2 * _MEAN_RADIUS * asin(min(half**0.5, 1.0))

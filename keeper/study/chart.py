"""A flat map's frame: where a point of the Earth lies on it, moving it, zooming it.

Equirectangular: straight meridians and parallels, each degree of latitude as
high as any other, and true in shape along the standard parallel. Distances on
the map are pixels, x to the right and y downwards.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, radians

from keeper.earth import Point

_STEEPEST = 75.0
_TRUE_BELOW, _WORLD_FROM = 30.0, 150.0
"""Degrees of latitude shown: below the first the standard parallel is the
middle one; from the second on it is the equator; in between it is between."""

CLOSEST = 3000.0
"""Pixels a degree of latitude, at most: a pixel is some 40 metres."""

_ALONE = 2.0
"""Degrees shown around a single point."""


@dataclass(frozen=True, slots=True)
class Chart:
    """The map as it is framed: its middle, its scale, its size.

    ``scale`` is in pixels a degree of latitude; ``parallel`` is the standard
    parallel in degrees.
    """

    latitude: float = 0.0
    longitude: float = 0.0
    scale: float = 1.0
    parallel: float = 0.0
    width: float = 100.0
    height: float = 100.0

    @property
    def across(self) -> float:
        """Pixels a degree of longitude."""
        return self.scale * cos(radians(self.parallel))

    @property
    def degrees_across(self) -> float:
        """Degrees of longitude from the left edge to the right."""
        return self.width / self.across

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """West, south, east and north of what is shown; beyond 180 where it goes over the date line."""
        aside, up = self.width / 2 / self.across, self.height / 2 / self.scale
        return self.longitude - aside, self.latitude - up, self.longitude + aside, self.latitude + up

    def spot(self, point: Point, turn: float = 0.0) -> tuple[float, float]:
        """Where a point lies on the map; ``turn`` is added to its longitude."""
        return (
            self.width / 2 + (point[1] + turn - self.longitude) * self.across,
            self.height / 2 + (self.latitude - point[0]) * self.scale,
        )

    def nearest_spot(self, point: Point) -> tuple[float, float]:
        """Where a point lies, by the way round that is nearest to the middle."""
        return self.spot(point, 360.0 * round((self.longitude - point[1]) / 360.0))

    def point(self, x: float, y: float) -> Point:
        """The point at a spot of the map, its longitude perhaps beyond 180."""
        return (
            self.latitude + (self.height / 2 - y) / self.scale,
            self.longitude + (x - self.width / 2) / self.across,
        )

    def turns(self) -> Iterator[float]:
        """What to add to longitudes (-180 to 180) so that all that is shown is drawn."""
        west, _, east, _ = self.bounds
        turn = 360.0 * round(west / 360.0)
        while turn - 180.0 > west:
            turn -= 360.0
        while turn - 180.0 < east:
            if turn + 180.0 > west:
                yield turn
            turn += 360.0

    def moved(self, x: float, y: float) -> "Chart":
        """The map pushed by so many pixels."""
        return replace(
            self, longitude=self.longitude - x / self.across, latitude=self.latitude + y / self.scale
        )._kept_in()

    def zoomed(self, factor: float, x: float | None = None, y: float | None = None) -> "Chart":
        """Closer by a factor, a spot (or the middle) staying where it is."""
        x, y = self.width / 2 if x is None else x, self.height / 2 if y is None else y
        held = self.point(x, y)
        nearer = replace(self, scale=self.scale * factor)._kept_in()._trued()
        return replace(
            nearer,
            longitude=held[1] - (x - self.width / 2) / nearer.across,
            latitude=held[0] - (self.height / 2 - y) / nearer.scale,
        )._kept_in()

    def sized(self, width: float, height: float) -> "Chart":
        """The same middle and scale on a map of another size."""
        return replace(self, width=max(1.0, width), height=max(1.0, height))._kept_in()

    def _trued(self) -> "Chart":
        shown = self.height / self.scale
        share = min(max((_WORLD_FROM - shown) / (_WORLD_FROM - _TRUE_BELOW), 0.0), 1.0)
        return replace(self, parallel=min(max(self.latitude * share, -_STEEPEST), _STEEPEST))

    def _kept_in(self) -> "Chart":
        least = self.width / 360.0 / cos(radians(self.parallel))
        scale = min(max(self.scale, least), CLOSEST)
        spare = max(0.0, 90.0 - self.height / 2 / scale)
        return replace(
            self,
            scale=scale,
            latitude=min(max(self.latitude, -spare), spare),
            longitude=(self.longitude + 180.0) % 360.0 - 180.0,
        )


def fitted(points: Iterable[Point], width: float, height: float, margin: float = 0.0) -> Chart:
    """The chart that shows all the points, as close as it can; the world when there are none.

    Goes over the date line where that is the shorter way. ``margin`` is in
    pixels.
    """
    shown = list(points)
    blank = Chart(width=max(1.0, width), height=max(1.0, height))
    if not shown:
        return replace(blank, scale=1e-9)._kept_in()
    south, north = min(p[0] for p in shown), max(p[0] for p in shown)
    west, wide = _shortest_arc(p[1] for p in shown)
    middle = replace(blank, latitude=(south + north) / 2, longitude=west + wide / 2)
    room = max(1.0, width - 2 * margin), max(1.0, height - 2 * margin)
    high = max(north - south, _ALONE)
    # The parallel depends on the scale and the scale on the parallel.
    for _ in range(3):
        aside = max(wide, _ALONE) * cos(radians(middle.parallel))
        middle = replace(middle, scale=min(room[1] / high, room[0] / aside))._trued()
    return middle._kept_in()


def _shortest_arc(longitudes: Iterable[float]) -> tuple[float, float]:
    """Where the shortest arc with all the longitudes begins, and its width, in degrees."""
    around = sorted({longitude % 360.0 for longitude in longitudes})
    gaps = [(after - before, after) for before, after in pairwise([*around, around[0] + 360.0])]
    gap, after = max(gaps)
    return after, 360.0 - gap


def unrolled(ring: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """A closed line of (longitude, latitude) as it is filled on a flat map.

    One that crosses the date line goes on beyond 180 or -180 degrees; one that
    goes around a pole is closed along that pole's edge of the map.
    """
    along = [longitude for longitude, _ in ring]
    if max(along) - min(along) <= 180.0:
        # Most do neither, and there are a thousand of them.
        return list(ring)
    flat = [ring[0]]
    turn = 0.0
    for (before, _), (longitude, latitude) in pairwise(ring):
        if abs(longitude - before) > 180.0:
            turn += 360.0 if longitude < before else -360.0
        flat.append((longitude + turn, latitude))
    if turn:
        pole = -90.0 if sum(latitude for _, latitude in ring) < 0 else 90.0
        flat += [(flat[-1][0], pole), (flat[0][0], pole), flat[0]]
    return flat

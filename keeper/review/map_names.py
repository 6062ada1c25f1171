"""Where the names stand on a printed map: beside their places, in no other's way, and every one of them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin, sqrt
from unicodedata import east_asian_width

from keeper.review.book import MapSpot, MapWay, Spot

Box = tuple[float, float, float, float]
"""Left, top, right and bottom in millimetres."""

_LETTER, _ROW = 1.36, 2.9
"""Millimetres: the usual width of a letter of a name, and the height of a name."""

_OFF = 0.7
"""Millimetres between a place's spot and its name."""

_NEAR = (2.5, 4.0, 6.0, 8.5, 11.0)
_FAR = (14.0, 18.0, 23.0, 29.0, 36.0)
"""Millimetres from a place to a name that a thin line leads to."""

_ROUND = 24
"""In so many directions a name is tried."""

_STEP = 0.5
"""Millimetres between the points at which a line on the map is felt for."""


@dataclass(frozen=True, slots=True)
class MapPlace:
    """A place to be named: its spot in millimetres, and how many nights were spent there."""

    at: Spot
    name: str
    nights: int

    @property
    def radius(self) -> float:
        """Of its ring, in millimetres."""
        return round(0.5 + 0.12 * sqrt(self.nights), 2)


def named(places: Sequence[MapPlace], ways: Iterable[MapWay], width: float, height: float) -> tuple[MapSpot, ...]:
    """Each place with its name; those with most nights choose first.

    A name stands beside its place where nothing is in the way, else a little
    off with a line leading to it, else over a journey, else further off; what
    has no room even there gets a number.
    """
    laid = _Laid(places, ways, width, height)
    found = [laid.name(place) for place in sorted(places, key=lambda one: -one.nights)]
    return tuple(_numbered(found))


def _numbered(found: Iterable[MapSpot]) -> Iterator[MapSpot]:
    count = 0
    for spot in found:
        if spot.number:
            count += 1
            spot = replace(spot, number=count)
        yield spot


class _Laid:
    """What is on the map so far."""

    def __init__(self, places: Sequence[MapPlace], ways: Iterable[MapWay], width: float, height: float) -> None:
        self._width, self._height = width, height
        self._rings = {place: _around(place.at, place.radius) for place in places}
        self._names: list[Box] = []
        self._leaders: list[tuple[Spot, Spot]] = []
        self._drawn = {cell for way in ways for line in way.lines for cell in _cells(line)}

    def name(self, place: MapPlace) -> MapSpot:
        wide = _LETTER * _columns(place.name)
        beside = list(_beside(place, wide))
        tries = (
            (beside, False), (_off(place, wide, _NEAR), False), (beside, True),
            (_off(place, wide, _NEAR), True), (_off(place, wide, _FAR), True),
        )  # fmt: skip
        found = (one for some, over in tries for one in some if self._free(one, place, over))
        # A number may stand over something at the last: it is small, and its name is told.
        number = (replace(one, number=1) for one in _beside(place, 2 * _LETTER))
        first = next(found, None) or next((one for one in number if self._free(one, place, True)), None)
        return self._take(first or replace(next(iter(_beside(place, 2 * _LETTER))), number=1))

    def _take(self, spot: MapSpot) -> MapSpot:
        self._names.append(_edges(spot.box))
        if spot.leader:
            self._leaders.append(spot.leader)
        return spot

    def _free(self, spot: MapSpot, place: MapPlace, over_ways: bool) -> bool:
        box = _edges(spot.box)
        within = box[0] >= 0 and box[1] >= 0 and box[2] <= self._width and box[3] <= self._height
        others = [ring for other, ring in self._rings.items() if other != place]
        return (
            within
            and not any(_meet(box, other) for other in (*self._rings.values(), *self._names))
            and not any(_through(line, box) for line in self._leaders)
            and not (spot.leader and any(_through(spot.leader, other) for other in (*others, *self._names)))
            and (over_ways or not self._crossed(box))
        )

    def _crossed(self, box: Box) -> bool:
        left, top, right, bottom = (int(part) for part in box)
        return any((x, y) in self._drawn for x in range(left, right + 1) for y in range(top, bottom + 1))


def _columns(name: str) -> int:
    return sum(2 if east_asian_width(letter) in "WF" else 1 for letter in name)


def _beside(place: MapPlace, wide: float) -> Iterator[MapSpot]:
    (x, y), off = place.at, place.radius + _OFF
    slant = place.radius * 0.7 + 0.4
    for left, top, align in (
        (x + off, y - _ROW / 2, "left"), (x - off - wide, y - _ROW / 2, "right"),
        (x + slant, y - slant - _ROW, "left"), (x + slant, y + slant, "left"),
        (x - slant - wide, y - slant - _ROW, "right"), (x - slant - wide, y + slant, "right"),
        (x - wide / 2, y - place.radius - _ROW, "center"), (x - wide / 2, y + place.radius, "center"),
    ):  # fmt: skip
        yield _spot(place, left, top, wide, align)


def _off(place: MapPlace, wide: float, distances: Sequence[float]) -> Iterator[MapSpot]:
    (x, y), radius = place.at, place.radius
    for distance in distances:
        for turn in range(_ROUND):
            across, down = cos(2 * pi * turn / _ROUND), sin(2 * pi * turn / _ROUND)
            begin = (x + radius * across, y + radius * down)
            end = (x + (radius + distance) * across, y + (radius + distance) * down)
            left = end[0] + 0.4 if across >= 0 else end[0] - 0.4 - wide
            leader = tuple((round(a, 2), round(b, 2)) for a, b in (begin, end))
            yield _spot(place, left, end[1] - _ROW / 2, wide, "left" if across >= 0 else "right", leader)


def _spot(
    place: MapPlace, left: float, top: float, wide: float, align: str, leader: tuple[Spot, ...] = ()
) -> MapSpot:
    at, box = (round(place.at[0], 2), round(place.at[1], 2)), (round(left, 2), round(top, 2), round(wide, 2), _ROW)
    return MapSpot(at, place.name, place.nights, place.radius, box, align, leader)


def _around(at: Spot, radius: float) -> Box:
    return at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius


def _edges(box: Box) -> Box:
    return box[0], box[1], box[0] + box[2], box[1] + box[3]


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _through(line: Sequence[Spot], box: Box) -> bool:
    return any(box[0] < x < box[2] and box[1] < y < box[3] for x, y in _points(line))


def _cells(line: Sequence[Spot]) -> Iterator[tuple[int, int]]:
    return ((int(x), int(y)) for x, y in _points(line))


def _points(line: Sequence[Spot]) -> Iterator[Spot]:
    """Points along a line, close enough that none of the map's squares is missed by much."""
    for (x, y), (right, down) in pairwise(line):
        parts = max(1, ceil(hypot(right - x, down - y) / _STEP))
        for part in range(parts + 1):
            yield x + (right - x) * part / parts, y + (down - y) * part / parts

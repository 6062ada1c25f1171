"""The map of a book: the land, the journeys and the places, laid flat in millimetres."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import hypot

from keeper.review.book import BookMap, MapWay, Spot
from keeper.review.map_names import MapPlace, named
from keeper.review.places import PlaceKept, Way
from keeper.study.chart import Chart, fitted, unrolled
from keeper.study.great_circle import line_between
from keeper.study.outline import Ring

_MARGIN = 14.0
"""Millimetres between the outermost place and the map's edge: room for its name."""

_FINEST = 0.12
"""Points nearer than this to the one before are left out: no press shows them."""

_LEAST = 7.0
"""Degrees of latitude that a map shows at least: a coast of some 800 kilometres is known at sight."""

_COAST, _WIDER, _WORLD = 1.5, 1.4, 120.0
"""A map is known by its coasts: where they are not so many times as long as it is wide, it shows so many times
more, up to so many degrees of latitude."""


def book_map(
    places: Sequence[PlaceKept], ways: Iterable[Way], rings: Iterable[Ring], width: float, height: float
) -> BookMap | None:
    """The map of all places with a position; None where there is none."""
    placed = [one for one in places if one.point and one.nights]
    if not placed:
        return None
    chart, land = _recognised(chart_of(placed, width, height), list(rings))
    drawn = tuple(MapWay(tuple(_way(chart, way)), way.times, way.unsure) for way in ways)
    spots = [MapPlace(chart.nearest_spot(one.point), one.place.name, one.nights) for one in placed]
    return BookMap(width, height, land, drawn, named(spots, drawn, width, height))


def chart_of(places: Iterable[PlaceKept], width: float, height: float) -> Chart:
    """The frame of the map before it is known what coasts it shows, to know how fine an outline it needs."""
    chart = fitted([one.point for one in places if one.point and one.nights], width, height, _MARGIN)
    return chart.zoomed(min(1.0, height / _LEAST / chart.scale))


def _recognised(chart: Chart, rings: Sequence[Ring]) -> tuple[Chart, tuple[tuple[Spot, ...], ...]]:
    """The frame, widened until coasts tell where it is, and the land in it."""
    land = tuple(_land(chart, rings))
    while _coast(land, chart) < _COAST * chart.width and chart.height / chart.scale < _WORLD:
        wider = chart.zoomed(1 / _WIDER)
        if wider.scale == chart.scale:
            break
        chart = wider
        land = tuple(_land(chart, rings))
    return chart, land


def _coast(land: Iterable[Sequence[Spot]], chart: Chart) -> float:
    """How long the coasts on the map are, in millimetres; where land goes on beyond the edge is no coast."""

    def inside(spot: Spot) -> bool:
        return 0 <= spot[0] <= chart.width and 0 <= spot[1] <= chart.height

    return sum(
        hypot(after[0] - before[0], after[1] - before[1])
        for ring in land
        for before, after in pairwise([*ring, ring[0]])
        if inside(before) and inside(after)
    )


def _land(chart: Chart, rings: Iterable[Ring]) -> Iterable[tuple[Spot, ...]]:
    for ring in rings:
        if not _near(chart, ring):
            continue
        flat = unrolled(ring.points)
        # One that goes on beyond the date line may lie a whole turn away.
        west, _, east, _ = chart.bounds
        for turn in (-360.0, 0.0, 360.0):
            if min(flat)[0] + turn > east or max(flat)[0] + turn < west:
                continue
            spots = _thinned(flat, chart, turn)
            inside = _clipped(spots, chart.width, chart.height)
            if len(inside) > 2:
                yield tuple((round(x, 2), round(y, 2)) for x, y in inside)


def _near(chart: Chart, ring: Ring) -> bool:
    west, south, east, north = chart.bounds
    # A ring around a pole or over the date line has bounds that tell nothing.
    around = ring.east - ring.west > 350
    return around or any(ring.meets(west - turn, south, east - turn, north) for turn in chart.turns())


def _thinned(flat: Sequence[tuple[float, float]], chart: Chart, turn: float) -> list[Spot]:
    """The points of a line on the map, without those that no press could tell from the one before."""
    # As Chart.spot, but there are sixty thousand points.
    (west, north), across, up = chart.spot((0.0, 0.0), turn), chart.across, chart.scale
    kept: list[Spot] = []
    x = y = float("inf")
    for longitude, latitude in flat:
        right, down = west + longitude * across, north - latitude * up
        if abs(right - x) + abs(down - y) >= _FINEST:
            kept.append((right, down))
            x, y = right, down
    return kept


def _clipped(spots: list[Spot], width: float, height: float) -> list[Spot]:
    """What of a closed line lies within the map (Sutherland & Hodgman, 1974)."""
    # A little outside, so that the coast's own line is not drawn along the edge.
    for axis, edge, sign in ((0, -1.0, 1), (0, width + 1, -1), (1, -1.0, 1), (1, height + 1, -1)):
        found: list[Spot] = []
        for before, after in zip([spots[-1], *spots] if spots else (), spots, strict=False):
            was, now = sign * (before[axis] - edge) >= 0, sign * (after[axis] - edge) >= 0
            if was != now:
                share = (edge - before[axis]) / (after[axis] - before[axis])
                found.append(tuple(a + share * (b - a) for a, b in zip(before, after, strict=True)))
            if now:
                found.append(after)
        spots = found
    return spots


def _way(chart: Chart, way: Way) -> Iterable[tuple[Spot, ...]]:
    west, _, east, _ = chart.bounds
    for line in line_between(way.here, way.there):
        for turn in chart.turns():
            if any(west <= longitude + turn <= east for longitude, _ in line):
                yield tuple(
                    tuple(round(part, 2) for part in chart.spot((latitude, longitude), turn))
                    for longitude, latitude in line
                )

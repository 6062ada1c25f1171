"""The map of a book: the land, the journeys and the places, laid flat in millimetres."""

from collections.abc import Iterable, Sequence
from unicodedata import east_asian_width

from keeper.review.book import BookMap, MapSpot, MapWay, Spot
from keeper.review.places import PlaceKept, Way
from keeper.study.chart import Chart, fitted, unrolled
from keeper.study.great_circle import line_between
from keeper.study.outline import Ring

_MARGIN = 14.0
"""Millimetres between the outermost place and the map's edge: room for its name."""

_FINEST = 0.12
"""Points nearer than this to the one before are left out: no press shows them."""

_LETTER, _ROW, _OFF = 1.45, 3.0, 1.2
"""Millimetres: the usual width of a letter of a name, the height of one, and how far it stands off."""


def book_map(
    places: Sequence[PlaceKept], ways: Iterable[Way], rings: Iterable[Ring], width: float, height: float
) -> BookMap | None:
    """The map of all places with a position; None where there is none."""
    placed = [one for one in places if one.point and one.nights]
    if not placed:
        return None
    chart = fitted([one.point for one in placed], width, height, _MARGIN)
    return BookMap(
        width,
        height,
        tuple(_land(chart, rings)),
        tuple(MapWay(tuple(_way(chart, way)), way.times, way.unsure) for way in ways),
        tuple(_named(chart, placed)),
    )


def chart_of(places: Iterable[PlaceKept], width: float, height: float) -> Chart:
    """The frame of the map, to know how fine an outline it needs."""
    return fitted([one.point for one in places if one.point and one.nights], width, height, _MARGIN)


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


def _named(chart: Chart, placed: Sequence[PlaceKept]) -> Iterable[MapSpot]:
    """Each place with the side on which its name is in no other's way; those with most nights first."""
    spots = {one.place.id: chart.nearest_spot(one.point) for one in placed}
    taken = [(x - 1, y - 1, x + 1, y + 1) for x, y in spots.values()]
    for one in sorted(placed, key=lambda one: -one.nights):
        at = spots[one.place.id]
        wide = _LETTER * _columns(one.place.name) + _OFF
        boxes = _boxes(at, wide)
        own = (at[0] - 1, at[1] - 1, at[0] + 1, at[1] + 1)
        free = (side for side, box in boxes.items() if _fits(box, chart, [other for other in taken if other != own]))
        side = next(free, "")
        if side:
            taken.append(boxes[side])
        yield MapSpot((round(at[0], 2), round(at[1], 2)), one.place.name, one.nights, side)


def _columns(name: str) -> int:
    return sum(2 if east_asian_width(letter) in "WF" else 1 for letter in name)


def _boxes(at: Spot, wide: float) -> dict[str, tuple[float, float, float, float]]:
    x, y, half = *at, _ROW / 2
    return {
        "east": (x + _OFF, y - half, x + _OFF + wide, y + half),
        "west": (x - _OFF - wide, y - half, x - _OFF, y + half),
        "north": (x - wide / 2, y - _OFF - _ROW, x + wide / 2, y - _OFF),
        "south": (x - wide / 2, y + _OFF, x + wide / 2, y + _OFF + _ROW),
    }


def _fits(box: tuple[float, ...], chart: Chart, taken: Iterable[tuple[float, ...]]) -> bool:
    within = box[0] >= 0 and box[1] >= 0 and box[2] <= chart.width and box[3] <= chart.height
    return within and not any(
        box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3] for other in taken
    )

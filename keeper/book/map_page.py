"""The map as the plain data that the template sets."""

from typing import Any

from keeper.book.letters import Compositor
from keeper.review.book import BookMap, MapSpot

Data = dict[str, Any]


def of_map(map_: BookMap, year: int, letters: Compositor) -> Data:
    """What ``book.typ`` sets of a map; ``key`` are the numbers and names of places whose names have no room on it."""
    names = ", ".join(spot.name for spot in map_.spots[:40])
    return {
        "width": map_.width, "height": map_.height, "land": map_.land,
        "ways": [
            {"lines": [line for line in way.lines if len(line) > 1], "times": way.times, "unsure": way.unsure}
            for way in map_.ways
        ],
        "spots": [_spot(spot, letters) for spot in map_.spots],
        "key": [[str(spot.number), letters.plain(spot.name)] for spot in map_.spots if spot.number],
        "alt": letters.plain(f"Map of the places of {year}: {names}."),
        "told": "The larger a place, the more nights there.",
    }  # fmt: skip


def _spot(spot: MapSpot, letters: Compositor) -> Data:
    shown = str(spot.number) if spot.number else letters.plain(spot.name)
    return {
        "at": spot.at, "radius": spot.radius, "box": spot.box, "align": spot.align, "leader": spot.leader, "shown": shown,
    }  # fmt: skip

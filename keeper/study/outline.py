"""The outline of the land, as the map draws it."""

import struct
import sys
import zlib
from array import array
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

from keeper.errors import KeeperError

COARSE, FINE = "land-110m.bin", "land-50m.bin"
"""The outlines below resources/outline: about 5,000 points and 60,000."""

_COARSE_FROM = 150.0
_HEADER = struct.Struct("<4sIIdddd")
_MAGIC = b"LND1"


class NoOutline(KeeperError):
    """The outline of the land that came with the program is missing or damaged."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A closed line: (longitude, latitude) in degrees, the first point again last.

    Land and the lakes in it are rings alike; fill by the odd-even rule. The
    bounds are degrees. A ring may cross the date line or go around a pole:
    ``keeper.study.chart.unrolled`` lays it flat.
    """

    points: tuple[tuple[float, float], ...]
    west: float
    south: float
    east: float
    north: float

    def meets(self, west: float, south: float, east: float, north: float) -> bool:
        """Whether the ring's bounds and these have anything in common."""
        return self.west <= east and self.east >= west and self.south <= north and self.north >= south


def outline_for(degrees_across: float) -> str:
    """Which outline is fine enough for a map so many degrees of longitude wide."""
    return COARSE if degrees_across >= _COARSE_FROM else FINE


def read_outline(file: Path) -> list[Ring]:
    """The rings of an outline made by ``resources/outline/build.py``, largest first.

    Natural Earth's land, public domain. Some tens of milliseconds for the fine
    one: for a background thread.

    Raises NoOutline when the file is missing or damaged.
    """
    try:
        return _rings(zlib.decompress(file.read_bytes()))
    except (OSError, zlib.error, struct.error, ValueError) as error:
        raise NoOutline(
            "The map of the land that comes with the program is missing or damaged. Install the program again."
        ) from error


def pack_outline(rings: list[list[tuple[int, int]]], scale: tuple[float, float], origin: tuple[float, float]) -> bytes:
    """The reverse, from rings of whole steps: degrees = origin + scale * step."""
    header = _HEADER.pack(_MAGIC, len(rings), sum(map(len, rings)), *scale, *origin)
    # Neighbours lie close: differences pack to a third of the size.
    flat = [point for ring in rings for point in ring]
    columns = (_differences([point[axis] for point in flat]) for axis in (0, 1))
    numbers = array("i", map(len, rings))
    for column in columns:
        numbers.extend(column)
    return zlib.compress(header + _little_endian(numbers).tobytes(), 9)


def _rings(plain: bytes) -> list[Ring]:
    magic, count, points, across, up, west, south = _HEADER.unpack_from(plain)
    numbers = array("i")
    numbers.frombytes(plain[_HEADER.size :])
    if magic != _MAGIC or len(numbers) != count + 2 * points or sum(numbers[:count]) != points:
        raise ValueError("not an outline")
    numbers = _little_endian(numbers)
    longitudes = [west + across * step for step in accumulate(numbers[count : count + points])]
    latitudes = [south + up * step for step in accumulate(numbers[count + points :])]
    ends = list(accumulate(numbers[:count]))
    return [_ring(longitudes[a:b], latitudes[a:b]) for a, b in zip([0, *ends], ends, strict=False)]


def _ring(longitudes: list[float], latitudes: list[float]) -> Ring:
    points = tuple(zip(longitudes, latitudes, strict=True))
    return Ring(points, min(longitudes), min(latitudes), max(longitudes), max(latitudes))


def _differences(column: list[int]) -> list[int]:
    return [b - a for a, b in zip([0, *column], column, strict=False)]


def _little_endian(numbers: array) -> array:
    if sys.byteorder == "big":
        numbers.byteswap()
    return numbers

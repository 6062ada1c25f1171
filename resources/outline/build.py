"""Makes the outlines that travel with the program: ``land-110m.bin`` and ``land-50m.bin``.

Run ``python resources/outline/build.py PACKAGE`` from the checkout. PACKAGE
is the unpacked folder of the npm package world-atlas 2 (``npm pack
world-atlas``): Natural Earth's land as TopoJSON. See CREDITS.txt.
"""

import json
import sys
from itertools import accumulate
from pathlib import Path

from keeper.study.outline import pack_outline

HERE = Path(__file__).resolve().parent


def read_arcs(topology):
    """The arcs in whole steps; TopoJSON keeps each point as its step from the one before."""
    return [
        list(zip(accumulate(x for x, _ in arc), accumulate(y for _, y in arc), strict=True)) for arc in topology["arcs"]
    ]


def join(numbers, arcs):
    """A ring from its arcs; ~n is arc n backwards, and arcs share their ends."""
    points = []
    for number in numbers:
        arc = arcs[number] if number >= 0 else arcs[~number][::-1]
        points.extend(arc[1:] if points else arc)
    return points


def extent(ring):
    """The area of the ring's bounds, by which the largest is drawn first."""
    across, up = zip(*ring, strict=True)
    return (max(across) - min(across)) * (max(up) - min(up))


def main(package):
    """Builds both outlines."""
    for name in ("land-110m", "land-50m"):
        topology = json.loads((Path(package) / f"{name}.json").read_text(encoding="utf-8"))
        arcs = read_arcs(topology)
        polygons = (polygon for geometry in topology["objects"]["land"]["geometries"] for polygon in geometry["arcs"])
        rings = [join(ring, arcs) for polygon in polygons for ring in polygon]
        rings.sort(key=extent, reverse=True)
        shape = topology["transform"]
        packed = pack_outline(rings, tuple(shape["scale"]), tuple(shape["translate"]))
        (HERE / f"{name}.bin").write_bytes(packed)


if __name__ == "__main__":
    main(sys.argv[1])

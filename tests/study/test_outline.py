"""The outline of the land."""

import pytest

from keeper.shipped import resource
from keeper.study.outline import COARSE, FINE, NoOutline, outline_for, pack_outline, read_outline


@pytest.fixture(scope="module", params=[COARSE, FINE])
def outline(request):
    return read_outline(resource("outline") / request.param)


def is_land(outline, longitude, latitude):
    """Odd-even rule: how many sides lie to the east."""
    sides = (side for ring in outline for side in zip(ring.points, ring.points[1:], strict=False))
    crossed = [
        longitude < x + (latitude - y) / (y2 - y) * (x2 - x)
        for (x, y), (x2, y2) in sides
        if (y > latitude) != (y2 > latitude)
    ]
    return sum(crossed) % 2 == 1


def test_rings_are_closed_and_on_earth(outline):
    for ring in outline:
        assert ring.points[0] == ring.points[-1] and len(ring.points) > 3
        assert -180 <= ring.west <= ring.east <= 180 + 1e-9
        assert -90 <= ring.south <= ring.north <= 90


def test_bounds_hold_the_points(outline):
    ring = outline[3]
    assert ring.west == min(longitude for longitude, _ in ring.points)
    assert ring.north == max(latitude for _, latitude in ring.points)


@pytest.mark.parametrize(
    "longitude, latitude, land",
    [(37.6, 55.8, True), (-3.7, 40.4, True), (134.0, -25.0, True), (0.0, -80.0, True),
     (-30.0, 40.0, False), (0.0, 0.0, False), (51.0, 42.0, False)],
)  # fmt: skip
def test_land_and_sea(outline, longitude, latitude, land):
    assert is_land(outline, longitude, latitude) is land


def test_bounds_for_clipping(outline):
    baltic = [ring for ring in outline if ring.meets(10, 53, 30, 66)]
    assert 0 < len(baltic) < len(outline)
    assert not outline[0].meets(200, 0, 210, 1)


def test_the_world_takes_the_coarse_one():
    assert (outline_for(360), outline_for(40)) == (COARSE, FINE)
    assert resource("outline").joinpath(FINE).stat().st_size < 200_000


def test_packed_is_read_again(tmp_path):
    rings = [[(0, 0), (10, 0), (10, 5), (0, 0)], [(90, 90), (80, 70), (99, 1), (90, 90)]]
    (tmp_path / "o.bin").write_bytes(pack_outline(rings, (0.5, 0.25), (-10.0, -20.0)))
    first, second = read_outline(tmp_path / "o.bin")
    assert first.points == ((-10, -20), (-5, -20), (-5, -18.75), (-10, -20))
    assert (second.west, second.south, second.east, second.north) == (30, -19.75, 39.5, 2.5)


@pytest.mark.parametrize("spoil", [lambda b: b"", lambda b: b[: len(b) // 2], lambda b: b"x" * 99])
def test_a_damaged_file_is_said(tmp_path, spoil):
    (tmp_path / "o.bin").write_bytes(spoil(resource(f"outline/{COARSE}").read_bytes()))
    with pytest.raises(NoOutline, match="Install the program again"):
        read_outline(tmp_path / "o.bin")
    with pytest.raises(NoOutline):
        read_outline(tmp_path / "none.bin")

"""How far apart two points are: told on the ellipsoid, put in order on a sphere."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import keeper
from keeper.earth import metres_between, rank_by_distance

points = st.tuples(st.floats(-90, 90), st.floats(-180, 180))


@given(points, points)
def test_the_sphere_puts_in_order_to_six_thousandths(here, there):
    assert rank_by_distance(here, there) == pytest.approx(metres_between(here, there), rel=0.006, abs=0.01)


def test_only_who_puts_in_order_uses_the_sphere():
    """A module that tells or keeps a distance does not grow into this list unseen."""
    program = Path(keeper.__file__).parent
    users = {
        path.relative_to(program).as_posix()
        for path in program.rglob("*.py")
        if "rank_by_distance" in path.read_text(encoding="utf-8")
    }
    assert users == {"earth.py", "store/places/towns.py", "actions/photos/offers.py"}

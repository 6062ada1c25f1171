"""A map's frame."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.chart import CLOSEST, Chart, fitted, unrolled

POINTS = st.tuples(st.floats(-90, 90), st.floats(-180, 180))


@given(st.lists(POINTS, min_size=1, max_size=12))
def test_what_is_fitted_is_in_sight(points):
    chart = fitted(points, 600, 400, 20)
    assert -90 <= chart.latitude <= 90 and -180 <= chart.longitude < 180
    # Opposite ends of the Earth cannot always be brought together.
    if chart.degrees_across < 359:
        for x, y in map(chart.nearest_spot, points):
            assert -1 <= x <= 601 and -1 <= y <= 401


def test_the_date_line_is_no_edge():
    fiji, samoa = (-18.1, 178.4), (-13.8, -171.8)
    chart = fitted([fiji, samoa], 600, 400)
    assert chart.degrees_across < 20
    (x, _), (x2, _) = chart.nearest_spot(fiji), chart.nearest_spot(samoa)
    assert -1 <= x < x2 <= 601
    assert list(chart.turns()) == [0.0, 360.0] or list(chart.turns()) == [-360.0, 0.0]


@given(POINTS, st.floats(0.01, 100), st.floats(0, 600), st.floats(0, 400))
def test_a_zoom_leaves_the_spot_where_it_is(point, factor, x, y):
    chart = fitted([point, (point[0] / 2, point[1])], 600, 400)
    nearer = chart.zoomed(factor, x, y)
    assert 0 < nearer.scale <= CLOSEST
    inside = abs(nearer.latitude) + nearer.height / 2 / nearer.scale < 89.99
    if inside:
        assert nearer.point(x, y)[0] == pytest.approx(chart.point(x, y)[0], abs=1e-6)
        turned = (nearer.point(x, y)[1] - chart.point(x, y)[1]) % 360
        assert min(turned, 360 - turned) == pytest.approx(0, abs=1e-6)


@given(st.lists(st.tuples(st.floats(-900, 900), st.floats(-900, 900)), max_size=9))
def test_it_can_be_pushed_anywhere_and_stays_on_earth(pushes):
    chart = fitted([(54, 18)], 600, 400)
    for push in pushes:
        chart = chart.moved(*push)
    _, south, _, north = chart.bounds
    assert south >= -90.001 and north <= 90.001 and -180 <= chart.longitude < 180


def test_points_and_spots_are_each_others_reverse():
    chart = Chart(latitude=10, longitude=20, scale=7, parallel=30, width=300, height=200)
    x, y = chart.spot((11.5, 18.25))
    assert chart.point(x, y) == pytest.approx((11.5, 18.25))


def test_without_points_it_is_the_world():
    chart = fitted([], 1000, 500)
    assert chart.degrees_across == pytest.approx(360)
    assert chart.zoomed(0.1).degrees_across == pytest.approx(360)


def test_a_ring_over_the_date_line_goes_on_beyond_it():
    ring = [(170, 60), (-170, 60), (-170, 65), (175, 65), (170, 60)]
    assert unrolled(ring) == [(170, 60), (190, 60), (190, 65), (175, 65), (170, 60)]


def test_a_ring_around_the_pole_is_closed_along_it():
    ring = [(-120, -70), (0, -75), (120, -70), (-120, -70)]
    flat = unrolled(ring)
    assert flat[3:] == [(240, -70), (240, -90), (-120, -90), (-120, -70)]
    assert unrolled([(1, 1), (2, 1), (2, 2), (1, 1)]) == [(1, 1), (2, 1), (2, 2), (1, 1)]

"""Stays, legs and the lines that are drawn for them."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from keeper.earth import metres_between
from keeper.study.great_circle import line_between
from keeper.study.journeys import (
    Leg,
    Stay,
    kilometres_by_year,
    legs,
    stays,
    summaries,
)

FIRST = date(2024, 2, 27)
POINTS = {"a": (54.352, 18.647), "b": (59.437, 24.754), "nowhere": None}


def nights(spelt, first=FIRST):
    """One letter a night, '-' unknown, ' ' a date that is missing."""
    return [
        (first + timedelta(step), None if letter == "-" else letter)
        for step, letter in enumerate(spelt)
        if letter != " "
    ]


def shape(found):
    return [(stay.place_id, stay.nights, (stay.last - stay.first).days + 1) for stay in found]


@pytest.mark.parametrize(
    "spelt, bridged, expected",
    [
        ("", False, []),
        ("---", False, []),
        ("a", False, [("a", 1, 1)]),
        ("aaab", False, [("a", 3, 3), ("b", 1, 1)]),
        ("aa-a", False, [("a", 2, 2), ("a", 1, 1)]),
        ("aa a", False, [("a", 2, 2), ("a", 1, 1)]),
        ("aa-a", True, [("a", 3, 4)]),
        ("aa  -a", True, [("a", 3, 6)]),
        ("a-b-a", True, [("a", 1, 1), ("b", 1, 1), ("a", 1, 1)]),
        ("aba", False, [("a", 1, 1), ("b", 1, 1), ("a", 1, 1)]),
    ],
)
def test_unknown_nights_break_a_stay_unless_bridged(spelt, bridged, expected):
    assert shape(stays(nights(spelt), bridge_unknown=bridged)) == expected


def test_nights_may_come_in_any_order_and_twice():
    spelt = nights("aabb")
    assert stays([*reversed(spelt), spelt[0]]) == stays(spelt)


def test_leap_day_is_a_night_like_any():
    (stay,) = stays(nights("aaaa"))
    assert stay == Stay("a", FIRST, date(2024, 3, 1), 4)


@given(st.text("abc- ", max_size=60))
def test_every_known_night_is_in_just_one_stay(spelt):
    found = stays(nights(spelt))
    covered = [(stay.first + timedelta(step), stay.place_id) for stay in found for step in range(stay.nights)]
    assert covered == [(night, place) for night, place in nights(spelt) if place]
    assert sum(place.nights for place in summaries(found)) == len(covered)
    assert sum(place.visits for place in summaries(found)) == len(found)


@given(st.text("abc- ", max_size=60))
def test_bridging_loses_no_night(spelt):
    bridged = stays(nights(spelt), bridge_unknown=True)
    assert sum(stay.nights for stay in bridged) == sum(letter in "abc" for letter in spelt)
    assert all(one.place_id != other.place_id for one, other in pairwise(bridged))


def test_summary_of_a_place():
    most, other = summaries(stays(nights("aab-aaab")))
    assert (most.place_id, most.nights, most.visits) == ("a", 5, 2)
    assert (most.first, most.last) == (FIRST, FIRST + timedelta(6))
    assert (other.nights, other.visits) == (2, 2)


def test_legs_tell_when_and_how_far():
    (leg,) = legs(stays(nights("aa--b")), POINTS)
    assert (leg.from_place, leg.to_place) == ("a", "b")
    assert (leg.left, leg.arrived, leg.unknown_nights) == (FIRST + timedelta(1), FIRST + timedelta(4), 2)
    assert leg.metres == metres_between(POINTS["a"], POINTS["b"])


def test_no_leg_between_two_stays_at_one_place():
    assert legs(stays(nights("a-a")), POINTS) == []


FERRY = {"f", "t"}


def test_nights_on_the_way_join_the_stay_before_to_the_stay_after():
    (leg,) = legs(stays(nights("aafftb")), POINTS, FERRY)
    assert (leg.from_place, leg.to_place, leg.by, leg.nights_by) == ("a", "b", ("f", "t"), 3)
    assert (leg.left, leg.arrived, leg.unknown_nights) == (FIRST + timedelta(1), FIRST + timedelta(5), 0)
    assert leg.metres == metres_between(POINTS["a"], POINTS["b"])


def test_unknown_nights_beside_a_ferry_are_still_unknown():
    (leg,) = legs(stays(nights("a-f--b")), POINTS, FERRY)
    assert (leg.by, leg.nights_by, leg.unknown_nights) == (("f",), 1, 3)


@pytest.mark.parametrize("spelt", ["ffa", "aff", "affa", "ff", ""])
def test_without_two_places_at_its_ends_a_ferry_goes_nowhere(spelt):
    assert legs(stays(nights(spelt)), POINTS, FERRY) == []


@given(st.text("abf-", max_size=40))
def test_every_night_between_two_stays_is_on_the_way_or_unknown(spelt):
    found = legs(stays(nights(spelt)), POINTS, FERRY)
    for leg in found:
        inside = spelt[(leg.left - FIRST).days + 1 : (leg.arrived - FIRST).days]
        assert set(inside) <= {"f", "-"} and leg.from_place != leg.to_place
        assert (inside.count("f"), inside.count("-")) == (leg.nights_by, leg.unknown_nights)
    known = [letter for letter in spelt if letter in "ab"]
    assert len(found) == sum(one != other for one, other in pairwise(known))


@pytest.mark.parametrize("other", ["nowhere", "never heard of"])
def test_a_place_without_coordinates_has_no_distance(other):
    found = stays([(FIRST, "a"), (FIRST + timedelta(1), other)])
    (leg,) = legs(found, POINTS)
    assert leg.metres is None
    assert kilometres_by_year([leg]) == {}


def test_kilometres_count_in_the_year_of_arrival():
    eve, day = date(2023, 12, 31), date(2024, 1, 1)
    ways = [Leg("a", "b", day, day, 500.0), Leg("b", "a", eve, day, 1000.0), Leg("a", "b", eve, eve, 250.0)]
    assert kilometres_by_year(ways) == {2023: 0.25, 2024: 1.5}


def test_distance_over_the_date_line_and_the_pole_is_the_short_way():
    assert metres_between((0.0, 179.5), (0.0, -179.5)) == pytest.approx(111_319.49, abs=0.01)
    assert metres_between((89.5, 0.0), (89.5, 180.0)) == pytest.approx(111_694, abs=1)
    assert metres_between((90.0, 0.0), (90.0, 77.0)) == pytest.approx(0, abs=1e-6)


def test_a_line_is_cut_at_the_date_line():
    west, east = line_between((35.0, 139.0), (37.0, -122.0))
    assert west[0] == (139.0, 35.0) and east[-1] == (-122.0, 37.0)
    assert (west[-1][0], east[0][0]) == (180.0, -180.0)
    assert west[-1][1] == east[0][1]


def test_a_line_over_the_pole_goes_up_and_down():
    up, down = line_between((80.0, 10.0), (80.0, -170.0))
    assert up[-1] == (pytest.approx(10), 90.0)
    assert down[0] == (pytest.approx(-170), 90.0)
    down, up = line_between((-80.0, 0.0), (-80.0, 180.0))
    assert down[-1][1] == up[0][1] == -90.0


def test_a_line_between_antipodes_goes_over_the_north_pole():
    pieces = line_between((10.0, 20.0), (-10.0, -160.0))
    assert max(lat for piece in pieces for _, lat in piece) == 90.0


point = st.tuples(st.floats(-90, 90), st.floats(-180, 180))


@given(point, point)
@example((90.0, 152.0), (90.0, -29.0))
def test_no_drawn_piece_crosses_the_map(here, there):
    pieces = line_between(here, there)
    assert all(len(piece) >= 2 for piece in pieces)
    for piece in pieces:
        assert all(-180 <= lon <= 180 and -90 <= lat <= 90 for lon, lat in piece)
        assert all(abs(b[0] - a[0]) <= 180 for a, b in pairwise(piece))

"""The map of a book: what land it shows, and where the names of places stand."""

from itertools import pairwise
from math import hypot
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Place
from keeper.review.book import MapWay
from keeper.review.book_map import book_map, chart_of
from keeper.review.map_names import MapPlace, named
from keeper.shipped import resource
from keeper.study.outline import outline_for, read_outline

WIDE, HIGH = 112.0, 132.0


def kept(name: str, latitude: float, longitude: float) -> SimpleNamespace:
    """A place as far as a map asks for it."""
    return SimpleNamespace(place=Place(name, name), point=(latitude, longitude), nights=9)


def a_map(*places: SimpleNamespace):
    rings = read_outline(resource(f"outline/{outline_for(chart_of(places, WIDE, HIGH).degrees_across)}"))
    return book_map(places, (), rings, WIDE, HIGH)


def coast(made) -> float:
    """The length of the coasts that are seen, in widths of the map."""
    inside = [[spot for spot in ring if 0 < spot[0] < WIDE and 0 < spot[1] < HIGH] for ring in made.land]
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for ring in inside for a, b in pairwise(ring)) / WIDE


@pytest.mark.parametrize(
    ("name", "latitude", "longitude"),
    [("Visby", 57.64, 18.29), ("Liepāja", 56.51, 21.01), ("Kansas City", 39.1, -94.58), ("Ulaanbaatar", 47.92, 106.92),
     ("Papeete", -17.53, -149.57), ("Suva", -18.14, 178.44), ("Longyearbyen", 78.22, 15.65)],
)  # fmt: skip
def test_one_place_alone_has_coasts_round_it_by_which_it_is_known(name, latitude, longitude):
    made = a_map(kept(name, latitude, longitude))
    assert coast(made) > 1.2
    (spot,) = made.spots
    assert 0 < spot.at[0] < WIDE and 0 < spot.at[1] < HIGH and spot.name == name and not spot.number


def test_a_map_shows_seven_degrees_at_least_and_what_is_further_apart_as_close_as_it_can():
    alone, far = kept("Visby", 57.64, 18.29), kept("Lerwick", 60.15, -1.15)
    assert HIGH / chart_of([alone], WIDE, HIGH).scale == pytest.approx(7)
    assert HIGH / chart_of([alone, far], WIDE, HIGH).scale > 12


def test_two_towns_near_one_another_are_no_map_of_their_street():
    made = a_map(kept("Helsingør", 56.04, 12.61), kept("Helsingborg", 56.05, 12.69))
    assert coast(made) > 1.5 and not any(spot.number for spot in made.spots)


def test_a_map_that_is_wide_enough_stays_as_it_is():
    places = [kept("Bergen", 60.39, 5.32), kept("Liepāja", 56.51, 21.01), kept("Harlingen", 53.17, 5.42)]
    chart = chart_of(places, WIDE, HIGH)
    spots = {spot.name: spot.at for spot in a_map(*places).spots}
    for one in places:
        assert spots[one.place.name] == pytest.approx(chart.nearest_spot(one.point), abs=0.01)


def edges(spot):
    left, top, wide, high = spot.box
    return left, top, left + wide, top + high


def meet(one, other) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def ring(spot):
    (x, y), r = spot.at, spot.radius
    return x - r + 0.02, y - r + 0.02, x + r - 0.02, y + r - 0.02


SPOTS = st.tuples(st.floats(2, WIDE - 2), st.floats(2, HIGH - 2))


@given(st.lists(st.tuples(SPOTS, st.integers(1, 300), st.integers(1, 24)), max_size=40), st.lists(st.tuples(SPOTS, SPOTS), max_size=30))
def test_every_place_is_named_and_no_name_is_in_another_s_way(places, ways):
    wanted = [MapPlace(at, f"{number} {'n' * long}", nights) for number, (at, nights, long) in enumerate(places)]
    spots = named(wanted, [MapWay((way,), 1) for way in ways], WIDE, HIGH)
    assert sorted(spot.name for spot in spots) == sorted(one.name for one in wanted)
    spelt = [spot for spot in spots if not spot.number]
    assert sorted(spot.number for spot in spots if spot.number) == list(range(1, len(spots) - len(spelt) + 1))
    for number, spot in enumerate(spelt):
        box = edges(spot)
        assert box[0] >= -0.01 and box[1] >= -0.01 and box[2] <= WIDE + 0.01 and box[3] <= HIGH + 0.01
        shrunk = (box[0] + 0.02, box[1] + 0.02, box[2] - 0.02, box[3] - 0.02)
        assert not any(meet(shrunk, edges(other)) for other in spelt[:number])
        assert not any(meet(shrunk, ring(other)) for other in spots)


def test_a_name_goes_to_the_side_on_which_no_journey_runs():
    place = MapPlace((56.0, 66.0), "Visby", 9)
    assert named([place], (), WIDE, HIGH)[0].box[0] > 56
    east = MapWay((((56.0, 66.0), (110.0, 66.0)),), 1)
    spot = named([place], [east], WIDE, HIGH)[0]
    assert spot.box[0] + spot.box[2] < 56 and not spot.leader
    star = [MapWay((((56.0, 66.0), (56 + 20 * x, 66 + 20 * y)),), 1) for x in (-1, 0, 1) for y in (-1, 0, 1) if x or y]
    off = named([place], star, WIDE, HIGH)[0]
    assert off.leader and off.name == "Visby" and not off.number


def test_those_with_most_nights_choose_first_and_none_is_dropped():
    crowd = [MapPlace((40 + n * 0.3, 60.0), f"Place {n}", n + 1) for n in range(30)]
    spots = named(crowd, (), WIDE, HIGH)
    assert [spot.nights for spot in spots] == sorted((one.nights for one in crowd), reverse=True)
    assert not spots[0].number and {spot.name for spot in spots} == {one.name for one in crowd}

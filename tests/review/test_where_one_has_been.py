"""Where one has been."""

from datetime import date, timedelta

import pytest

from keeper.model import Place
from keeper.review.places import place_view, places_view, travels

RIGA = Place("r", "Riga", latitude=56.946, longitude=24.106)
VISBY = Place("v", "Visby", latitude=57.641, longitude=18.296)
FERRY = Place("f", "The night ferry")
NEVER = Place("n", "Never slept at", latitude=1.0, longitude=1.0)
ALL = (RIGA, VISBY, FERRY, NEVER)


def row(*spent):
    """Nights one after another from 29 December 2024; None is unknown."""
    first = date(2024, 12, 29)
    return tuple((first + timedelta(days=n), place) for n, place in enumerate(spent) if place)


SPENT = row("r", "r", "v", "v", "v", None, "r", "f", "v")


def test_all_years_most_nights_first_and_those_without_a_night_last():
    view = places_view(SPENT, ALL)
    assert [(kept.place.id, kept.nights, kept.visits) for kept in view.places] == [
        ("v", 4, 2), ("r", 3, 2), ("f", 1, 1), ("n", 0, 0),
    ]  # fmt: skip
    assert view.years == (2025, 2024)
    assert (view.nights, view.been) == (8, 3)
    assert (view.places[0].first, view.places[0].last) == (date(2024, 12, 31), date(2025, 1, 6))
    assert view.places[2].point is None and view.places[3].last is None


def test_one_year_has_only_its_own_nights():
    view = places_view(SPENT, ALL, 2024)
    assert [(kept.place.id, kept.nights) for kept in view.places] == [("r", 2), ("v", 1)]
    assert view.years == (2025, 2024)


def test_journeys_by_the_year_of_arrival():
    all_of_them = travels(SPENT, ALL, joined=True)
    assert all_of_them.open_legs == ()
    assert [(leg.from_place, leg.to_place, leg.unknown_nights) for leg in all_of_them.legs] == [
        ("r", "v", 0), ("v", "r", 1), ("r", "f", 0), ("f", "v", 0),
    ]  # fmt: skip
    assert all_of_them.unmeasured == 2
    assert all_of_them.metres == pytest.approx(2 * all_of_them.legs[0].metres)
    only = travels(SPENT, ALL, 2024, joined=True)
    assert len(only.legs) == 1 and only.unmeasured == 0
    assert set(only.kilometres) == {2024, 2025}


def test_a_journey_over_unknown_nights_counts_only_when_the_person_joins_them():
    left_open, joined = travels(SPENT, ALL), travels(SPENT, ALL, joined=True)
    assert [(leg.from_place, leg.to_place) for leg in left_open.open_legs] == [("v", "r")]
    assert left_open.metres == pytest.approx(joined.metres / 2)
    (way,) = travels(row("r", None, "v"), ALL, joined=True).ways
    assert not way.unsure


def test_unknown_nights_at_one_place_are_one_stay_only_when_joined():
    spent = row("r", "r", None, "r")
    assert [len(places_view(spent, ALL, joined=joined).stays) for joined in (False, True)] == [2, 1]


def test_there_and_back_is_one_way_and_unsure_only_if_always_so():
    (way,) = travels(SPENT, ALL).ways
    assert (way.times, way.unsure, way.latest) == (2, False, date(2025, 1, 4))
    assert {way.here, way.there} == {(56.946, 24.106), (57.641, 18.296)}
    (way,) = travels(row("r", None, "v"), ALL).ways
    assert way.unsure


def test_two_places_at_one_spot_make_no_way():
    other = Place("o", "The house in Riga", latitude=RIGA.latitude, longitude=RIGA.longitude)
    made = travels(row("r", "o"), (RIGA, other))
    assert made.ways == () and made.metres == 0


def test_nothing_yet():
    view = places_view((), ())
    assert (view.places, view.years, view.nights) == ((), (), 0)
    assert travels((), ()).ways == ()


def test_a_place_by_itself_newest_stay_first():
    nights = [night for night, place in SPENT if place == "v"]
    view = place_view(VISBY, nights, lines=7, photos=2)
    assert [(stay.first, stay.last, stay.nights) for stay in view.stays] == [
        (date(2025, 1, 6), date(2025, 1, 6), 1), (date(2024, 12, 31), date(2025, 1, 2), 3),
    ]  # fmt: skip
    assert (view.kept.nights, view.kept.visits, view.lines, view.photos) == (4, 2, 7, 2)


def test_a_place_without_a_night():
    view = place_view(NEVER, (), 0, 0)
    assert view.stays == () and view.kept.last is None and view.kept.nights == 0


def test_a_journey_over_a_ferry_is_counted_from_stay_to_stay():
    ferry = Place("f", "The night ferry", on_the_way=True, latitude=1.0, longitude=1.0)
    found = travels(row("r", "f", "f", "v", None, "f", "r"), (RIGA, VISBY, ferry))
    assert (len(found.legs), len(found.open_legs), found.unmeasured) == (1, 1, 0)
    assert found.metres == travels(row("r", "v"), ALL).metres
    assert [leg.by for leg in found.by_way] == [("f",)] and found.names["f"] == "The night ferry"
    (way,) = found.ways
    assert (way.times, way.unsure) == (2, False)
    assert [(leg.from_place, leg.to_place) for leg in way.legs] == [("v", "r"), ("r", "v")]
    assert {kept.place.id: kept.point for kept in places_view(row("f"), (ferry,)).places} == {"f": None}

"""Places mended, and places made of towns."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from keeper.actions import reading, writing
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.actions.places import towns
from keeper.actions.remembering.bringing_up import looking_back
from keeper.errors import UnknownThing
from keeper.model import Place
from keeper.store import nights
from keeper.store.places import named as kept
from keeper.study.where import UnreadableCoordinates
from keeper.town import Town

NIGHT = date(2026, 11, 14)
RIGA = Town(456172, "Riga", "Riga", "Rīga", "LV", "Latvia", 56.946, 24.10589, "Europe/Riga", 742572, "Rīga", "Riga")
NEWPORT_GB = Town(
    2641598, "Newport", "Newport", "Wales", "GB", "United Kingdom", 51.588, -2.998, "Europe/London", 9, ""
)
NEWPORT_US = Town(
    5221077, "Newport", "Newport", "Rhode Island", "US", "United States", 41.49, -71.313, "America/New_York", 9
)


@pytest.fixture
def spent(store, clock):
    """Says where nights were spent, as days before NIGHT."""
    return lambda name, *days: [writing.set_place(store, NIGHT - timedelta(days=n), name, clock) for n in days][-1]


def test_the_page_and_a_place_of_it(store, spent, clock):
    visby = spent("Visby", 0, 1, 9)
    spent("Riga", 2)
    writing.write_line(store, NIGHT, "memory", "The wall in the rain.", clock)
    view = places.places_view(store)
    assert [one.place.name for one in view.places] == ["Visby", "Riga"]
    assert places.places_view(store, 1999).places == ()
    one = places.place_view(store, visby.id)
    assert (one.kept.nights, one.kept.visits, one.lines, one.photos) == (3, 2, 1, 0)
    assert [found.line.text for found in places.lines_at(store, visby.id)] == ["The wall in the rain."]
    assert places.lines_at(store, visby.id, skip=1) == ()
    assert places.photos_at(store, visby.id) == ()
    with pytest.raises(UnknownThing):
        places.place_view(store, "none")


def test_a_name_is_changed_for_all_nights(store, spent):
    place = spent("Vizby", 0, 1)
    assert places.rename(store, place.id, "  Visby  old town ").name == "Visby old town"
    assert nights.one(store, NIGHT).place.name == "Visby old town"


@pytest.mark.parametrize("name, said", [("", "needs a name"), ("54.1, 10.8", "position"), ("x" * 201, "at most 200")])
def test_what_is_no_name_is_refused(store, spent, name, said):
    place = spent("Visby", 0)
    with pytest.raises(places.NoPlaceName, match=said):
        places.rename(store, place.id, name)
    assert kept.by_id(store, place.id).name == "Visby"


def test_another_places_name_is_refused_unless_in_another_country(store, spent):
    place = spent("Visbi", 0)
    spent("Visby", 1)
    with pytest.raises(places.NoPlaceName, match="merge"):
        places.rename(store, place.id, "visby")
    assert places.rename(store, place.id, "VISBI").name == "VISBI"
    abroad = kept.add(store, Place("", "Elsewhere", country="US"))
    assert places.rename(store, abroad.id, "Visby").name == "Visby"


def test_coordinates_bring_their_zone_and_can_be_taken_away(store, spent):
    place = spent("The farm", 0)
    moved = places.set_coordinates(store, place.id, "54°21′07″ N, 18°38′48″ E")
    assert (moved.latitude, moved.longitude) == pytest.approx((54.35194, 18.64667), abs=1e-4)
    assert moved.zone == "Europe/Warsaw"
    with pytest.raises(UnreadableCoordinates):
        places.set_coordinates(store, place.id, "somewhere")
    gone = places.set_coordinates(store, place.id, " ")
    assert (gone.latitude, gone.longitude, gone.zone) == (None, None, "")


def test_two_places_become_one(store, spent, clock):
    gone, remains = spent("Lubeck", 0, 1), spent("Lübeck, home", 2)
    places.set_coordinates(store, gone.id, "53.87, 10.69")
    places.rest_place(store, gone.id)
    merged = place_merging.merge(store, gone.id, remains.id, clock)
    assert (merged.name, merged.latitude, merged.zone, merged.resting) == ("Lübeck, home", 53.87, "Europe/Berlin", True)
    assert len(nights.all_at(store, remains.id)) == 3
    assert kept.by_id(store, gone.id) is None
    with pytest.raises(UnknownThing):
        place_merging.merge(store, gone.id, remains.id, clock)
    with pytest.raises(UnknownThing):
        place_merging.merge(store, remains.id, remains.id, clock)


def test_a_merge_that_fails_half_way_changes_nothing(store, spent, clock, monkeypatch):
    gone, remains = spent("A", 0), spent("B", 1)
    monkeypatch.setattr(kept, "change", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        place_merging.merge(store, gone.id, remains.id, clock)
    assert nights.all_at(store, gone.id) == (NIGHT,)


def test_a_resting_place_is_not_brought_up_and_can_be_woken(store, spent, clock):
    place = spent("Bergen", 365)
    writing.write_line(store, NIGHT - timedelta(days=365), "memory", "Rain.", clock)
    assert looking_back(store, NIGHT).nights
    places.rest_place(store, place.id)
    assert not looking_back(store, NIGHT).nights
    assert kept.by_id(store, place.id).resting
    places.wake_place(store, place.id)
    assert looking_back(store, NIGHT).nights
    with pytest.raises(UnknownThing):
        places.rest_place(store, "none")


def test_a_town_becomes_a_place_once(store, clock):
    first = towns.set_where(store, NIGHT, RIGA, clock)
    assert (first.name, first.region, first.country, first.zone) == ("Riga", "Rīga", "LV", "Europe/Riga")
    assert (first.latitude, first.geoname_id) == (56.946, 456172)
    places.rename(store, first.id, "Home")
    assert towns.place_from_town(store, RIGA).id == first.id
    assert nights.one(store, NIGHT).place_source == "said"


def test_a_place_of_that_name_becomes_the_town(store, spent):
    place = spent("riga", 0)
    made = towns.place_from_town(store, RIGA)
    assert (made.id, made.name, made.geoname_id, made.latitude) == (place.id, "riga", 456172, 56.946)


@pytest.mark.parametrize("spelling, kept", [("R\u012bga", "R\u012bga"), ("Riga", "Riga"), ("Riika", "Riika"), ("", "R\u012bga")])
def test_a_town_is_called_as_the_person_sought_it(store, spelling, kept):
    assert towns.place_from_town(store, replace(RIGA, spelling=spelling)).name == kept


def test_towns_of_one_name_stay_apart(store, spent):
    here, there = towns.place_from_town(store, NEWPORT_GB), towns.place_from_town(store, NEWPORT_US)
    assert here.id != there.id
    assert len(reading.known_places(store)) == 2


def test_a_place_of_that_name_far_away_is_another(store, spent):
    place = spent("Riga", 0)
    places.set_coordinates(store, place.id, "-33.9, 18.4")
    assert towns.place_from_town(store, RIGA).id != place.id
    places.set_coordinates(store, place.id, "57.0, 24.0")
    assert towns.place_from_town(store, RIGA).id != place.id, "the town is known by now"


def test_a_farm_near_a_town_is_not_the_town(store, spent):
    farm = towns.set_to_town(store, spent("The farm", 0).id, RIGA)
    assert (farm.name, farm.latitude, farm.country, farm.geoname_id) == ("The farm", 56.946, "LV", None)
    assert towns.place_from_town(store, RIGA).id != farm.id
    town = towns.set_to_town(store, spent("rīga", 1).id, RIGA)
    assert town.geoname_id == 456172
    with pytest.raises(UnknownThing):
        towns.set_to_town(store, "none", RIGA)


def test_where_by_place_by_town_and_by_name(store, spent, clock):
    known = spent("Visby", 5)
    towns.set_where(store, NIGHT, known, clock)
    assert nights.one(store, NIGHT).place.id == known.id
    assert towns.set_where(store, NIGHT, RIGA, clock).name == "Riga"
    assert towns.set_where(store, NIGHT, "The night ferry", clock).latitude is None
    assert towns.set_where(store, NIGHT, "", clock) is None
    assert nights.one(store, NIGHT).place is None
    with pytest.raises(places.NoPlaceName, match="position"):
        towns.set_where(store, NIGHT, "54.1, 10.8", clock)
    with pytest.raises(UnknownThing):
        towns.set_where(store, NIGHT, Place("gone", "Gone"), clock)


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("towns")


def test_towns_are_looked_up_and_the_nearest_found(cache):
    found = towns.towns(cache, "Gdans", near=(54.0, 18.0))
    assert (found[0].country, found[0].geoname_id) == ("PL", 3099434)
    assert towns.towns(cache, "Gda", limit=2) and len(towns.towns(cache, "Gda", limit=2)) == 2
    assert towns.nearest_town(cache, 57.64, 18.29).name == "Visby"


def test_joining_over_open_nights_is_remembered(store):
    assert not places.joined_up(store)
    places.join_up(store, True)
    assert places.joined_up(store)
    places.join_up(store, False)
    assert not places.joined_up(store)

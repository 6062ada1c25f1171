"""Questions about places."""

from datetime import date, timedelta

from keeper.model import Photo, Place
from keeper.store import nights
from keeper.store.photos import known as photos
from keeper.store.places import named as places

NIGHT = date(2026, 11, 14)
BEGUN = "2026-11-14T20:00:00.000000Z"


def spend(store, place, *days):
    for day in days:
        nights.set_place(store, NIGHT - timedelta(days=day), place.id, "said", BEGUN)


def test_every_night_with_its_place_oldest_first(store):
    riga, visby = places.add(store, Place("", "Riga")), places.add(store, Place("", "Visby"))
    spend(store, visby, 0, 3)
    spend(store, riga, 1)
    nights.set_place(store, NIGHT - timedelta(days=2), None, "", BEGUN)
    assert nights.spent(store) == (
        (NIGHT - timedelta(days=3), visby.id), (NIGHT - timedelta(days=1), riga.id), (NIGHT, visby.id),
    )  # fmt: skip
    assert nights.all_at(store, visby.id) == (NIGHT - timedelta(days=3), NIGHT)


def test_places_by_name_and_by_geoname(store):
    here = places.add(store, Place("", "Newport", country="GB", geoname_id=2641598))
    there = places.add(store, Place("", "newport", country="US", geoname_id=5221077))
    spend(store, there, 0)
    assert places.all_named(store, "NEWPORT") == (there, here)
    assert places.by_geoname(store, 2641598) == here
    assert places.by_geoname(store, 1) is None


def test_photos_of_a_place_each_once_newest_first(store):
    riga = places.add(store, Place("", "Riga"))
    spend(store, riga, 0, 1, 2)
    shown = [photos.add(store, Photo("", f"{n:064x}", "jpg", 1)) for n in range(3)]
    photos.attach(store, NIGHT - timedelta(days=2), shown[0].id)
    photos.attach(store, NIGHT, shown[1].id)
    photos.attach(store, NIGHT - timedelta(days=1), shown[1].id)
    photos.attach(store, NIGHT + timedelta(days=1), shown[2].id)
    assert places.photo_nights(store, riga.id, 9) == (
        (shown[1].id, NIGHT), (shown[0].id, NIGHT - timedelta(days=2)),
    )  # fmt: skip
    assert len(places.photo_nights(store, riga.id, 1)) == 1
    assert places.photo_count(store, riga.id) == 2

"""Towns of the gazetteer, and making places of them."""

from dataclasses import replace
from datetime import date
from functools import lru_cache
from pathlib import Path

from keeper.actions import told_as
from keeper.actions.places.known import called, known, place_name
from keeper.clock import Clock
from keeper.earth import Point, metres_between
from keeper.errors import UnknownThing
from keeper.model import Act, Place
from keeper.shipped import resource
from keeper.store import Store, nights
from keeper.store.folding import bare
from keeper.store.moments import utc_text
from keeper.store.places import named as places
from keeper.store.places.towns import Gazetteer
from keeper.store.places.towns_file import unpack
from keeper.town import Town

SAME_TOWN_WITHIN = 50_000.0
"""Metres within which a place of the same name, its country untold, is the town."""


def towns_folder() -> Path:
    """Where the list of towns is unpacked."""
    import platformdirs

    return Path(platformdirs.user_cache_dir("keeper", appauthor=False)) / "towns"


@lru_cache(maxsize=4)
def ready(cache_folder: Path) -> Path:
    """The list of towns, unpacked and checked: a second or two the first time ever.

    Raises NoGazetteer or CannotWrite.
    """
    return unpack(cache_folder, resource("gazetteer"))


def towns(cache_folder: Path, typed: str, near: Point | None = None, limit: int = 8) -> list[Town]:
    """The towns that the typed letters most likely mean, best first; for a lane.

    ``near`` is latitude and longitude (degrees) of where the person last was.
    Raises as ``ready`` does.
    """
    # Opening takes less than a millisecond, so no connection lies about that
    # belongs to a thread.
    gazetteer = Gazetteer(ready(cache_folder))
    try:
        return gazetteer.look_up(typed, near, limit)
    finally:
        gazetteer.close()


def towns_of_zone(cache_folder: Path, zone: str, limit: int = 8) -> list[Town]:
    """The largest towns of a time zone, by its IANA name. Raises as ``ready`` does."""
    gazetteer = Gazetteer(ready(cache_folder))
    try:
        return gazetteer.largest(zone, limit)
    finally:
        gazetteer.close()


def nearest_town(cache_folder: Path, latitude: float, longitude: float) -> Town:
    """The town nearest to a point in degrees, however far. Raises as ``ready`` does."""
    gazetteer = Gazetteer(ready(cache_folder))
    try:
        return gazetteer.nearest(latitude, longitude)
    finally:
        gazetteer.close()


def place_from_town(store: Store, town: Town) -> Place:
    """The place that a town is: the known one, or a new one.

    Known is a place made of the same town before, or one of its name and
    country. One of its name of which nothing more is known becomes the town. A
    new place is called as the town was sought: München is not Munich.
    """
    with store.writing(Act(town.called, "places")):
        known = places.by_geoname(store, town.geoname_id) or _same(store, town)
        if known is None:
            return places.add(store, _with_town(Place("", town.called), town))
        if known.latitude is None:
            places.change(store, _with_town(known, town))
            return places.by_id(store, known.id)
    return known


def _same(store: Store, town: Town) -> Place | None:
    names = dict.fromkeys(filter(None, (town.local_name, town.name, town.ascii_name, town.spelling)))
    for name in names:
        for place in places.all_named(store, name):
            if place.geoname_id is None and _may_be(place, town):
                return place
    return None


def _may_be(place: Place, town: Town) -> bool:
    if place.on_the_way:
        return False
    if place.country:
        return place.country == town.country
    return place.point is None or metres_between(place.point, (town.latitude, town.longitude)) <= SAME_TOWN_WITHIN


def _with_town(place: Place, town: Town) -> Place:
    return replace(
        place, region=town.region, country=town.country, latitude=town.latitude, longitude=town.longitude,
        zone=town.zone, geoname_id=town.geoname_id, on_the_way=False,
    )  # fmt: skip


def set_to_town(store: Store, place_id: str, town: Town) -> Place:
    """Let a place lie where a town lies; it keeps its name. Raises UnknownThing."""
    with store.writing(told_as.of_place(f"The position of {called(store, place_id)}", place_id)):
        place = places.by_id(store, place_id)
        if place is None:
            raise UnknownThing("That place is no longer in the keeper.")
        moved = _with_town(place, town)
        # A farm near a town is not the town: the town can still become a place.
        if bare(place.name) not in map(bare, (town.name, town.local_name, town.ascii_name, town.spelling)):
            moved = replace(moved, geoname_id=None)
        places.change(store, moved)
    return places.by_id(store, place_id)


def set_where(store: Store, night: date, chosen: Place | Town | str, clock: Clock) -> Place | None:
    """Say where a night was spent: a known place, a town, or a place by its name; "" takes it back.

    A place without an id is a new one. Raises NoPlaceName for coordinates,
    UnreadableText, UnknownThing.
    """
    name = getattr(chosen, "called", "") or getattr(chosen, "name", chosen)
    with store.writing(told_as.of_night(" ".join(name.split()) or "No place", night)):
        place = place_of(store, chosen)
        nights.set_place(store, night, place.id if place else None, "said", utc_text(clock.moment().utc))
    return place


def place_of(store: Store, chosen: Place | Town | str) -> Place | None:
    """The place that was chosen, begun if it is new; None for "". Raises as ``set_where`` does."""
    if isinstance(chosen, Town):
        return place_from_town(store, chosen)
    if isinstance(chosen, Place) and chosen.id:
        return known(store, chosen.id)
    name = chosen if isinstance(chosen, str) else chosen.name
    if not name.strip():
        return None
    name = place_name(name)
    there = places.named(store, name)
    if isinstance(chosen, str):
        return there or places.add(store, Place("", name))
    return there if there and there.on_the_way else places.add(store, replace(chosen, name=name))

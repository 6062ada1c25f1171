"""Places: where one has been, and mending what is known of a place."""

from dataclasses import replace
from datetime import date
from itertools import islice

from keeper import settings
from keeper.actions import told_as
from keeper.actions.awake import awake
from keeper.actions.writing import check_text
from keeper.dates import written
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import Act, Found, Photo, Place
from keeper.review import places as places_review
from keeper.review.places import PlacesView, PlaceView, Travels
from keeper.store import Store, nights, resting, search
from keeper.store import settings as kept_settings
from keeper.store.photos import known as photos
from keeper.store.places import named as places
from keeper.store.places import pages
from keeper.store.themes import lines as theme_lines
from keeper.study.where import UnreadableCoordinates, read_coordinates, write_coordinates, zone_at

LONGEST_NAME = 200
"""The most characters a place's name may have."""


class NoPlaceName(UnreadableText):
    """What was given as a place's name cannot be one."""


def places_view(store: Store, year: int | None = None) -> PlacesView:
    """Where one has been, in all years or in one."""
    return places_review.places_view(nights.spent(store), places.every(store), year, joined_up(store), pages.every(store))


def travels(store: Store, year: int | None = None) -> Travels:
    """The journeys of all years, or of one."""
    return places_review.travels(nights.spent(store), places.every(store), year, joined_up(store))


def joined_up(store: Store) -> bool:
    """Whether the person has said that open nights are to be joined up."""
    return settings.read(kept_settings.read(store), "open_nights") == "joined up"


def join_up(store: Store, joined: bool) -> None:
    """Say whether open nights between two places are one journey, and between two at one place one stay."""
    value = "joined up" if joined else "left open"
    with store.writing(Act(f"Open nights {value}", "places")):
        kept_settings.write(store, {"open_nights": value})


def place_view(store: Store, place_id: str) -> PlaceView:
    """A place's own page. Raises UnknownThing."""
    place = known(store, place_id)
    lines = search.count(store, search.Sought(places=(place_id,)))
    view = places_review.place_view(place, nights.all_at(store, place_id), lines, places.photo_count(store, place_id))
    said = pages.one(store, place_id)
    return replace(view, said=said, photo=photos.by_id(store, said.photo_id) if said.photo_id else None)


def known(store: Store, place_id: str) -> Place:
    """The place with this id. Raises UnknownThing."""
    place = places.by_id(store, place_id)
    if place is None:
        raise UnknownThing("That place is no longer in the keeper.")
    return place


def lines_at(store: Store, place_id: str, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """The lines of a place's nights, newest first."""
    return search.find(store, search.Sought(places=(place_id,)), limit, skip)


def photos_at(store: Store, place_id: str, limit: int = 12) -> tuple[tuple[Photo, date], ...]:
    """The photos awake of a place's nights, each with its night, newest first."""
    rule = awake(store, asked_for_place=True)
    found = ((photos.by_id(store, photo_id), night) for photo_id, night in places.photo_nights(store, place_id, -1))
    return tuple(islice(((photo, night) for photo, night in found if photo and rule.photo(photo, [night])), limit))


def themes_at(store: Store, place_id: str, limit: int = 6) -> tuple[tuple[int, str, int], ...]:
    """The themes of a place's lines: number, name and how many lines, the most lines first; not of who rests."""
    rule = awake(store, asked_for_place=True)
    told = ((number, rule.theme_name(name), times) for number, name, times in theme_lines.themes_at(store, place_id, -1))
    return tuple(islice((one for one in told if one[1]), limit))


def rename(store: Store, place_id: str, name: str) -> Place:
    """Call a place something else; all its nights follow.

    Raises NoPlaceName for what cannot be a name or is another place's,
    UnknownThing.
    """
    name = place_name(name)
    with store.writing(told_as.of_place(f"The name {told_as.quoted(name)} of a place", place_id)):
        place = known(store, place_id)
        for other in places.all_named(store, name):
            if other.id != place_id and other.country == place.country:
                raise NoPlaceName(
                    f"There is a place called \u201c{other.name}\u201d already. If the two are the same, merge them."
                )
        return _changed(store, replace(place, name=name))


def place_name(typed: str) -> str:
    """A place's name from what was typed, spaces made one.

    Raises NoPlaceName when there is none, when it is too long, or when it is
    coordinates: those are no name. Raises UnreadableText for what is no text.
    """
    check_text(typed)
    name = " ".join(typed.split())
    if not name:
        raise NoPlaceName("A place needs a name.")
    if len(name) > LONGEST_NAME:
        raise NoPlaceName(f"A place\u2019s name has at most {LONGEST_NAME} characters; this has {written.number(len(name))}.")
    if are_coordinates(name):
        raise NoPlaceName(
            f"\u201c{name}\u201d tells a position, not a name. Name the place first; "
            "its position can then be set on its own page, under Places."
        )
    return name


def are_coordinates(typed: str) -> bool:
    """Whether what was typed reads as latitude and longitude."""
    try:
        read_coordinates(typed)
    except UnreadableCoordinates:
        return False
    return True


def position_by_photo(store: Store, place_id: str) -> str:
    """The position of the latest photo of a place's nights that has one, as typed; "" for none."""
    for photo, _ in photos_at(store, place_id, limit=200):
        if photo.latitude is not None:
            return write_coordinates(photo.latitude, photo.longitude)
    return ""


def set_coordinates(store: Store, place_id: str, typed: str) -> Place:
    """Say where a place lies, by coordinates as a person types them; "" takes them away.

    The time zone follows; what lies somewhere is not on the way. Raises UnreadableCoordinates, UnknownThing.
    """
    latitude = longitude = None
    zone = ""
    if typed.strip():
        latitude, longitude = read_coordinates(typed)
        zone = zone_at(latitude, longitude)
    with store.writing(told_as.of_place(f"The position of {called(store, place_id)}", place_id)):
        place = known(store, place_id)
        moves = place.on_the_way and latitude is None
        return _changed(store, replace(place, latitude=latitude, longitude=longitude, zone=zone, on_the_way=moves))


def set_on_the_way(store: Store, place_id: str, on_the_way: bool) -> Place:
    """Say that a place moves (a ferry, a night train), or that it does not; its position is put aside meanwhile.

    Raises UnknownThing.
    """
    what = "on the way" if on_the_way else "not on the way"
    with store.writing(told_as.of_place(f"{called(store, place_id)} {what}", place_id)):
        return _changed(store, replace(known(store, place_id), on_the_way=on_the_way))


def rest_place(store: Store, place_id: str) -> None:
    """Never bring up the nights at a place unasked. Raises UnknownThing."""
    with store.writing(told_as.of_place(f"Rest for {known(store, place_id).name}", place_id)):
        resting.rest(store, "place", place_id)


def wake_place(store: Store, place_id: str) -> None:
    """Let the nights at a place be brought up again."""
    with store.writing(told_as.of_place(f"No rest for {called(store, place_id)}", place_id)):
        resting.wake(store, "place", place_id)


def called(store: Store, place_id: str) -> str:
    """What a place is called; "a place" for one that is no longer there."""
    place = places.by_id(store, place_id)
    return place.name if place else "a place"


def _changed(store: Store, place: Place) -> Place:
    places.change(store, place)
    return places.by_id(store, place.id)

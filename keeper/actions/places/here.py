"""What there is of a place: its nights in their order, and the photos of them or taken close by."""

from datetime import date
from math import cos, radians

from keeper.actions.awake import awake
from keeper.actions.places.known import known, photos_at
from keeper.earth import metres_between
from keeper.model import Found, Photo
from keeper.store import Store
from keeper.store.photos import known as photos
from keeper.store.places import spent

CLOSE_BY = 1500.0
"""Metres within which a photo was taken at a place; about a quarter of an hour on foot."""

_METRES_A_DEGREE = 111_195.0


def nights_at(store: Store, place_id: str, latest_first: bool = True, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """The lines of a place's nights in order of time; a night without one has an empty line."""
    return spent.nights_at(store, place_id, latest_first, limit, skip)


def photos_here(store: Store, place_id: str, limit: int = 12) -> tuple[tuple[Photo, date], ...]:
    """The photos awake of a place's nights or taken close by, each with its night, newest first. Raises UnknownThing."""
    of_nights = photos_at(store, place_id, limit)
    seen, rule = {photo.id for photo, _ in of_nights}, awake(store, asked_for_place=True)
    near = ((photos.by_id(store, photo_id), night) for photo_id, night in _taken_close_by(store, place_id) if photo_id not in seen)
    also = [(photo, night) for photo, night in near if photo and rule.photo(photo, [night])]
    return tuple(sorted((*of_nights, *also), key=lambda one: one[1], reverse=True)[:limit])


def _taken_close_by(store: Store, place_id: str) -> list[tuple[str, date]]:
    point = known(store, place_id).point
    if point is None:
        return []
    up = CLOSE_BY / _METRES_A_DEGREE
    aside = up / max(cos(radians(point[0])), 0.01)
    box = (point[0] - up, point[0] + up, point[1] - aside, point[1] + aside)
    return [
        (photo_id, night) for photo_id, latitude, longitude, night in spent.photos_within(store, *box)
        if None not in (latitude, longitude) and metres_between(point, (latitude, longitude)) <= CLOSE_BY
    ]  # fmt: skip

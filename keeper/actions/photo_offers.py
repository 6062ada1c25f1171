"""What a photo's own date and position suggest, said in whole sentences."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from keeper import written
from keeper.clock import Clock
from keeper.days import night_of
from keeper.model import Photo, Place
from keeper.store import Store, places
from keeper.store.cells import metres_between
from keeper.town import Town

NearestTown = Callable[[float, float], Town | None]
"""The town nearest to a latitude and a longitude (degrees), as the gazetteer finds it."""

KNOWN_WITHIN = 25_000.0
"""Metres within which a place the person knows is meant."""

TOWN_WITHIN = 100_000.0
"""Metres beyond which the nearest town says nothing any more: the open sea, the ice."""

_AHEAD = timedelta(days=1)
"""A camera may keep the clock of a zone that is a day ahead."""


@dataclass(frozen=True, slots=True)
class PlaceOffer:
    """A place for a night: one the person knows, or a town (then its id is "").

    ``metres`` is how far the photo was taken from it.
    """

    place: Place
    metres: float
    known: bool


def own_night(taken: datetime | None, rollover: int, clock: Clock) -> date | None:
    """The night to which a photo's own date belongs; None without one, or when it lies ahead."""
    if taken is None or lies_ahead(taken, clock):
        return None
    return night_of(taken, rollover)


def lies_ahead(taken: datetime, clock: Clock) -> bool:
    """Whether a camera's clock showed more than a day later than it is now."""
    return taken > clock.now().replace(tzinfo=None) + _AHEAD


def offer_place(store: Store, photo: Photo, nearest_town: NearestTown | None) -> PlaceOffer | None:
    """The place a photo's position suggests: the nearest known one, else a town."""
    if photo.latitude is None or photo.longitude is None:
        return None
    here = (photo.latitude, photo.longitude)
    known = _nearest_known(store, here)
    if known and known.metres <= KNOWN_WITHIN:
        return known
    town = nearest_town(*here) if nearest_town else None
    offer = _of_town(town, here) if town else None
    return offer if offer and offer.metres <= TOWN_WITHIN else None


def _nearest_known(store: Store, here: tuple[float, float]) -> PlaceOffer | None:
    placed = (place for place in places.every(store) if place.point)
    far = ((metres_between(here, place.point), place) for place in placed)
    metres, place = min(far, key=lambda pair: pair[0], default=(0.0, None))
    return PlaceOffer(place, metres, known=True) if place else None


def _of_town(town: Town, here: tuple[float, float]) -> PlaceOffer:
    place = Place("", town.name, town.region, town.country, town.latitude, town.longitude, town.zone, town.geoname_id)
    return PlaceOffer(place, metres_between(here, (town.latitude, town.longitude)), known=False)


def night_words(photo: Photo, kept_with: date | None, own: date | None) -> str:
    """Which night a photo was put with, and from what that was guessed."""
    if kept_with is None:
        return f"It goes with no night: {_no_date_words(photo)}."
    if own is None:
        return f"It is kept with {said(kept_with)}; {_no_date_words(photo)}."
    if own != kept_with:
        return f"It is kept with {said(kept_with)}; by its own date it belongs to {said(own)}."
    return f"It is kept with {said(own)}, from its own date: {_taken_words(photo.taken_local, own)}."


def place_words(photo: Photo, offer: PlaceOffer | None) -> str:
    """Where a photo was taken, and from what that was guessed; "" without a position."""
    if photo.latitude is None:
        return ""
    if offer is None:
        return "Its position is far from any place or town."
    far = f"{written.number(offer.metres / 1000)} km from" if offer.metres >= 1500 else "at"
    whose = "a place you know" if offer.known else "the nearest town"
    return f"By its position it was taken {far} {offer.place.name}, {whose}."


def said(night: date) -> str:
    """A night as a sentence says it: 14 November 2026."""
    return written.full_date(night)


def _taken_words(taken: datetime, own: date) -> str:
    hour = f"{taken.hour}:{taken.minute:02d}"
    return f"taken at {hour}" if taken.date() == own else f"taken at {hour} the next morning, before the night ended"


def _no_date_words(photo: Photo) -> str:
    if photo.taken_local is None:
        return "it carries no date of its own"
    return f"its own date, {said(photo.taken_local.date())}, lies ahead"

"""What a photo's own date and position suggest, said in whole sentences."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from keeper.clock import Clock
from keeper.dates import written
from keeper.days import night_of
from keeper.earth import Point, metres_between, rank_by_distance
from keeper.model import Act, Photo, Place
from keeper.store import Store, nights
from keeper.store.moments import utc_text
from keeper.store.places import named as places
from keeper.study.taken import taken_there
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


def own_night(photo: Photo, rollover: int, clock: Clock) -> date | None:
    """The night to which a photo's own date belongs, by the clocks of where it was taken.

    None without a date, or when it lies ahead.
    """
    if photo.taken_local is None or lies_ahead(photo.taken_local, clock):
        return None
    return night_of(taken_there(photo), rollover)


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


def place_of(store: Store, offer: PlaceOffer) -> Place:
    """The place that is offered, as one the keeper knows: a town becomes a place, once."""
    if offer.known:
        return offer.place
    return places.by_geoname(store, offer.place.geoname_id) or places.add(store, offer.place)


def say_places(store: Store, offers: Mapping[date, PlaceOffer], clock: Clock) -> int:
    """Say of nights that they were spent where their photos were taken; of how many.

    Nights of which the person said where they were spent stay as they are.
    """
    begun_at, said = utc_text(clock.moment().utc), 0
    with store.writing(Act("Places by photos")):
        for night, offer in offers.items():
            if nights.one(store, night).place_source != "said":
                nights.set_place(store, night, place_of(store, offer).id, "photo", begun_at)
                said += 1
    return said


def _nearest_known(store: Store, here: Point) -> PlaceOffer | None:
    placed = (place for place in places.every(store) if place.point)
    place = min(placed, key=lambda place: rank_by_distance(here, place.point), default=None)
    return PlaceOffer(place, metres_between(here, place.point), known=True) if place else None


def _of_town(town: Town, here: Point) -> PlaceOffer:
    place = Place("", town.name, town.region, town.country, town.latitude, town.longitude, town.zone, town.geoname_id)
    return PlaceOffer(place, metres_between(here, (town.latitude, town.longitude)), known=False)


def night_words(photo: Photo, kept_with: date | None, own: date | None) -> str:
    """Which night a photo was put with, and from what that was guessed."""
    if kept_with is None:
        return f"It belongs to no night yet: {_no_date_words(photo)}."
    if own is None:
        return f"Added to {said(kept_with)}; {_no_date_words(photo)}."
    if own != kept_with:
        return f"Added to {said(kept_with)}; by {_by_what(photo)} it belongs to {said(own)}."
    return f"Added to {said(own)}: {_taken_words(photo, own)}."


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


def _by_what(photo: Photo) -> str:
    return "its name, a guess," if photo.dated_by == "name" else "its own date"


_KNOWN_BY = {"digitized": ", when it was made into a file", "notes": ", by its notes", "name": ", by its name: a guess"}


def _taken_words(photo: Photo, own: date) -> str:
    there, known_by = taken_there(photo), _KNOWN_BY.get(photo.dated_by, "")
    if photo.day_only:
        return f"taken that day{known_by}"
    where = f" there ({_hour(photo.taken_local)} by its own clock)" if there != photo.taken_local else ""
    late = "" if there.date() == own else " the next morning, before the night ended"
    return f"it was taken at {_hour(there)}{where}{late}{known_by}"


def _hour(moment: datetime) -> str:
    return f"{moment.hour}:{moment.minute:02d}"


def _no_date_words(photo: Photo) -> str:
    if photo.taken_local is None:
        return "it carries no date of its own"
    return f"its own date, {said(photo.taken_local.date())}, lies ahead"

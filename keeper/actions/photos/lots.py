"""Taking back, and putting back, all of the photos that came at once."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from keeper.actions.photos.offers import PlaceOffer, place_of
from keeper.clock import Clock
from keeper.errors import UnknownThing
from keeper.store import Store, nights
from keeper.store.moments import utc_text
from keeper.store.photos import known as photos
from keeper.store.photos import lots
from keeper.store.photos.lots import Lot

__all__ = ["Lot", "clear_taken_back", "latest_lot", "put_lot_back", "say_places", "take_lot_back"]


def latest_lot(store: Store) -> Lot | None:
    """The lot that came last, taken back or not."""
    return lots.latest(store)


def say_places(store: Store, lot: int, offers: Mapping[date, PlaceOffer], clock: Clock) -> int:
    """Say of nights that they were spent where their photos were taken; of how many.

    Nights of which the person said where they were spent stay as they are, and
    so do those to which no photo of the lot came after all.
    """
    begun_at, said = utc_text(clock.moment().utc), 0
    with store.writing():
        came = lots.nights_of(store, lot)
        for night, offer in offers.items():
            if night not in came or nights.one(store, night).place_source == "said":
                continue
            lots.say_place(store, lot, night, place_of(store, offer).id, begun_at)
            said += 1
    return said


def take_lot_back(store: Store, number: int, clock: Clock) -> Lot:
    """Take all photos of a lot from the nights they came to, and the places said with them.

    Raises UnknownThing.
    """
    _known(store, number)
    lots.take_back(store, number, clock.moment().utc)
    return lots.one(store, number)


def put_lot_back(store: Store, number: int, clock: Clock) -> Lot:
    """Put all photos of a lot with their nights again. Raises UnknownThing."""
    _known(store, number)
    lots.put_back(store, number, utc_text(clock.moment().utc))
    return lots.one(store, number)


def _known(store: Store, number: int) -> None:
    if lots.one(store, number) is None:
        raise UnknownThing("Those photos are no longer known as one lot.")


def clear_taken_back(store: Store) -> None:
    """Let go of what was taken back: of photos that nothing has, and whose files lie where they came from.

    One whose own file is gone may be the only one there is: it stays.
    """
    for photo_id, (sha256, came_from) in lots.without_night(store).items():
        if any(_is_there(path, photos.by_sha256(store, sha256).bytes) for path in came_from):
            photos.drop(store, photo_id)


def _is_there(path: Path, size: int) -> bool:
    try:
        return path.stat().st_size == size
    except (OSError, ValueError):
        return False

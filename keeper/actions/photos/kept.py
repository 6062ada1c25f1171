"""Photos: taking one in, putting it with nights and months, showing it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from keeper.actions import told_as
from keeper.actions.photos.bringing import THUMBNAIL, bring, keep_brought
from keeper.actions.photos.many import LeftOut, Summary, take_in_many
from keeper.actions.photos.offers import (
    NearestTown,
    PlaceOffer,
    night_words,
    offer_place,
    own_night,
    place_of,
    place_words,
)
from keeper.actions.writing import check_text
from keeper.clock import Clock
from keeper.errors import DamagedPhoto, Stopped, UnknownThing, UnreadablePhoto, shown_name
from keeper.exchange import picture
from keeper.exchange.picture_file import media_type
from keeper.exchange.picture_kinds import ENDINGS, KINDS
from keeper.model import Act, Photo, Place
from keeper.store import Store, month_pages, nights, resting
from keeper.store.moments import utc_text
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos

__all__ = ["ENDINGS", "ENDING_OF", "THUMBNAIL", "LeftOut", "NearestTown", "PlaceOffer", "Summary", "take_in_many"]


ENDING_OF = {kind: about.endings[0] for kind, about in KINDS.items()}
"""The ending under which each kind of picture (media type) is kept."""


@dataclass(frozen=True, slots=True)
class TakenIn:
    """A photo that was taken in, and what was guessed of it.

    ``new`` is False when the keeper had it already. ``night`` is the one it
    was put with, ``own_night`` the one its own date says; they differ when
    the person named another. ``offer`` is not acted on: see ``accept_place``.
    ``sentence`` says all this, and from what.
    """

    photo: Photo
    new: bool
    night: date | None
    own_night: date | None
    offer: PlaceOffer | None
    sentence: str


@dataclass(frozen=True, slots=True)
class Pixels:
    """A picture to draw: rows of red, green, blue, one byte each, in sRGB, turned rightly."""

    width: int
    height: int
    rgb: bytes


def take_in(
    store: Store,
    path: Path,
    clock: Clock,
    night: date | None = None,
    rollover: int = 4,
    nearest_town: NearestTown | None = None,
    cut_off: bool = False,
) -> TakenIn:
    """Copy a photo into the keeper and put it with a night: the given one, else its own.

    ``rollover`` is the hour at which a night ends. A photo with neither is
    kept with no night. With ``cut_off`` one whose end is missing is taken as
    far as it goes. Raises UnreadablePhoto (of it CutOffPhoto for one that
    would be taken with ``cut_off``) or CannotWrite; then nothing was taken in.
    """
    brought = bring(store.folder, path, lambda sha256: _ending_of(store, sha256), cut_off=cut_off)
    act = told_as.of_night("A photo", night) if night else Act(f"The photo {shown_name(path)}")
    photo = keep_brought(store, [(brought, night)], clock, rollover, act)[0]
    own = own_night(photo, rollover, clock)
    offer = offer_place(store, photo, nearest_town)
    words = ("" if brought.facts else "This photo was in the keeper already.", night_words(photo, night or own, own),
             place_words(photo, offer))  # fmt: skip
    return TakenIn(photo, brought.facts is not None, night or own, own, offer, " ".join(filter(None, words)))


def _ending_of(store: Store, sha256: str) -> str | None:
    photo = photos.by_sha256(store, sha256)
    return photo.ending if photo else None


def check_kind(path: Path) -> None:
    """Raise UnreadablePhoto for a file that by its first bytes is no picture, or is not there."""
    media_type(path)


def accept_place(store: Store, night: date, offer: PlaceOffer, clock: Clock) -> Place:
    """Say that a night was spent where a photo was taken; a town becomes a known place."""
    with store.writing(told_as.of_night(offer.place.name, night)):
        place = place_of(store, offer)
        nights.set_place(store, night, place.id, "photo", utc_text(clock.moment().utc))
    return place


def of_night(store: Store, night: date) -> tuple[Photo, ...]:
    """The night's photos, in order."""
    return photos.of_night(store, night)


def of_month(store: Store, month: date) -> tuple[Photo, ...]:
    """The photos of a month's nights, oldest first."""
    return photos.of_month(store, month)


def every(store: Store) -> tuple[Photo, ...]:
    """All photos, the latest taken first."""
    return photos.every(store)


def photo_of_night(store: Store, night: date) -> Photo | None:
    """The photo chosen for a night, else its first one, or None."""
    return photos.photo_of_night(store, night)


def put_with(store: Store, night: date, photo_id: str, clock: Clock) -> None:
    """Put a photo that is in the keeper with a night too. Raises UnknownThing."""
    with store.writing(told_as.of_night("A photo", night)):
        photos.attach(store, night, photo_id, utc_text(clock.moment().utc))


def take_from(store: Store, night: date, photo_id: str) -> None:
    """Take a photo from a night; it stays in the keeper."""
    with store.writing(told_as.of_night("A photo taken away", night)):
        photos.detach(store, night, photo_id)


def choose_for_night(store: Store, night: date, photo_id: str | None, clock: Clock) -> None:
    """Choose the one photo of a night; None takes it back. Raises UnknownThing."""
    with store.writing(told_as.of_night("The photo" if photo_id else "No photo chosen", night)):
        photos.set_photo_of_night(store, night, photo_id, utc_text(clock.moment().utc))


def photo_of_month(store: Store, month: date, photo_id: str | None) -> None:
    """Choose the photo of a month, from any night; None takes it back. Raises UnknownThing."""
    with store.writing(told_as.of_month("The photo" if photo_id else "No photo", month)):
        if photo_id and photos.by_id(store, photo_id) is None:
            raise UnknownThing("That photo is no longer in the keeper.")
        month_pages.keep(store, replace(month_pages.one(store, month), photo_id=photo_id))


def write_caption(store: Store, photo_id: str, words: str) -> None:
    """Write what a photo shows; "" takes it out. Raises UnreadableText, UnknownThing."""
    check_text(words)
    with store.writing(_of(store, "The caption of a photo" if words.strip() else "No caption of a photo", photo_id)):
        photos.caption(store, photo_id, words.strip())


def turn(store: Store, photo_id: str, quarters: int) -> Photo:
    """Turn a photo by quarters to the right (negative: left); turned back, it is as before.

    Its file is not touched. Returns it as it is now. Raises UnknownThing.
    """
    with store.writing(_of(store, "A photo turned", photo_id)):
        return photos.turn(store, photo_id, quarters)


def rest_photo(store: Store, photo_id: str) -> None:
    """Never bring this photo up unasked. Raises UnknownThing."""
    if photos.by_id(store, photo_id) is None:
        raise UnknownThing("That photo is no longer in the keeper.")
    with store.writing(_of(store, "Rest for a photo", photo_id)):
        resting.rest(store, "photo", photo_id)


def wake_photo(store: Store, photo_id: str) -> None:
    """Let this photo be brought up again."""
    with store.writing(_of(store, "No rest for a photo", photo_id)):
        resting.wake(store, "photo", photo_id)


def take_out(store: Store, photo_id: str) -> None:
    """Take a photo out of the keeper. Its file stays as long as this can be taken back. Raises UnknownThing."""
    with store.writing(_of(store, "A photo taken out", photo_id)):
        photos.drop(store, photo_id)


def _of(store: Store, what: str, photo_id: str) -> Act:
    """What was done with a photo, seen on its first night if it has one."""
    its = photos.nights_of(store, photo_id)
    return told_as.of_night(what, its[0]) if its else Act(what)


def thumbnail_of(store: Store, photo: Photo, longest_side: int = THUMBNAIL) -> bytes:
    """A small JPEG of a photo, kept for the next time. Raises DamagedPhoto, UnreadablePhoto."""
    kept = photo_files.kept_thumbnail(store.folder, photo.sha256, longest_side, photo.turns)
    if kept:
        return kept
    small = _shown(store, photo, picture.thumbnail, longest_side)
    photo_files.keep_thumbnail(store.folder, photo.sha256, longest_side, small, photo.turns)
    return small


def pixels_of(store: Store, photo: Photo, longest_side: int | None = None) -> Pixels:
    """A photo to look at, no larger than asked. Raises DamagedPhoto, UnreadablePhoto."""
    photos.check(store, photo)
    seen = _shown(store, photo, picture.picture, longest_side)
    return Pixels(*seen.size, seen.tobytes())


def to_give_away(store: Store, photo: Photo, longest_side: int | None = None) -> bytes:
    """A JPEG of a photo, as it is seen, that says nothing of when, where and by whom. Raises DamagedPhoto."""
    photos.check(store, photo)
    return _shown(store, photo, picture.without_whereabouts, longest_side)


def damaged(store: Store, stopped: Callable[[], bool] = lambda: False) -> tuple[str, ...]:
    """A sentence for each photo that is gone or damaged on disk; reads every file.

    Raises Stopped.
    """
    sentences = []
    for photo in photos.every(store):
        if stopped():
            raise Stopped
        try:
            photos.check(store, photo)
        except DamagedPhoto as problem:
            sentences.append(str(problem))
    return tuple(sentences)


def _shown(store: Store, photo: Photo, read: Callable[..., Any], longest_side: int | None) -> Any:
    try:
        return read(photos.file_of(store, photo), longest_side, photo.turns, photo.cut_off)
    except UnreadablePhoto:
        # Tell apart what happened to the file since from a file that was odd.
        photos.check(store, photo)
        raise

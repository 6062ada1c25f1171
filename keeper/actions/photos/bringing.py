"""The two halves of taking a photo in: its file, in any thread, and what is known of it."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper.actions.photos.offers import own_night
from keeper.actions.writing import readable
from keeper.clock import Clock
from keeper.errors import CannotWrite, UnreadablePhoto, shown_name
from keeper.exchange.picture import PictureFacts, read_with_thumbnail
from keeper.exchange.picture_file import media_type
from keeper.model import Act, Photo
from keeper.store import Store
from keeper.store.moments import utc_text
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos

THUMBNAIL = 320
"""Pixels of the longer side of the thumbnail that is made when a photo comes."""


@dataclass(frozen=True, slots=True)
class Brought:
    """A file that is in its place. ``facts`` is None when the keeper knew it already.

    ``fresh`` says that no file was there before.
    """

    path: Path
    sha256: str
    bytes: int
    ending: str
    facts: PictureFacts | None
    fresh: bool


def bring(
    folder: Path,
    path: Path,
    known: Callable[[str], str | None],
    unwanted: Callable[[PictureFacts], str] = lambda _: "",
    cut_off: bool = False,
) -> Brought:
    """Copy a picture into the keeper's folder, read it, make its thumbnail; for any thread.

    What is read is the copy, so a file that changes meanwhile does no harm,
    and a slow card is read once. ``known`` gives the ending of a photo that
    the keeper has, by its SHA-256; ``unwanted`` why a picture is not to be
    taken in, or "". With ``cut_off`` one whose end is missing is taken as far
    as it goes. Raises UnreadablePhoto or CannotWrite; then nothing is left
    behind.
    """
    media_type(path)
    coming = photo_files.receive(folder, path)
    try:
        ending = known(coming.sha256)
        if ending:
            facts = None
        else:
            facts, small = read_with_thumbnail(coming.file, THUMBNAIL, called=path, cut_off=cut_off)
            if why := unwanted(facts):
                raise UnreadablePhoto(f"{shown_name(path)} {why}.")
        fresh = photo_files.settle(folder, coming, ending or facts.ending)
    except BaseException:
        photo_files.discard(coming)
        raise
    if facts:
        photo_files.keep_thumbnail(folder, coming.sha256, THUMBNAIL, small)
    return Brought(path, coming.sha256, coming.bytes, ending or facts.ending, facts, fresh)


def keep_brought(
    store: Store,
    brought: Sequence[tuple[Brought, date | None]],
    clock: Clock,
    rollover: int,
    act: Act,
) -> list[Photo]:
    """Keep what is known of brought photos, each with the night given or its own.

    ``act`` is what that is told as. All or none: on CannotWrite the files that
    came are taken away again.
    """
    try:
        photo_files.make_names_last(store.folder, [one.sha256 for one, _ in brought])
        with store.writing(act):
            return [_kept(store, one, night, clock, rollover) for one, night in brought]
    except BaseException:
        take_back(store.folder, [one for one, _ in brought])
        raise


def take_back(folder: Path, brought: Sequence[Brought]) -> None:
    """Take away the files of new photos that were not kept after all."""
    for one in brought:
        if one.fresh and one.facts:
            # A file without a row is harmless; the first trouble is the one to tell.
            with suppress(CannotWrite):
                photo_files.take_away(folder, one.sha256, one.ending)


def _kept(store: Store, one: Brought, night: date | None, clock: Clock, rollover: int) -> Photo:
    now = clock.moment().utc
    photo = photos.add(store, _photo(one), now) if one.facts else photos.by_sha256(store, one.sha256)
    night = night or own_night(photo, rollover, clock)
    if night:
        photos.attach(store, night, photo.id, utc_text(now))
    return photo


def _photo(one: Brought) -> Photo:
    return photo_of(one.facts, one.sha256, one.path, one.bytes)


def photo_of(facts: PictureFacts, sha256: str, path: Path, size: int) -> Photo:
    """What is known of a picture, as a photo that has no id yet; ``size`` is its file's, in bytes."""
    return Photo(
        "", sha256, facts.ending, size, facts.width, facts.height, facts.orientation, facts.taken_local,
        facts.taken_offset_minutes, facts.latitude, facts.longitude, readable(path.name), dated_by=facts.dated_by,
        day_only=facts.day_only, cut_off=facts.cut_off,
    )  # fmt: skip

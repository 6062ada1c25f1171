"""Looking through many photos before they are taken in: which night each would go to."""

import os
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from keeper.actions import told_as
from keeper.actions.photos.bringing import photo_of
from keeper.actions.photos.finding import files_of
from keeper.actions.photos.many import LeftOut, Summary, take_in_many, why_not, why_unwanted
from keeper.actions.photos.offers import NearestTown, PlaceOffer, offer_place, own_night, say_places
from keeper.clock import Clock
from keeper.errors import Stopped, UnreadablePhoto
from keeper.exchange.picture import look_at, thumbnail
from keeper.model import Photo
from keeper.store import Store, nights
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos

SMALL = 160
"""Pixels of the longer side of a picture that is only looked at."""


@dataclass(frozen=True, slots=True)
class NightToCome:
    """A night and the files that would go to it, in the order of their taking.

    ``guessed`` counts those dated by their names alone. ``offer`` is where
    most with a position were taken, None without one, or where the person has
    said where the night was spent.
    """

    night: date
    files: tuple[Path, ...]
    guessed: int
    offer: PlaceOffer | None


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found: the nights, oldest first; how many are in the keeper already; what would be left out."""

    nights: tuple[NightToCome, ...]
    already: int
    left_out: tuple[LeftOut, ...]


def look_through(
    store: Store,
    sources: Iterable[Path],
    clock: Clock,
    rollover: int,
    nearest_town: NearestTown | None = None,
    progress: Callable[[float, str], None] = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Looked:
    """Look at the head of each picture; nothing is taken in, and none is proven whole yet.

    Raises Stopped.
    """
    look = _Look(store, clock, rollover)
    files = list(files_of(sources, store.folder, lambda path, why: look.left_out.append(LeftOut(path, why))))
    for done, file in enumerate(files, 1):
        if stopped():
            raise Stopped
        look.at(file)
        progress(done / len(files), f"{done:,} of {len(files):,}")
    return look.done(nearest_town)


def take_in_looked(
    store: Store,
    looked: Looked,
    chosen: Sequence[NightToCome],
    with_places: bool,
    clock: Clock,
    rollover: int,
    progress: Callable[[float, str], None] = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> tuple[Summary, int]:
    """Take in the photos of the nights chosen of those looked at; of how many nights the place was said too.

    The summary tells of what was left out when they were looked at as well.
    Otherwise as ``take_in_many``.
    """
    files = [file for night in chosen for file in night.files]
    with store.going_on(told_as.of_photos([Path(os.path.commonpath([file.parent for file in files]))] if files else [])):
        done = take_in_many(store, files, clock, rollover, progress, stopped)
        came = {night for night in chosen if with_places and night.offer and done.act and photos.of_night(store, night.night)}
        said = say_places(store, {night.night: night.offer for night in came}, clock) if came else 0
    left_out = (*looked.left_out, *done.left_out)
    return replace(done, already=looked.already + done.already, left_out=left_out), said


def small_picture(file: Path) -> bytes:
    """A small JPEG of a file that is not taken in yet. Raises UnreadablePhoto."""
    return thumbnail(file, SMALL)


class _Look:
    def __init__(self, store: Store, clock: Clock, rollover: int) -> None:
        self._store, self._clock, self._rollover = store, clock, rollover
        back = photos.taken_back_before(store)
        self._kept = {size: its - back for size, its in photos.by_bytes(store).items()}
        self._found: dict[date, list[tuple[Photo, Path]]] = {}
        self.left_out: list[LeftOut] = []
        self.already = 0

    def at(self, file: Path) -> None:
        try:
            facts = look_at(file)
            if self._is_kept(file, facts.bytes):
                self.already += 1
            elif why := why_unwanted(facts, self._clock):
                self.left_out.append(LeftOut(file, why))
            else:
                photo = photo_of(facts, "", file, facts.bytes)
                self._found.setdefault(own_night(photo, self._rollover, self._clock), []).append((photo, file))
        except UnreadablePhoto as problem:
            self.left_out.append(LeftOut(file, why_not(file, problem)))

    def _is_kept(self, file: Path, size: int) -> bool:
        # Only files of a size that is there are read through.
        same = self._kept.get(size)
        try:
            return bool(same) and photo_files.sha256_of(file) in same
        except OSError:
            return False

    def done(self, nearest_town: NearestTown | None) -> Looked:
        found = [self._night(night, its, nearest_town) for night, its in sorted(self._found.items())]
        return Looked(tuple(found), self.already, tuple(self.left_out))

    def _night(self, night: date, its: list[tuple[Photo, Path]], nearest_town: NearestTown | None) -> NightToCome:
        its.sort(key=lambda pair: (pair[0].taken_local, pair[1].name))
        guessed = sum(photo.dated_by == "name" for photo, _ in its)
        return NightToCome(night, tuple(file for _, file in its), guessed, self._offer(night, its, nearest_town))

    def _offer(
        self, night: date, its: list[tuple[Photo, Path]], nearest_town: NearestTown | None
    ) -> PlaceOffer | None:
        if nights.one(self._store, night).place_source == "said":
            return None
        spots = Counter(filter(None, (_spot(photo) for photo, _ in its)))
        if not spots:
            return None
        likeliest = spots.most_common(1)[0][0]
        photo = next(photo for photo, _ in its if _spot(photo) == likeliest)
        return offer_place(self._store, photo, nearest_town)


def _spot(photo: Photo) -> tuple[float, float] | None:
    # To a hundredth of a degree, so that all photos of a harbour are one spot.
    return None if photo.latitude is None else (round(photo.latitude, 2), round(photo.longitude, 2))

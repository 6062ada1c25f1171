"""Making a backup: everything of it under a passing name, checked, and only then given its own."""

import shutil
import sqlite3
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper import private
from keeper.errors import AlreadyKept
from keeper.store.backups import photos, reading_copy
from keeper.store.backups.inside import opened
from keeper.store.backups.listing import PHOTOS_AND_SCANS, files_in, photos_of
from keeper.store.backups.place import alone, coming_name, told_of
from keeper.store.file.copies import copy_file, force_folder
from keeper.store.file.folder import FILE, PHOTOS
from keeper.store.file.opening import Store

Progress = Callable[[float, str], None]

_OF_PHOTOS, _OF_THE_FILE = 0.8, 0.9
"""How far it is when the photos, and the database, are there."""


@dataclass(frozen=True, slots=True)
class Made:
    """A backup that was made: its name, and the SHA-256 of photos that it cannot hold, as their files are gone or damaged."""

    path: Path
    lacking: tuple[str, ...] = ()


def make(
    store: Store, place: Path, name: str, day: date, progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Made:  # fmt: skip
    """Make a backup of this name in a folder, which is made if need be.

    Raises CannotWrite, HeldElsewhere, AlreadyKept where there is one of the
    name, NotAKeeper when the keeper is damaged, and Stopped.
    """
    with told_of(place), alone(place, store.folder):
        if (place / name).exists():
            raise AlreadyKept(f"There is a backup {name} in {place} already.")
        lacking = _bring_photos(store, place, _photos(store), progress, stopped)
        coming = place / coming_name(store.folder)
        coming.mkdir(mode=private.FOLDER)
        try:
            lacking += _fill(store, place, coming, day, progress, stopped)
            coming.rename(place / name)
        except BaseException:
            shutil.rmtree(coming, ignore_errors=True)
            raise
        force_folder(place)
    return Made(place / name / FILE, tuple(dict.fromkeys(lacking)))


def _photos(store: Store) -> list[photos.Wanted]:
    return store.rows(PHOTOS_AND_SCANS)


def _bring_photos(
    store: Store, place: Path, wanted: list[photos.Wanted], progress: Progress, stopped: Callable[[], bool]
) -> tuple[str, ...]:
    private.make_folder(place / PHOTOS)
    whole, so_far = sum(size for *_, size in wanted) or 1, 0

    def done(one: photos.Wanted) -> None:
        nonlocal so_far
        so_far += one[2]
        progress(_OF_PHOTOS * so_far / whole, "Photos")

    return photos.bring(store.folder, place, wanted, lambda: coming_name(store.folder), done, stopped)


def _fill(
    store: Store, place: Path, coming: Path, day: date, progress: Progress, stopped: Callable[[], bool]
) -> tuple[str, ...]:
    progress(_OF_PHOTOS, "Nights and lines")
    # Told here, while what is half written still fills the disk.
    with told_of(place):
        copy_file(store.connection, coming / FILE, stopped)
    progress(_OF_THE_FILE, "The reading copy")
    # Photos may have come, or gone, since they were gone through.
    lacking = _bring_photos(store, place, photos_of(coming / FILE), lambda *_: progress(_OF_THE_FILE, "Photos"), stopped)
    with opened(coming / FILE) as copy:
        reading_copy.write(copy, coming, day, stopped)
    force_folder(coming)
    progress(1, "")
    return lacking


def take_away(place: Path, keeper: Path, names: Iterable[str]) -> None:
    """Delete the backups of these names, and the photos that no other there has. Raises CannotWrite, HeldElsewhere."""
    going = tuple(names)
    if not going:
        return
    with told_of(place, "were not thinned out"), alone(place, keeper):
        for name in going:
            # Under a passing name first: half a backup must not be taken for one.
            passing = place / coming_name(keeper)
            (place / name).rename(passing)
            shutil.rmtree(passing)
        # One that cannot be read may have any of them.
        with suppress(sqlite3.Error):
            wanted = [photos_of(path) for path, *_ in files_in(place)]
            photos.take_away_others(place, frozenset(sha256 for some in wanted for sha256, *_ in some))

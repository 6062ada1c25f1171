"""A backup put into the keeper's place.

A keeper that can be opened is written over in one transaction of its own
file ("SQLite Backup API"): whoever has it open sees the one or the other, a
crash leaves the one or the other, and no log ever meets another file. One
that cannot be opened is kept aside byte by byte, and a whole new file takes
its name.
"""

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite
from keeper.settings import OF_WINDOW
from keeper.store import settings as kept_settings
from keeper.store.backups import photos
from keeper.store.backups.inside import opened
from keeper.store.backups.listing import Backup, photos_of
from keeper.store.backups.making import Progress
from keeper.store.backups.place import alone, coming_name, held_by_nobody_else, told_of
from keeper.store.file import passing
from keeper.store.file.copies import PATIENCE, copy_file, force, force_folder, patience
from keeper.store.file.folder import BACKUPS, FILE, PHOTOS
from keeper.store.file.opening import Store
from keeper.store.photos.files import sha256_of

_WHAT = "was not brought back"
_FEW_PAGES = 8
"""Fewer than any keeper has."""

_LOGS = (f"{FILE}-wal", f"{FILE}-shm")


class ChangedMeanwhile(CannotWrite):
    """Somebody wrote in the keeper after it was kept aside."""


def into_place(
    store: Store, backup: Backup, staying: Iterable[str], unchanged: Callable[[], bool] = lambda: True,
    progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False,
) -> tuple[str, ...]:  # fmt: skip
    """Let an open keeper hold what a backup holds; the SHA-256 of photos that are nowhere whole.

    What it holds now must have been kept aside: whether it is ``unchanged``
    since is asked once nobody else can write any more. Photos it has stay
    where they are. ``staying`` are settings that do not go back. Raises
    CannotWrite, ChangedMeanwhile, NotAKeeper, NewerKeeper, Stopped; then the
    keeper is as it was.
    """
    with told_of(backup.place, _WHAT), passing.lay_down(store.folder) as room:
        prepared = Path(room, FILE)
        _prepare(backup, prepared, _settings(store, staying), stopped)
        lacking = bring_photos(store.folder, backup, photos_of(prepared), progress, stopped)
        progress(1, "Nights and lines")
        with told_of(store.folder, _WHAT):
            _write_over(prepared, store.connection, unchanged, stopped)
    return lacking


def _settings(store: Store, names: Iterable[str]) -> dict[str, str]:
    """What does not go back: those named, and how the window was left."""
    kept = kept_settings.read(store)
    return {name: kept[name] for name in (*names, *OF_WINDOW) if name in kept}


def _prepare(backup: Backup, prepared: Path, settings: dict[str, str], stopped: Callable[[], bool]) -> None:
    # In today's shape, and checked once more, before anything is touched.
    with opened(backup.path) as copy:
        copy_file(copy.connection, prepared, stopped)
    if settings:
        with Store(prepared.parent, sqlite3.connect(prepared, isolation_level=None)) as file, file.unnoted() as connection:
            connection.execute("DELETE FROM window_state")
            kept_settings.write(file, settings)


def bring_photos(
    folder: Path, backup: Backup, wanted: list[photos.Wanted], progress: Progress, stopped: Callable[[], bool]
) -> tuple[str, ...]:
    """Bring the photos of a backup that a keeper has not, or not whole, back into its folder.

    The SHA-256 of those that neither has is returned. Raises OSError, Stopped.
    """
    private.make_folder(folder / PHOTOS)
    so_far = 0

    def done(_: photos.Wanted) -> None:
        nonlocal so_far
        so_far += 1
        progress(so_far / len(wanted), "Photos")

    return photos.bring(backup.place, folder, wanted, lambda: coming_name(folder), done, stopped, mending=True)


def _write_over(
    prepared: Path, target: sqlite3.Connection, unchanged: Callable[[], bool], stopped: Callable[[], bool]
) -> None:
    wait, asked = patience(stopped, PATIENCE), []

    def go_on(status: int, remaining: int, total: int) -> None:
        wait(status, remaining, total)
        # From the first pages on no other can write; with the last ones it is done.
        if status == sqlite3.SQLITE_OK and not asked:
            asked.append(unchanged())
            if not asked[0]:
                raise ChangedMeanwhile("Something was written in the keeper meanwhile. Nothing was changed; try again.")

    file = sqlite3.connect(prepared, isolation_level=None)
    try:
        # One transaction, whole or not at all.
        file.backup(target, pages=_FEW_PAGES, progress=go_on, sleep=0.05)
    finally:
        file.close()


def into_empty_place(
    folder: Path, backup: Backup, aside: str, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> tuple[str, ...]:
    """Let a folder whose keeper cannot be opened, or is gone, hold what a backup holds.

    What lies there of the keeper's file, its log with it, is copied byte by
    byte into ``backups/<aside>`` first. The SHA-256 of photos that are nowhere
    whole is returned. Raises CannotWrite, NotAKeeper, NewerKeeper, Stopped.
    """
    with told_of(backup.place, _WHAT):
        private.make_folder(folder / BACKUPS)
        coming = folder / f"{FILE}.{passing.mark(folder)}.new"
        try:
            coming.unlink(missing_ok=True)
            _prepare(backup, coming, [], stopped)
            _as_a_keeper_is(coming)
            lacking = bring_photos(folder, backup, photos_of(coming), progress, stopped)
            with told_of(folder, _WHAT):
                _keep_bytes(folder, aside)
                with _alone_if_it_can_be_told(folder):
                    _give_name(folder, coming)
        finally:
            coming.unlink(missing_ok=True)
    return lacking


def _as_a_keeper_is(coming: Path) -> None:
    # With a log; which is empty, and so not there, once nobody has the file open.
    file = sqlite3.connect(coming, isolation_level=None)
    try:
        file.execute("PRAGMA journal_mode = WAL").fetchone()
    finally:
        file.close()
    force(coming)


def _keep_bytes(folder: Path, aside: str) -> None:
    there = [file for name in (FILE, *_LOGS) if (file := folder / name).exists()]
    if not there:
        return
    place = folder / BACKUPS
    with alone(place, folder):
        keeping = place / coming_name(folder)
        keeping.mkdir(mode=private.FOLDER)
        try:
            for file in there:
                _copy_bytes(file, keeping / file.name)
            force_folder(keeping)
            keeping.rename(place / aside)
        except BaseException:
            shutil.rmtree(keeping, ignore_errors=True)
            raise
        force_folder(place)


def _copy_bytes(file: Path, copy: Path) -> None:
    shutil.copyfile(file, copy)
    private.close(copy)
    force(copy)
    if sha256_of(copy) != sha256_of(file):
        raise CannotWrite(f"What is left of the keeper could not be kept aside: {file.name} changed meanwhile. Nothing was changed.")


@contextmanager
def _alone_if_it_can_be_told(folder: Path) -> Iterator[None]:
    """Raises CannotWrite when somebody has the keeper open. Of a file that is none any more it cannot be told."""
    if not (folder / FILE).exists():
        yield
        return
    with ExitStack() as held:
        with suppress(sqlite3.Error):
            held.enter_context(held_by_nobody_else(folder))
        yield


def _give_name(folder: Path, coming: Path) -> None:
    # First the log goes, and is known to be gone: laid over the new file it would spoil it.
    for name in _LOGS:
        (folder / name).unlink(missing_ok=True)
    force_folder(folder)
    os.replace(coming, folder / FILE)
    force_folder(folder)

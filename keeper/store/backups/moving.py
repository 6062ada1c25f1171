"""A keeper moved to another folder: all that belongs to it copied and checked before the old one goes.

The copy has its name only when it is whole and nobody else has the keeper
open. Until then stopping it, or a crash, leaves the old one as it was.
"""

import hashlib
import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite, KeeperError, NotAKeeper, Stopped
from keeper.store.backups.making import Progress
from keeper.store.backups.place import held_by_nobody_else, why
from keeper.store.file import passing
from keeper.store.file.copies import copy_file, force, force_folder
from keeper.store.file.folder import BACKUPS, FILE, PASSING, PHOTOS, THUMBNAILS
from keeper.store.photos.files import sha256_of

_TROUBLE = "trouble.txt"
_COPIED = (PHOTOS, BACKUPS, _TROUBLE)
_GOING = (FILE, f"{FILE}-wal", f"{FILE}-shm", *_COPIED, THUMBNAILS, PASSING)
_CHUNK = 1 << 20


def move(
    folder: Path, target: Path, settled: Callable[[], None] = lambda: None, progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> None:  # fmt: skip
    """Move the keeper of a folder to another, which must be empty or not there yet.

    ``settled`` is called when the new one is whole and the old one not yet
    gone. Files that are none of the keeper's stay. Raises CannotWrite,
    NotAKeeper, Stopped; then the keeper is where it was.
    """
    with _told(folder, target):
        _refuse(folder, target)
        private.make_folder(target.parent)
        coming = target.parent / f".{target.name}.coming-{os.urandom(6).hex()}"
        coming.mkdir(mode=private.FOLDER)
        try:
            copying = _Copying(folder, coming, progress, stopped)
            copying.copy_all()
            with held_by_nobody_else(folder) as connection:
                copying.copy_all()
                _copy_file(connection, coming / FILE, stopped)
                _settle(coming, target, settled)
                _take_away(folder)
        except BaseException:
            shutil.rmtree(coming, ignore_errors=True)
            raise


def _refuse(folder: Path, target: Path) -> None:
    if not (folder / FILE).is_file():
        raise NotAKeeper(f"There is no keeper in {folder}.")
    if target.resolve().is_relative_to(folder.resolve()):
        raise CannotWrite("A keeper cannot be moved into itself. Choose another folder.")
    if target.exists() and not (target.is_dir() and not any(target.iterdir())):
        raise CannotWrite(f"Something lies in {target} already. Choose an empty folder, or a new one.")


@dataclass
class _Copying:
    """The files that are copied so far, each with its length and time: what has changed since is copied anew."""

    folder: Path
    coming: Path
    progress: Progress
    stopped: Callable[[], bool]
    done: dict[Path, tuple[int, int]] = field(default_factory=dict)

    def copy_all(self) -> None:
        """Copy whatever is not there yet, and force it to the disk."""
        waiting = [(file, shape) for file, shape in self._files() if self.done.get(file) != shape]
        whole, so_far = sum(shape[0] for _, shape in waiting) or 1, 0
        for file, shape in waiting:
            if self.stopped():
                raise Stopped
            self._copy(file)
            self.done[file] = shape
            so_far += shape[0]
            self.progress(so_far / whole, "Photos and backups")
        for made in (self.coming, *(path for path in self.coming.rglob("*") if path.is_dir())):
            force_folder(made)

    def _files(self) -> Iterator[tuple[Path, tuple[int, int]]]:
        for name in _COPIED:
            top = self.folder / name
            for path in [top, *sorted(top.rglob("*"))] if top.exists() else []:
                told = path.lstat()
                if path.is_dir():
                    private.make_folder(self.coming / path.relative_to(self.folder))
                else:
                    yield path, (told.st_size, told.st_mtime_ns)

    def _copy(self, file: Path) -> None:
        copy, digest = self.coming / file.relative_to(self.folder), hashlib.sha256()
        with file.open("rb") as source, open(copy, "wb", opener=private.opener) as out:
            while chunk := source.read(_CHUNK):
                digest.update(chunk)
                out.write(chunk)
            out.flush()
            os.fsync(out.fileno())
        if sha256_of(copy) != digest.hexdigest():
            raise CannotWrite(f"{file.name} could not be read again where it was copied. Nothing was moved.")
        with suppress(OSError):
            # An upgrade's copy is known by its time alone.
            shutil.copystat(file, copy)
            private.close(copy)


def _copy_file(connection: sqlite3.Connection, target: Path, stopped: Callable[[], bool]) -> None:
    copy_file(connection, target, stopped)
    copy = sqlite3.connect(target, isolation_level=None)
    try:
        copy.execute("PRAGMA journal_mode = WAL").fetchone()
    finally:
        copy.close()
    force(target)


def _settle(coming: Path, target: Path, settled: Callable[[], None]) -> None:
    force_folder(coming)
    if target.is_dir():
        target.rmdir()
    coming.rename(target)
    try:
        force_folder(target.parent)
        settled()
    except BaseException:
        # Where nobody would look for it there must be no second keeper.
        target.rename(coming)
        raise


def _take_away(folder: Path) -> None:
    # The new one counts by now: what cannot be taken away is only in the way.
    passing.end_mark(folder)
    for name in _GOING:
        path = folder / name
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path, ignore_errors=True)
        else:
            with suppress(OSError):
                path.unlink(missing_ok=True)
    with suppress(OSError):
        folder.rmdir()


@contextmanager
def _told(folder: Path, target: Path) -> Iterator[None]:
    try:
        yield
    except NotAKeeper as error:
        raise NotAKeeper(f"The keeper was not moved: {str(error).rstrip('.')}.") from error
    except KeeperError:
        raise
    except sqlite3.Error as error:
        raise CannotWrite(f"The keeper was not moved to {target}: {why(target.parent, error)}.") from error
    except OSError as error:
        raise CannotWrite(f"The keeper was not moved to {target}: {why(target.parent, error)}.") from error

"""Photos copied by content, each once: into a folder of backups, and back from there."""

import errno
import os
import shutil
from collections.abc import Callable, Iterable
from contextlib import suppress
from itertools import islice
from pathlib import Path

from keeper import private
from keeper.errors import Stopped
from keeper.store.backups.disk import FULL_OR_CLOSED
from keeper.store.file.copies import force, force_folder
from keeper.store.file.folder import PHOTOS
from keeper.store.photos.files import relative_file, sha256_of

Wanted = tuple[str, str, int]
"""The SHA-256 of a photo, the ending of its file and how many bytes that has."""

TOGETHER = 256
"""So many are forced to the disk at once, and only then given their names: each by itself takes as long as all of them."""


def bring(
    source: Path, target: Path, wanted: Iterable[Wanted], coming: Callable[[], str],
    done: Callable[[Wanted], None] = lambda _: None, stopped: Callable[[], bool] = lambda: False, mending: bool = False,
) -> tuple[str, ...]:  # fmt: skip
    """Copy those photos that are not there from one folder with ``photos/`` to another; the SHA-256 of those that could not be read.

    What was written is read again: it has its name only with its own SHA-256,
    and once it is on the disk. ``coming`` gives passing names, ``done`` is told of each.
    One that is there is known by its length; with ``mending`` by its SHA-256,
    and one that is damaged is replaced. Raises OSError where it cannot be
    written, Stopped.
    """
    lacking: list[str] = []
    waiting = iter(wanted)
    while some := list(islice(waiting, TOGETHER)):
        _bring_some(source / PHOTOS, target / PHOTOS, some, lacking, coming, done, stopped, mending)
    return tuple(lacking)


def _bring_some(
    source: Path, target: Path, some: list[Wanted], lacking: list[str], coming: Callable[[], str],
    done: Callable[[Wanted], None], stopped: Callable[[], bool], mending: bool,
) -> None:  # fmt: skip
    written: dict[Path, Path] = {}
    try:
        for one in some:
            if stopped():
                # What was copied by then need not be copied again.
                _settle(target, written)
                raise Stopped
            name = relative_file(*one[:2])
            if not (_is_whole(target / name, one[0]) if mending else _is_there(target / name, one[2])):
                passing = target / coming()
                written[passing] = target / name
                if not _copied(source / name, passing, one[0]):
                    lacking.append(one[0])
                    passing.unlink(missing_ok=True)
                    del written[passing]
            done(one)
        _settle(target, written)
    finally:
        for passing in written:
            with suppress(OSError):
                passing.unlink(missing_ok=True)


def _is_there(file: Path, size: int) -> bool:
    try:
        return file.stat().st_size == size
    except OSError:
        return False


def _copied(source: Path, target: Path, sha256: str) -> bool:
    """Whether the file is what it should be; then it is copied. Raises OSError where it cannot be written."""
    private.make_folder(target.parent)
    private.make_file(target)
    try:
        # By the system itself, where it can.
        shutil.copyfile(source, target)
        if _is_whole(target, sha256):
            return True
    except OSError as error:
        if error.errno in FULL_OR_CLOSED or _is_whole(source, sha256):
            raise
        return False
    if _is_whole(source, sha256):
        raise OSError(errno.EIO, "what was written there cannot be read again")
    return False


def _is_whole(file: Path, sha256: str) -> bool:
    try:
        return sha256_of(file) == sha256
    except OSError:
        return False


def _settle(target: Path, written: dict[Path, Path]) -> None:
    _force_all(list(written))
    folders = {target} if written else set()
    for passing, named in list(written.items()):
        private.make_folder(named.parent)
        passing.replace(named)
        folders.add(named.parent)
        del written[passing]
    for folder in folders:
        force_folder(folder)


def _force_all(files: list[Path]) -> None:
    if len(files) > 1 and hasattr(os, "sync"):
        os.sync()
        return
    for file in files:
        force(file)


def take_away_others(place: Path, wanted: frozenset[str]) -> None:
    """Delete the photos of a folder of backups that none of them has. Raises OSError."""
    for file in (place / PHOTOS).glob("??/*"):
        if len(file.stem) == 64 and file.stem not in wanted:
            file.unlink(missing_ok=True)

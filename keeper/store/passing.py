"""What lies in a keeper only in passing, and is cleared away once its program is gone.

A program that lays something down has a mark: a folder ``passing/<mark>`` that
the system keeps locked for it as long as it lives. Other passing files carry
the mark in their names. Where folders cannot be locked (Windows, some network
disks), age decides.
"""

import atexit
import os
import shutil
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from keeper import private
from keeper.store.folder import PASSING

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

FORGOTTEN_AFTER = 3600.0
"""Seconds after which what nobody can be asked about must have been broken off."""

_mine: dict[tuple[int, Path], str] = {}
_making = Lock()


def mark(folder: Path) -> str:
    """This program's mark in a keeper. Raises OSError where none can be made."""
    me = (os.getpid(), folder)
    with _making:
        if me not in _mine or not (folder / PASSING / _mine[me]).is_dir():
            _mine[me] = _made(folder / PASSING)
        return _mine[me]


def lay_down(folder: Path) -> "TemporaryDirectory[str]":
    """A folder for a while; it goes when the block is left, or with ``cleanup``.

    It lies in the keeper, or among the system's passing files where the
    keeper cannot be written or its name is no text, of which the library that
    sets books knows nothing. Raises OSError where neither takes it.
    """
    import tempfile

    try:
        os.fspath(folder).encode()
        return tempfile.TemporaryDirectory(dir=folder / PASSING / mark(folder), ignore_cleanup_errors=True)
    except (OSError, UnicodeEncodeError):
        return tempfile.TemporaryDirectory(prefix="keeper-", ignore_cleanup_errors=True)


def sweep(folder: Path) -> None:
    """Clear away what programs that are gone laid down."""
    for left in _in(folder / PASSING):
        if _abandoned(left):
            shutil.rmtree(left, ignore_errors=True)


def left_behind(folder: Path, file: Path, its_mark: str) -> bool:
    """Whether the program that was writing a passing file is gone.

    ``its_mark`` is what the file's name says; it is asked anew for each file,
    since a program makes its mark before its files.
    """
    if its_mark.count("-") != 1:
        return _old(file)
    room = folder / PASSING / its_mark
    return _abandoned(room) if room.is_dir() else True


def _made(room: Path) -> str:
    name = f"{os.getpid()}-{os.urandom(6).hex()}"
    private.make_folder(room)
    # Locked before it has its name: whoever sweeps never meets it unlocked.
    coming, settled = room / f".{name}", room / name
    coming.mkdir(mode=private.FOLDER)
    handle, _ = _locked(coming)
    coming.rename(settled)
    atexit.register(_end, os.getpid(), settled, handle)
    return name


def _end(process: int, room: Path, handle: int | None) -> None:
    if process != os.getpid():
        return
    shutil.rmtree(room, ignore_errors=True)
    with suppress(OSError):
        room.parent.rmdir()
    if handle is not None:
        os.close(handle)


def _locked(room: Path) -> tuple[int | None, bool]:
    """A handle that holds the folder's lock, if it could be had; and whether somebody else has it."""
    try:
        import fcntl

        handle = os.open(room, os.O_RDONLY)
    except (ImportError, OSError):
        return None, False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        os.close(handle)
        return None, isinstance(error, BlockingIOError)
    return handle, False


def _abandoned(room: Path) -> bool:
    if room.name.startswith("."):
        return _old(room)
    handle, held = _locked(room)
    if handle is None:
        return not held and _old(room)
    os.close(handle)
    return True


def _old(path: Path) -> bool:
    try:
        return time.time() - path.stat().st_mtime > FORGOTTEN_AFTER
    except OSError:
        return False


def _in(folder: Path) -> Iterator[Path]:
    try:
        names = os.listdir(folder)
    except OSError:
        return
    yield from (folder / name for name in names)

"""What lies in a keeper only in passing, and is cleared away once its program is gone.

A program that lays something down has a mark: a folder ``passing/<mark>`` that
the system keeps locked for it as long as it lives. Other passing files carry
the mark in their names. Where folders cannot be locked (Windows, some network
disks), age decides.
"""

import atexit
import os
import re
import shutil
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from keeper import private
from keeper.store.file.folder import PASSING

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

FORGOTTEN_AFTER = 3600.0
"""Seconds after which what nobody can be asked about must have been broken off."""

_COMING = ".coming-"
_ELSEWHERE = re.compile(r"\..*\.coming-([0-9a-f]{12})-(\d+-[0-9a-f]{12})-[0-9a-f]{12}(?:\.zip)?", re.DOTALL)

_mine: dict[tuple[int, Path], "_Mark"] = {}
_making = Lock()


def mark(folder: Path) -> str:
    """This program's mark in a keeper. Raises OSError where none can be made."""
    me = (os.getpid(), folder)
    with _making:
        if me not in _mine or not _mine[me].room.is_dir():
            _mine[me] = _made(folder / PASSING)
        return _mine[me].room.name


def end_mark(folder: Path) -> None:
    """Give up this program's mark in a keeper, with whatever it laid down."""
    with _making:
        if ending := _mine.pop((os.getpid(), folder), None):
            ending.end()


def lay_down(folder: Path | None) -> "TemporaryDirectory[str]":
    """A folder for a while; it goes when the block is left, or with ``cleanup``.

    It lies in the keeper. Where there is None to be written, and where the
    keeper's name is no text, which the library that sets books cannot spell,
    it lies among the system's passing files. Raises OSError where neither
    takes it.
    """
    import tempfile

    if folder is not None:
        with suppress(OSError, UnicodeEncodeError):
            os.fspath(folder).encode()
            return tempfile.TemporaryDirectory(dir=folder / PASSING / mark(folder), ignore_cleanup_errors=True)
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


def name_elsewhere(keeper: Path, name: str) -> str:
    """A passing name for what this program makes for a keeper in a folder of the person's; it is found again by ``sweep_elsewhere``."""
    unlike = os.urandom(6).hex()
    try:
        return f".{name[:80]}{_COMING}{_whose(keeper)}-{mark(keeper)}-{unlike}"
    except OSError:
        # In a keeper that cannot be written nobody can be asked about it later.
        return f".{name[:80]}{_COMING}{unlike}"


def sweep_elsewhere(keeper: Path, folder: Path) -> None:
    """Clear out of a folder of the person's what programs that are gone began to make there for this keeper, and nothing else."""
    for left in _in(folder):
        found = _ELSEWHERE.fullmatch(left.name)
        if not found or found[1] != _whose(keeper) or left.is_symlink() or not left_behind(keeper, left, found[2]):
            continue
        if left.is_dir():
            shutil.rmtree(left, ignore_errors=True)
        else:
            with suppress(OSError):
                left.unlink()


def _whose(keeper: Path) -> str:
    from hashlib import sha256

    return sha256(os.fsencode(keeper.resolve())).hexdigest()[:12]


@dataclass(frozen=True)
class _Mark:
    """The mark's folder, the handle that holds its lock, and whose it is."""

    room: Path
    handle: int | None
    process: int

    def end(self) -> None:
        """Let go of it."""
        atexit.unregister(self.end)
        # What a process was split from is not its own.
        if self.process == os.getpid():
            shutil.rmtree(self.room, ignore_errors=True)
            with suppress(OSError):
                self.room.parent.rmdir()
            if self.handle is not None:
                os.close(self.handle)


def _made(room: Path) -> _Mark:
    name = f"{os.getpid()}-{os.urandom(6).hex()}"
    private.make_folder(room)
    # Locked before it has its name: whoever sweeps never meets it unlocked.
    coming, settled = room / f".{name}", room / name
    coming.mkdir(mode=private.FOLDER)
    handle, _ = _locked(coming)
    coming.rename(settled)
    made = _Mark(settled, handle, os.getpid())
    atexit.register(made.end)
    return made


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

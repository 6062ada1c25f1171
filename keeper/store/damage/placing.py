"""A mended keeper put into the place of the broken one, which is kept.

All of it is made ready in a folder of its own, ``broken/<when>``: the broken
file and its log byte for byte, and the new one. Whoever is killed on the way
leaves either the broken keeper as it was, or a whole new file that only has
to be given its name: ``finish`` does that.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite
from keeper.store.file.folder import BROKEN, DAMAGE, FILE
from keeper.store.file.opening import taken_for_oneself

_LOGS = (f"{FILE}-wal", f"{FILE}-shm")
_MENDED = "mended.db"

def begun(folder: Path, name: str) -> Path:
    """Make a folder in which a keeper is mended, and keep the broken one there. Raises OSError."""
    room = folder / BROKEN / f".{name}"
    shutil.rmtree(room, ignore_errors=True)
    private.make_folder(room)
    for part in (FILE, *_LOGS[:1], DAMAGE):
        if (folder / part).is_file():
            shutil.copyfile(folder / part, room / part)
            private.close(room / part)
            _force(room / part)
    return room


def mended_in(room: Path) -> Path:
    """Where the new file is made."""
    return room / _MENDED


def make_ready(room: Path) -> Path:
    """The new file is whole: from now on it only has to be put into place. Returns the room by its own name."""
    for rest in room.glob(f"{_MENDED}-*"):
        rest.unlink()
    _force(room / _MENDED)
    settled = room.with_name(room.name.removeprefix("."))
    for n in range(2, 1000):
        if not settled.exists():
            break
        settled = room.with_name(f"{room.name.removeprefix('.')} {n}")
    room.rename(settled)
    _force(settled)
    _force(settled.parent)
    return settled


def waiting(folder: Path) -> Path | None:
    """The room of a mended keeper that was not put into place yet, or None."""
    there = sorted((folder / BROKEN).glob(f"[!.]*/{_MENDED}"))
    return there[-1].parent if there else None


def finish(folder: Path) -> Path | None:
    """Put the mended keeper that waits into place; the broken file is in the folder returned.

    None where none waits. Nobody may have the keeper open. Raises CannotWrite
    when somebody has, or when the disk does not take it; it waits then.
    """
    room = waiting(folder)
    if room is None:
        return None
    try:
        with alone(folder):
            for name in _LOGS:
                (folder / name).unlink(missing_ok=True)
            # Known to be gone before the new file has the name: the old log would be laid over it.
            _force(folder)
            os.replace(room / _MENDED, folder / FILE)
            _force(folder)
            (folder / DAMAGE).unlink(missing_ok=True)
    except OSError as error:
        raise CannotWrite(f"The mended keeper cannot be put into place: {(error.strerror or str(error)).lower()}.") from error
    return room


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Let nobody open the keeper meanwhile. Raises CannotWrite when somebody has it open."""
    file = folder / FILE
    if os.name != "posix" or not file.is_file():
        yield
        return
    with file.open("rb+") as held:
        if not taken_for_oneself(held):
            raise CannotWrite(f"Another program has the keeper in {folder} open. Close that first; nothing was changed.")
        yield


def _force(path: Path) -> None:
    if path.is_dir() and os.name != "posix":
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)

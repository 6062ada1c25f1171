"""The gazetteer's file: travels packed, is unpacked on first use, and checked."""

import contextlib
import hashlib
import lzma
import os
import tempfile
from pathlib import Path
from typing import BinaryIO

from keeper.errors import CannotWrite, KeeperError

_CHUNK = 1 << 20


class NoGazetteer(KeeperError):
    """The list of towns that came with the program is missing or damaged."""


def unpack(cache: Path, shipped: Path) -> Path:
    """The unpacked file in the folder ``cache``, made anew if it is missing or damaged.

    A second or two the first time, then some tens of milliseconds (the file
    is checked by its SHA-256): for a background thread. ``shipped`` is the
    folder of the packed file.

    Raises NoGazetteer, or CannotWrite when the cache cannot be written.
    """
    wanted = _wanted(shipped)
    file = cache / f"towns-{wanted[:16]}.db"
    if not _is_sound(file, wanted):
        try:
            cache.mkdir(parents=True, exist_ok=True)
            _replace(file, shipped / "towns.db.xz", wanted)
        except OSError as error:
            raise CannotWrite(
                f"The list of towns could not be unpacked into {cache}: {error.strerror or error}. "
                "Make room there or allow writing, and try again."
            ) from error
        _drop_older(file)
    return file


def _wanted(shipped: Path) -> str:
    try:
        return (shipped / "towns.sha256").read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError) as error:
        raise _missing() from error


def _missing() -> NoGazetteer:
    return NoGazetteer(
        "The list of towns that comes with the program is missing or damaged. "
        "Install the program again; until then a place can be given by its coordinates."
    )


def _is_sound(file: Path, wanted: str) -> bool:
    try:
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest() == wanted
    except OSError:
        return False


def _replace(file: Path, packed: Path, wanted: str) -> None:
    # Whoever looks meanwhile sees the old file or the whole new one.
    handle, name = tempfile.mkstemp(prefix="towns-", suffix=".part", dir=file.parent)
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as target:
            _unpack_into(target, packed)
        if not _is_sound(part, wanted):
            raise _missing()
        _put(part, file, wanted)
    finally:
        part.unlink(missing_ok=True)


def _unpack_into(target: BinaryIO, packed: Path) -> None:
    try:
        source = packed.open("rb")
    except OSError as error:
        raise _missing() from error
    with source, lzma.open(source) as plain:
        while chunk := _read(plain):
            target.write(chunk)
    target.flush()
    os.fsync(target.fileno())


def _read(plain: lzma.LZMAFile) -> bytes:
    # A reading fault is the program's, a writing one the cache folder's.
    try:
        return plain.read(_CHUNK)
    except (OSError, EOFError, lzma.LZMAError) as error:
        raise _missing() from error


def _put(part: Path, file: Path, wanted: str) -> None:
    try:
        os.replace(part, file)
    except PermissionError:
        # Windows: another window of the program may have it open already.
        if not _is_sound(file, wanted):
            raise


def _drop_older(file: Path) -> None:
    # A part file of this hour may be another window's, still being written.
    newest = file.stat().st_mtime
    for other in file.parent.glob("towns-*"):
        with contextlib.suppress(OSError):
            left_over = other.suffix == ".part" and other.stat().st_mtime < newest - 3600
            if left_over or (other.suffix == ".db" and other != file):
                other.unlink()

"""What SQLite and the system say, as sentences for the person."""

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from keeper.errors import CannotWrite, KeeperError, NotAKeeper, Stopped, UnreadableText
from keeper.store.file.folder import BACKUPS, FILE, holds_something


@contextmanager
def told(folder: Path) -> Iterator[None]:
    """Turn what SQLite and the system say into a sentence."""
    try:
        yield
    except KeeperError:
        raise
    except sqlite3.DatabaseError as error:
        raise _sentence(folder, error) from error
    except UnicodeDecodeError as error:
        raise no_keeper(folder) from error
    except UnicodeEncodeError as error:
        raise UnreadableText("There is half a character in these words; they cannot be kept as they are.") from error
    except OSError as error:
        raise CannotWrite(f"The keeper in {folder} cannot be used: {reason(error)}.") from error


FULL = "its disk is full"
ONLY_READ = "its disk, folder or file is closed to writing"
DAMAGED = "its file is damaged"

_CANNOT_WRITE = {
    sqlite3.SQLITE_FULL: f"{FULL}. Free some space and try again",
    sqlite3.SQLITE_READONLY: ONLY_READ,
    sqlite3.SQLITE_BUSY: "another program is holding it. Close that, or wait a moment",
    sqlite3.SQLITE_IOERR: "the disk did not answer. Check that it is still there",
    sqlite3.SQLITE_CANTOPEN: "its file cannot be opened. Check that you may read and write there",
    sqlite3.SQLITE_PERM: "you may not read or write there",
}

_NO_WAY_IN = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM)


def with_advice(why: str) -> str:
    """Why nothing can be written, with what can be done about it."""
    if why == DAMAGED:
        return f"{DAMAGED}. What can be mended is told by: keeper mend"
    return _CANNOT_WRITE[sqlite3.SQLITE_FULL] if why == FULL else why


def _code(error: BaseException | None) -> int:
    """SQLite's own number for what is wrong, without its finer shades."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF


def _sentence(folder: Path, error: sqlite3.DatabaseError) -> Exception:
    code = _code(error)
    if code in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT):
        return no_keeper(folder)
    if code in _CANNOT_WRITE:
        done = "written" if code in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_READONLY) else "used"
        return CannotWrite(f"The keeper in {folder} cannot be {done}: {_CANNOT_WRITE[code]}.")
    if code == sqlite3.SQLITE_INTERRUPT:
        return Stopped()
    if isinstance(error, sqlite3.OperationalError):
        return NotAKeeper(f"The keeper in {folder} does not answer as it should ({error}). It may be damaged.")
    return error


def no_keeper(folder: Path) -> NotAKeeper:
    """The sentence on a file that is none of ours, or damaged."""
    return NotAKeeper(
        f"The file {folder / FILE} is not a keeper, or it is damaged. It was left as it is.{earlier_copies(folder)}"
    )


def earlier_copies(folder: Path) -> str:
    """Where earlier copies are, as a sentence of its own; "" where there are none."""
    copies = folder / BACKUPS
    return f" Earlier copies are in {copies}." if holds_something(copies) else ""


def reason(error: OSError) -> str:
    """What the system says, to stand within a sentence."""
    return (error.strerror or str(error)).lower()


def why_only_read(folder: Path, cause: BaseException | None) -> str:
    """Why a keeper that would not open as usual can still be read; "" when that is not known."""
    if isinstance(cause, OSError):
        return FULL if cause.errno == errno.ENOSPC else ""
    code = _code(cause)
    # A disk without any room does not always call itself full.
    if code == sqlite3.SQLITE_FULL or (code in (sqlite3.SQLITE_IOERR, *_NO_WAY_IN) and is_full(folder)):
        return FULL
    return ONLY_READ if code in _NO_WAY_IN else ""


def is_full(folder: Path) -> bool:
    """Whether nothing more can be written on the disk a folder lies on."""
    try:
        return hasattr(os, "statvfs") and os.statvfs(folder).f_bavail == 0
    except OSError:
        return False

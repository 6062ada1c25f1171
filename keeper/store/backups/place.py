"""The folder in which backups lie: its names, one writer at a time, and what goes wrong there as sentences.

    2026-11-14/      keeper.db, README.md, and a file of words for each year
    photos/          the photos of all of them, by their SHA-256, once
"""

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite, HeldElsewhere, KeeperError, NotAKeeper, Stopped
from keeper.store.backups.disk import CLOSED, FULL_DISK
from keeper.store.file import passing
from keeper.store.file.folder import FILE
from keeper.store.file.opening import Store
from keeper.store.file.sentences import FULL, ONLY_READ, is_full

COMING = ".coming-"
_BUSY = ".busy"

_CLOSED_TO_SQLITE = {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM}


@contextmanager
def alone(place: Path, keeper: Path) -> Iterator[None]:
    """While this lasts nobody else backs up there, and what others left unfinished is gone.

    ``keeper`` is the folder whose programs write there. Raises HeldElsewhere, OSError.
    """
    private.make_folder(place)
    handle = os.open(place / _BUSY, os.O_RDWR | os.O_CREAT, private.FILE)
    try:
        _lock(handle, place)
        clear(place, keeper)
        yield
    finally:
        os.close(handle)


def _lock(handle: int, place: Path) -> None:
    try:
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError as error:
        raise HeldElsewhere(f"Another program is backing up into {place} at this moment.") from error
    except (ImportError, OSError):
        # Where nothing can be locked, names that are given once and photos that are looked for anew must do.
        return


def clear(place: Path, keeper: Path) -> None:
    """Take away what programs that are gone left unfinished."""
    for left in (*place.glob(f"{COMING}*"), *(place / "photos").glob(f"{COMING}*")):
        if passing.left_behind(keeper, left, left.name.removeprefix(COMING).rpartition("-")[0]):
            shutil.rmtree(left, ignore_errors=True) if left.is_dir() else _gone(left)


def _gone(file: Path) -> None:
    with suppress(OSError):
        file.unlink()


@contextmanager
def held_by_nobody_else(folder: Path) -> Iterator[sqlite3.Connection]:
    """A connection to a keeper's file beside which there is no other, until the block is left.

    Raises CannotWrite when somebody has the keeper open, sqlite3.Error.
    """
    connection = sqlite3.connect(folder / FILE, timeout=1, isolation_level=None)
    try:
        # Said before anything is read, it is then held alone ("Write-Ahead Logging", Use of WAL Without Shared-Memory).
        connection.execute("PRAGMA locking_mode = EXCLUSIVE")
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except sqlite3.Error as error:
        connection.close()
        if _code(error) == sqlite3.SQLITE_BUSY:
            raise CannotWrite(f"The keeper in {folder} is open in another program, perhaps in its window. Close that first; nothing was changed.") from error
        raise
    try:
        yield connection
    finally:
        connection.close()


def coming_name(keeper: Path) -> str:
    """A passing name that tells whose it is. Raises OSError."""
    return f"{COMING}{passing.mark(keeper)}-{os.urandom(6).hex()}"


@contextmanager
def told_of(place: Path, what: str = "was not made", thing: str = "The backup") -> Iterator[None]:
    """Turn what SQLite and the system say of a folder of backups, or of something else that lies there, into a sentence."""
    try:
        yield
    except NotAKeeper as error:
        raise NotAKeeper(_sentence(thing, place, what, str(error).rstrip("."))) from error
    except KeeperError:
        raise
    except sqlite3.Error as error:
        if _code(error) == sqlite3.SQLITE_INTERRUPT:
            raise Stopped from error
        if _code(error) in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
            raise NotAKeeper(_sentence(thing, place, what, "a file is damaged")) from error
        raise CannotWrite(_sentence(thing, place, what, why(place, error))) from error
    except OSError as error:
        raise CannotWrite(_sentence(thing, place, what, why(place, error))) from error


def _sentence(thing: str, place: Path, what: str, because: str) -> str:
    return f"{thing} in {place} {what}: {because}."


def why(place: Path, error: OSError | sqlite3.Error) -> str:
    """What SQLite or the system says of work in a folder, as the end of a sentence."""
    return _by_the_system(place, error) if isinstance(error, OSError) else _by_sqlite(place, error)


def _by_the_system(place: Path, error: OSError) -> str:
    if error.errno in FULL_DISK:
        return f"{FULL}. Free some space there"
    if error.errno in CLOSED:
        return ONLY_READ
    return _by_absence(place) or (error.strerror or str(error)).lower()


def _by_sqlite(place: Path, error: sqlite3.Error) -> str:
    code = _code(error)
    # A disk without any room does not always call itself full.
    if code == sqlite3.SQLITE_FULL or (code in (sqlite3.SQLITE_IOERR, *_CLOSED_TO_SQLITE) and is_full(place)):
        return f"{FULL}. Free some space there"
    if code == sqlite3.SQLITE_BUSY:
        return "another program is holding the keeper. Close that, or wait a moment"
    return _by_absence(place) or (ONLY_READ if code in _CLOSED_TO_SQLITE else "the disk did not answer")


def _by_absence(place: Path) -> str:
    return "" if place.is_dir() else "its disk is no longer there"


def _code(error: sqlite3.Error) -> int:
    return getattr(error, "sqlite_errorcode", 0) & 0xFF


def name_for(store: Store) -> str:
    """What a keeper's folder of backups is called on a disk of others: two keepers may have theirs on one stick."""
    row = store.row("SELECT value FROM about WHERE name = 'id'")
    # The end of an id is chance; its beginning is the time.
    return f"keeper-backups-{row[0][-8:] if row else 'old'}"

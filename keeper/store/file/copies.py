"""A copy of a keeper's file by SQLite's online backup, proved sound before anybody can take it for one.

("SQLite Backup API"; a question that is open on the source holds it as it was
at that moment, so that what others write meanwhile begins nothing anew.)
"""

import os
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite, NotAKeeper, Stopped

PAGES_AT_ONCE = 512
"""How much is copied before it is asked whether to stop: 2 MB."""

PATIENCE = 5000
"""Milliseconds to wait for another that holds the file."""

_COUNTED = ("night", "line")
_ASTRAY = "PRAGMA foreign_key_check"


def copy_file(source: sqlite3.Connection, target: Path, stopped: Callable[[], bool] = lambda: False) -> None:
    """Copy the whole file as it is now to a new one, its owner's alone, forced to the disk.

    The copy is checked by SQLite and against the source. It needs no log
    beside it. Raises sqlite3.Error, OSError, NotAKeeper for a source that is
    damaged, Stopped; then half a copy is left for the caller to take away.
    """
    with _held(source):
        _copy_alone(source, target, stopped)
        _judge(_looked_at(target), source, counts(source))
    force(target)


@contextmanager
def copied_and_checked_meanwhile(source: sqlite3.Connection, target: Path, stopped: Callable[[], bool]) -> Iterator[None]:
    """The same, checked while the block lasts, on a thread of its own, and not forced to the disk.

    Raises what ``copy_file`` raises, for a damaged source when the block is
    left; what was read of the copy until then may be of such.
    """
    # A keeper opens without it.
    from concurrent.futures import ThreadPoolExecutor

    with _held(source):
        _copy_alone(source, target, stopped)
        held = counts(source)
    with ThreadPoolExecutor(1, "checks") as pool:
        looked = pool.submit(_looked_at, target)
        try:
            yield
        except (sqlite3.Error, NotAKeeper):
            # Why, is told better by what was found.
            _judge(looked.result(), source, held)
            raise
        _judge(looked.result(), source, held)


def _copy_alone(source: sqlite3.Connection, target: Path, stopped: Callable[[], bool]) -> None:
    private.make_file(target)
    private.close(target)
    _copy(source, target, stopped)
    # A file with a log, once opened, has another file beside it that must go
    # where it goes; this one stands alone.
    _ask(target, "PRAGMA journal_mode = DELETE")


@contextmanager
def _held(source: sqlite3.Connection) -> Iterator[None]:
    if source.in_transaction:
        yield
        return
    source.execute("BEGIN")
    try:
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        yield
    finally:
        if source.in_transaction:
            source.execute("ROLLBACK")


def _copy(source: sqlite3.Connection, target: Path, stopped: Callable[[], bool]) -> None:
    copy = sqlite3.connect(target, isolation_level=None)
    try:
        source.backup(copy, pages=PAGES_AT_ONCE, progress=patience(stopped), sleep=0.05)
    finally:
        copy.close()


def patience(stopped: Callable[[], bool], milliseconds: float = PATIENCE) -> Callable[[int, int, int], None]:
    """For ``sqlite3.Connection.backup``, which by itself waits for ever for a file that is held by another.

    What it returns raises Stopped when asked to stop, CannotWrite when it has waited so long.
    """
    begun = time.monotonic()

    def go_on(status: int, remaining: int, total: int) -> None:
        nonlocal begun
        if stopped():
            raise Stopped
        if status not in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            begun = time.monotonic()
        elif (time.monotonic() - begun) * 1000 > milliseconds:
            raise CannotWrite("Another program is writing in the keeper. Close that, or wait a moment; nothing was changed.")

    return go_on


def _ask(file: Path, question: str) -> None:
    asked = sqlite3.connect(file, isolation_level=None)
    try:
        asked.execute(question).fetchone()
    finally:
        asked.close()


@contextmanager
def connected_copy(file: Path) -> Iterator[sqlite3.Connection]:
    """A connection that reads a file nobody writes, and lays nothing beside it. Raises sqlite3.Error."""
    connection = sqlite3.connect(f"{file.absolute().as_uri()}?immutable=1", uri=True, isolation_level=None)
    try:
        yield connection
    finally:
        connection.close()


@contextmanager
def connected_to_check(file: Path) -> Iterator[sqlite3.Connection]:
    """A connection by which SQLite checks all there is to check. Raises sqlite3.Error.

    Through one that can only read it passes over the constraints of tables
    (seen with SQLite 3.40). Nothing is written; a file with a log, which would
    be laid beside it, is only read all the same.
    """
    with file.open("rb") as opened:
        # "Database File Format", 1.3: the file format write version.
        how = "immutable=1" if opened.read(20)[18:19] == b"\2" else "mode=rw"
    connection = sqlite3.connect(f"{file.absolute().as_uri()}?{how}", uri=True, isolation_level=None)
    try:
        yield connection
    finally:
        connection.close()


@dataclass(frozen=True, slots=True)
class _Looked:
    """What SQLite says of a copy, which of its rows belong to none, and how much it holds."""

    verdict: str
    astray: list[tuple]
    held: dict[str, int]


def _looked_at(file: Path) -> _Looked:
    with connected_to_check(file) as copy:
        return _Looked(copy.execute("PRAGMA integrity_check").fetchone()[0], copy.execute(_ASTRAY).fetchall(), counts(copy))


def _judge(looked: _Looked, source: sqlite3.Connection, held: dict[str, int]) -> None:
    if looked.verdict != "ok":
        raise NotAKeeper(f"the keeper is damaged. SQLite says: {looked.verdict}")
    # What the keeper itself has no copy can be without.
    if looked.astray and looked.astray != source.execute(_ASTRAY).fetchall():
        raise NotAKeeper("in the copy something is missing that something else belongs to")
    if held != looked.held:
        raise NotAKeeper("the copy does not hold as many nights and lines as the keeper")


def counts(connection: sqlite3.Connection) -> dict[str, int]:
    """How many nights and lines a file holds; a very old one may have no such tables."""
    there = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    return {name: connection.execute(f"SELECT count(*) FROM {name}").fetchone()[0] for name in _COUNTED if name in there}


def force(file: Path) -> None:
    """Force a file's bytes to the disk. Raises OSError."""
    with file.open("rb+") as written:
        os.fsync(written.fileno())


def force_folder(folder: Path) -> None:
    """Force the names in a folder to the disk. Raises OSError."""
    # Only POSIX can force a folder; elsewhere the file system sees to it.
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

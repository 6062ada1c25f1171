"""Opening a keeper's file: what it is, how it is set, bringing it up to date."""

import os
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING
from weakref import WeakSet

from keeper.errors import CannotWrite, KeeperError, NewerKeeper, NotAKeeper, Stopped, UnreadableText
from keeper.store.ids import new_id
from keeper.store.moments import utc_text

if TYPE_CHECKING:
    from sqlite_utils import Database

FILE = "keeper.db"
MARK = 0x4B656570
"""The file's application id: the letters "Keep"."""

SCHEMA = 5
"""The number of the last migration this version knows; the file's user_version."""

BUSY_MILLISECONDS = 5000


class Store:
    """An open keeper; belongs to the thread that opened it.

    ``folder`` holds ``keeper.db``, ``photos/`` and ``backups/``.
    """

    def __init__(self, folder: Path, connection: sqlite3.Connection) -> None:
        self.folder = folder
        self.connection = connection
        self._db: Database | None = None

    @property
    def db(self) -> "Database":
        """The same connection as a sqlite-utils database."""
        if self._db is None:
            # Only when first asked for: importing it costs as much as opening
            # a window, and writing a line does not need it.
            from sqlite_utils import Database

            self._db = Database(self.connection)
        return self._db

    def rows(self, sql: str, values: Sequence | dict = ()) -> list[tuple]:
        """All rows of a question.

        Raises KeeperError when the file cannot answer.
        """
        with _told(self.folder):
            return self.connection.execute(sql, values).fetchall()

    def row(self, sql: str, values: Sequence | dict = ()) -> tuple | None:
        """The first row of a question, or None."""
        with _told(self.folder):
            return self.connection.execute(sql, values).fetchone()

    def writing(self) -> AbstractContextManager[sqlite3.Connection]:
        """One transaction; on disk when the block is left, or nothing is.

        May be nested: the outermost commits. Raises CannotWrite when the disk
        is full, read-only or held by another.
        """
        return self._transaction("BEGIN IMMEDIATE")

    def beside(self) -> AbstractContextManager[sqlite3.Connection]:
        """The same for temporary tables alone: the file stays as it was at the beginning, and nobody waits."""
        return self._transaction("BEGIN")

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[sqlite3.Connection]:
        with _told(self.folder):
            if self.connection.in_transaction:
                yield self.connection
                return
            self.connection.execute(begin)
            try:
                yield self.connection
                self.connection.execute("COMMIT")
            except BaseException:
                if self.connection.in_transaction:
                    self.connection.execute("ROLLBACK")
                raise

    def version(self) -> int:
        """A number that changes when another connection has written."""
        return self.row("PRAGMA data_version")[0]

    def stop(self) -> None:
        """Break off a question under way; may be called from another thread."""
        self.connection.interrupt()

    def close(self) -> None:
        """Let go of the file."""
        self.connection.close()
        _let_go(self)

    def __enter__(self) -> "Store":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def is_keeper(folder: Path) -> bool:
    """Whether the folder has a keeper's file in it (of whatever soundness)."""
    with _told(folder):
        return (folder / FILE).is_file()


def open_store(folder: Path) -> Store:
    """Open the keeper in a folder; one of an older version is brought up to date.

    Raises NotAKeeper, NewerKeeper or CannotWrite with a sentence saying what
    is wrong and what can be done.
    """
    file = folder / FILE
    if not is_keeper(folder):
        raise NotAKeeper(f"There is no keeper in {folder}: it has no file {FILE}.")
    with _told(folder):
        return _checked(_opened(folder, file))


def create_store(folder: Path) -> Store:
    """Begin a new keeper in a folder, which may not yet exist.

    Raises CannotWrite when the folder cannot be made, NotAKeeper when a
    keeper is there already.
    """
    file = folder / FILE
    if is_keeper(folder):
        raise NotAKeeper(f"There is a keeper in {folder} already.")
    if file.exists():
        raise NotAKeeper(f"{file} is in the way: it is a folder, not a keeper. It was left as it is.")
    try:
        for part in ("photos", "backups"):
            (folder / part).mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CannotWrite(f"A keeper cannot be made in {folder}: {_reason(error)}.") from error
    return _begun(folder, file)


def _begun(folder: Path, file: Path) -> Store:
    # The new file gets its name only when it is whole, so a keeper half made
    # by a power cut is never taken for one.
    unfinished = folder / f"{FILE}.{os.getpid()}.new"
    with _told(folder):
        try:
            with Store(folder, _connected(unfinished)) as store:
                _fill(store)
            # Another program may have begun it in the meantime.
            if not file.exists():
                unfinished.replace(file)
        finally:
            for rest in folder.glob(f"{unfinished.name}*"):
                rest.unlink(missing_ok=True)
    return open_store(folder)


def _fill(store: Store) -> None:
    _upgrade(store)
    with store.writing() as connection:
        about = {"id": new_id(), "begun_at": utc_text(datetime.now(UTC))}
        connection.executemany("INSERT INTO about VALUES (?, ?)", about.items())
    store.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _connected(file: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(file, timeout=BUSY_MILLISECONDS / 1000, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


_opened_here: "WeakSet[Store]" = WeakSet()
_looking = Lock()


def _opened(folder: Path, file: Path) -> Store:
    with _looking:
        # The header is never read while this process has the file open: the
        # system drops all of a process's locks on a file when it closes any
        # one of its handles, and another program would then take the file for
        # its own.
        if not any(store.folder == folder for store in _opened_here):
            _refuse_strangers(folder, *_header(file))
        store = Store(folder, _connected(file))
        _opened_here.add(store)
    return store


def _let_go(store: Store) -> None:
    with _looking:
        _opened_here.discard(store)


def _header(file: Path) -> tuple[int, int]:
    """The file's mark and version, read without SQLite.

    SQLite would finish what another program left half done in it, and so
    change a file that is not ours. (Offsets: "Database File Format", 1.3.)
    """
    with file.open("rb") as opened:
        header = opened.read(100)
    if not header.startswith(b"SQLite format 3\0") or len(header) < 100:
        raise _no_keeper(file.parent)
    return int.from_bytes(header[68:72], "big"), int.from_bytes(header[60:64], "big")


def _refuse_strangers(folder: Path, mark: int, version: int) -> None:
    if mark != MARK:
        raise NotAKeeper(f"{folder / FILE} is a database, but not a keeper. It was left as it is.")
    if version > SCHEMA:
        raise NewerKeeper(
            f"The keeper in {folder} was written by a newer version of the program. "
            "Nothing was changed; please install the newer version to open it."
        )


def _checked(store: Store) -> Store:
    try:
        version = store.row("PRAGMA user_version")[0]
        _refuse_strangers(store.folder, MARK, version)
        if version < SCHEMA:
            _upgrade(store)
    except BaseException:
        store.close()
        raise
    return store


def _upgrade(store: Store) -> None:
    from keeper.store.migrations import migrations

    with store.writing() as connection:
        # Another program may have done it while this one waited.
        version, mark = (store.row(f"PRAGMA {name}")[0] for name in ("user_version", "application_id"))
        if version >= SCHEMA:
            return
        if mark == MARK:
            _back_up_beside(store, f"before-upgrade-from-{version}.db")
        migrations.apply(store.db)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute(f"PRAGMA user_version = {SCHEMA}")
    store.connection.execute("PRAGMA journal_mode = WAL")


def _back_up_beside(store: Store, name: str) -> None:
    # SQLite never ends a copy by the connection that holds the file for writing.
    with Store(store.folder, _connected(store.folder / FILE)) as beside:
        back_up(beside, store.folder / "backups" / name)


def back_up(store: Store, target: Path) -> None:
    """Copy the whole file as it is now, and prove the copy sound.

    Raises CannotWrite when there is no room for it, NotAKeeper when the copy
    does not pass SQLite's own check.
    """
    with _told(store.folder):
        target.parent.mkdir(parents=True, exist_ok=True)
        copy = sqlite3.connect(target)
        try:
            store.connection.backup(copy)
            verdict = copy.execute("PRAGMA integrity_check").fetchone()[0]
        finally:
            copy.close()
    if verdict != "ok":
        raise NotAKeeper(f"The keeper in {store.folder} is damaged; nothing was changed. SQLite says: {verdict}.")


@contextmanager
def _told(folder: Path) -> Iterator[None]:
    """Turn what SQLite and the system say into a sentence."""
    try:
        yield
    except KeeperError:
        raise
    except sqlite3.DatabaseError as error:
        raise _sentence(folder, error) from error
    except UnicodeDecodeError as error:
        raise _no_keeper(folder) from error
    except UnicodeEncodeError as error:
        raise UnreadableText("There is half a character in these words; they cannot be kept as they are.") from error
    except OSError as error:
        raise CannotWrite(f"The keeper in {folder} cannot be used: {_reason(error)}.") from error


_CANNOT_WRITE = {
    sqlite3.SQLITE_FULL: "the disk is full. Free some space; what you typed is still here",
    sqlite3.SQLITE_READONLY: "the disk or the folder can only be read, not written",
    sqlite3.SQLITE_BUSY: "another program is holding it. Close that, or wait a moment",
    sqlite3.SQLITE_IOERR: "the disk did not answer. Check that it is still there",
    sqlite3.SQLITE_CANTOPEN: "its file cannot be opened. Check that you may read and write there",
    sqlite3.SQLITE_PERM: "you may not read or write there",
}


def _sentence(folder: Path, error: sqlite3.DatabaseError) -> Exception:
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT) or "Could not decode" in str(error):
        return _no_keeper(folder)
    if code in _CANNOT_WRITE:
        return CannotWrite(f"The keeper in {folder} cannot be used: {_CANNOT_WRITE[code]}.")
    if code == sqlite3.SQLITE_INTERRUPT:
        return Stopped("Stopped.")
    if isinstance(error, sqlite3.OperationalError):
        return NotAKeeper(f"The keeper in {folder} does not answer as it should ({error}). It may be damaged.")
    return error


def _no_keeper(folder: Path) -> NotAKeeper:
    return NotAKeeper(
        f"The file {folder / FILE} is not a keeper, or it is damaged. It was left as it is; "
        f"earlier copies may be in {folder / 'backups'}."
    )


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()

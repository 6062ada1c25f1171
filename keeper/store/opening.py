"""Opening a keeper's file: what it is, how it is set, bringing it up to date."""

import errno
import os
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any
from weakref import WeakSet

from keeper import private
from keeper.errors import CannotWrite, KeeperError, NewerKeeper, NotAKeeper, Stopped, UnreadableText
from keeper.store.folder import BACKUPS, FILE, PHOTOS, close_to_others, holds_something, in_the_way, no_folder
from keeper.store.ids import new_id
from keeper.store.moments import utc_text

if TYPE_CHECKING:
    from sqlite_utils import Database

MARK = 0x4B656570
"""The file's application id: the letters "Keep"."""

SCHEMA = 2
"""How many migrations this version knows; the file's user_version."""

BUSY_MILLISECONDS = 5000

_TOLD_OF_DAMAGE = 5


class Store:
    """An open keeper; belongs to the thread that opened it.

    ``folder`` holds ``keeper.db``, ``photos/`` and ``backups/``. ``only_read``
    says why nothing can be written, as the end of a sentence; "" when it can.
    ``damage`` are sentences on what could be read in part only.
    """

    def __init__(self, folder: Path, connection: sqlite3.Connection, only_read: str = "") -> None:
        self.folder = folder
        self.connection = connection
        self.only_read = only_read
        self.damage: list[str] = []
        self._damage_told = 0
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
            return self._fetched(sql, values, sqlite3.Cursor.fetchall)

    def row(self, sql: str, values: Sequence | dict = ()) -> tuple | None:
        """The first row of a question, or None."""
        with _told(self.folder):
            return self._fetched(sql, values, sqlite3.Cursor.fetchone)

    def _fetched(self, sql: str, values: Sequence | dict, fetch: Callable) -> Any:
        try:
            return fetch(self.connection.execute(sql, values))
        except sqlite3.OperationalError as error:
            if "Could not decode" not in str(error):
                raise
        # Once more, with a mark in place of what is no text: the rest can be read.
        self.note_damage(f"The keeper in {self.folder} is damaged: a mark stands for letters that are no text any more.")
        self.connection.text_factory = lambda told: told.decode("utf-8", "replace")
        try:
            return fetch(self.connection.execute(sql, values))
        finally:
            self.connection.text_factory = str

    def made(self, make: Callable[[tuple], Any], rows: Iterable[tuple]) -> tuple:
        """What is made of each row. One that is damaged is left out, and noted: the others can be read."""
        made = []
        for row in rows:
            try:
                made.append(make(row))
            except NotAKeeper as damage:
                self.note_damage(f"{damage} What belongs to it was left out.")
        return tuple(made)

    def note_damage(self, sentence: str) -> None:
        """Remember, for the person, what could be read in part only; of a great deal of it only the first."""
        told = f"{sentence}{_earlier_copies(self.folder)}"
        if told not in self.damage and len(self.damage) < _TOLD_OF_DAMAGE:
            self.damage.append(told)

    def news_of_damage(self) -> list[str]:
        """Those of the sentences that were not asked for before."""
        news, self._damage_told = self.damage[self._damage_told :], len(self.damage)
        return news

    def writing(self) -> AbstractContextManager[sqlite3.Connection]:
        """One transaction; on disk when the block is left, or nothing is.

        May be nested: the outermost commits. Raises CannotWrite when the disk
        is full, read-only or held by another.
        """
        if self.only_read:
            raise CannotWrite(f"The keeper in {self.folder} cannot be written: {_with_advice(self.only_read)}.")
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
    """Whether the folder has a keeper's file in it (of whatever soundness).

    Raises NotAKeeper when something that is no file has its name.
    """
    file = folder / FILE
    with _told(folder):
        if file.is_file():
            return True
        if what := in_the_way(file):
            raise NotAKeeper(f"{file} is in the way: {what}. It was left as it is.")
    return False


def open_store(folder: Path) -> Store:
    """Open the keeper in a folder; one of an older version is brought up to date.

    One that can be read but not written is opened to read. Raises NotAKeeper,
    NewerKeeper or CannotWrite with a sentence saying what is wrong and what
    can be done.
    """
    file = folder / FILE
    if not is_keeper(folder):
        raise NotAKeeper(_none_there(folder))
    with _told(folder):
        if not _may_write(folder, file):
            return _to_read(folder, ONLY_READ)
        try:
            return _checked(_opened(folder, file))
        except (sqlite3.OperationalError, CannotWrite) as error:
            why = _why_only_read(folder, error.__cause__ if isinstance(error, CannotWrite) else error)
            if not why:
                raise
            return _to_read(folder, why)


def create_store(folder: Path) -> Store:
    """Begin a new keeper in a folder, which may not yet exist.

    Raises CannotWrite when the folder cannot be made, NotAKeeper when a
    keeper is there already.
    """
    if is_keeper(folder):
        raise NotAKeeper(f"There is a keeper in {folder} already.")
    with _told(folder):
        if what := no_folder(folder):
            raise CannotWrite(f"A keeper cannot be made in {folder}: {what}.")
    try:
        for part in (folder, folder / PHOTOS, folder / BACKUPS):
            private.make_folder(part)
    except OSError as error:
        raise CannotWrite(f"A keeper cannot be made in {folder}: {_reason(error)}.") from error
    return _begun(folder, folder / FILE)


def _none_there(folder: Path) -> str:
    with _told(folder):
        return f"There is no keeper in {folder}: {no_folder(folder) or f'it has no file {FILE}'}."


def _begun(folder: Path, file: Path) -> Store:
    from keeper.store.passing import end_mark, mark

    # The new file gets its name only when it is whole, so a keeper half made
    # by a power cut is never taken for one.
    with _told(folder):
        unfinished = folder / f"{FILE}.{mark(folder)}.new"
        try:
            private.make_file(unfinished)
            with Store(folder, _connected(unfinished)) as store:
                _fill(store)
            _give_name(unfinished, file)
        finally:
            for rest in folder.glob(f"{unfinished.name}*"):
                rest.unlink(missing_ok=True)
            end_mark(folder)
    return open_store(folder)


def _give_name(unfinished: Path, file: Path) -> None:
    """Let a whole file be the keeper's, unless another program has begun one meanwhile: that one stays."""
    try:
        # Not a renaming, which would take the place of what is there.
        os.link(unfinished, file)
    except FileExistsError:
        return
    except OSError:
        # Some disks (FAT) have no links. An empty file holds the name until the whole one is in its place.
        try:
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, private.FILE))
        except FileExistsError:
            return
        unfinished.replace(file)


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
            close_to_others(folder)
        store = Store(folder, _connected(file))
        _opened_here.add(store)
    return store


def _may_write(folder: Path, file: Path) -> bool:
    # Asked first: SQLite opens a file it may not write without a word.
    acting = {"effective_ids": True} if os.access in os.supports_effective_ids else {}
    return os.access(file, os.W_OK, **acting) and os.access(folder, os.W_OK | os.X_OK, **acting)


def _why_only_read(folder: Path, cause: BaseException | None) -> str:
    """Why a keeper that would not open as usual can still be read; "" when that is not known."""
    if isinstance(cause, OSError):
        return FULL if cause.errno == errno.ENOSPC else ""
    code = _code(cause)
    # A disk without any room does not always call itself full.
    if code == sqlite3.SQLITE_FULL or (code in (sqlite3.SQLITE_IOERR, *_NO_WAY_IN) and _is_full(folder)):
        return FULL
    return ONLY_READ if code in _NO_WAY_IN else ""


def _is_full(folder: Path) -> bool:
    try:
        return hasattr(os, "statvfs") and os.statvfs(folder).f_bavail == 0
    except OSError:
        return False


def _to_read(folder: Path, why: str) -> Store:
    from keeper.store.reading_only import connected_to_read

    with _looking:
        if not any(store.folder == folder for store in _opened_here):
            _refuse_strangers(folder, *_header(folder / FILE))
        store = Store(folder, connected_to_read(folder / FILE, SCHEMA), why)
        _opened_here.add(store)
    try:
        _refuse_strangers(folder, MARK, store.row("PRAGMA user_version")[0])
    except BaseException:
        store.close()
        raise
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
        back_up(beside, store.folder / BACKUPS / name)


def back_up(store: Store, target: Path) -> None:
    """Copy the whole file as it is now, and prove the copy sound.

    Raises CannotWrite when there is no room for it, NotAKeeper when the copy
    does not pass SQLite's own check.
    """
    with _told(store.folder):
        private.make_folder(target.parent)
        private.make_file(target)
        private.close(target)
        copy = sqlite3.connect(target)
        try:
            store.connection.backup(copy)
            verdict = copy.execute("PRAGMA integrity_check").fetchone()[0]
        except BaseException:
            # Half a copy must not be taken for one.
            target.unlink(missing_ok=True)
            raise
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


FULL = "its disk is full"
ONLY_READ = "its disk, folder or file is closed to writing"

_CANNOT_WRITE = {
    sqlite3.SQLITE_FULL: f"{FULL}. Free some space and try again",
    sqlite3.SQLITE_READONLY: ONLY_READ,
    sqlite3.SQLITE_BUSY: "another program is holding it. Close that, or wait a moment",
    sqlite3.SQLITE_IOERR: "the disk did not answer. Check that it is still there",
    sqlite3.SQLITE_CANTOPEN: "its file cannot be opened. Check that you may read and write there",
    sqlite3.SQLITE_PERM: "you may not read or write there",
}

_NO_WAY_IN = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM)


def _with_advice(why: str) -> str:
    return _CANNOT_WRITE[sqlite3.SQLITE_FULL] if why == FULL else why


def _code(error: BaseException | None) -> int:
    """SQLite's own number for what is wrong, without its finer shades."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF


def _sentence(folder: Path, error: sqlite3.DatabaseError) -> Exception:
    code = _code(error)
    if code in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT):
        return _no_keeper(folder)
    if code in _CANNOT_WRITE:
        done = "written" if code in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_READONLY) else "used"
        return CannotWrite(f"The keeper in {folder} cannot be {done}: {_CANNOT_WRITE[code]}.")
    if code == sqlite3.SQLITE_INTERRUPT:
        return Stopped("Stopped.")
    if isinstance(error, sqlite3.OperationalError):
        return NotAKeeper(f"The keeper in {folder} does not answer as it should ({error}). It may be damaged.")
    return error


def _no_keeper(folder: Path) -> NotAKeeper:
    return NotAKeeper(
        f"The file {folder / FILE} is not a keeper, or it is damaged. It was left as it is.{_earlier_copies(folder)}"
    )


def _earlier_copies(folder: Path) -> str:
    copies = folder / BACKUPS
    return f" Earlier copies are in {copies}." if holds_something(copies) else ""


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()

"""Opening a keeper's file: what it is, how it is set, bringing it up to date."""

import os
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path
from threading import Lock
from typing import IO, TYPE_CHECKING, Any
from weakref import WeakSet

from keeper import private
from keeper.errors import CannotWrite, NewerKeeper, NotAKeeper
from keeper.model import Act
from keeper.store.file.folder import BACKUPS, DAMAGE, FILE, close_to_others, in_the_way, no_folder
from keeper.store.file.sentences import DAMAGED, ONLY_READ, earlier_copies, no_keeper, told, why_only_read, with_advice

if TYPE_CHECKING:
    from sqlite_utils import Database

    from keeper.store.history.noting import OneAct

MARK = 0x4B656570
"""The file's application id: the letters "Keep"."""

SCHEMA = 26
"""The number of the last migration this version knows; the file's user_version."""

BUSY_MILLISECONDS = 5000

_TOLD_OF_DAMAGE = 5

_SHARED_FIRST, _SHARED_SIZE = 0x40000002, 510


class Store:
    """An open keeper; belongs to the thread that opened it.

    ``folder`` holds ``keeper.db``, ``photos/`` and ``backups/``. ``only_read``
    says why nothing can be written, as the end of a sentence; "" when it can.
    ``done_from`` is from where: the window, or the command line.
    ``damage`` are sentences on what could be read in part only.
    """

    def __init__(self, folder: Path, connection: sqlite3.Connection, only_read: str = "") -> None:
        self.folder = folder
        self.connection = connection
        self._only_read = only_read
        self._damage_noted = os.path.join(folder, DAMAGE)
        self.damage: list[str] = []
        self._damage_told = 0
        self._db: Database | None = None
        self._act: Act | None = None
        self.at_one_go: OneAct | None = None
        self.act_noted: int | None = None
        self.done_from = "window"

    @property
    def only_read(self) -> str:
        """Why nothing can be written, as the end of a sentence; "" when it can."""
        # Asked each time: any program may have found out.
        return self._only_read or (DAMAGED if os.path.exists(self._damage_noted) else "")

    @only_read.setter
    def only_read(self, why: str) -> None:
        self._only_read = why

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
        with told(self.folder):
            return self._fetched(sql, values, sqlite3.Cursor.fetchall)

    def row(self, sql: str, values: Sequence | dict = ()) -> tuple | None:
        """The first row of a question, or None."""
        with told(self.folder):
            return self._fetched(sql, values, sqlite3.Cursor.fetchone)

    def _fetched(self, sql: str, values: Sequence | dict, fetch: Callable) -> Any:
        try:
            return fetch(self.connection.execute(sql, values))
        except sqlite3.OperationalError as error:
            if "Could not decode" not in str(error):
                raise
        # Once more, with a mark in place of what is no text: the rest can be read.
        self.note_damage(f"The keeper in {self.folder} is damaged: a mark stands for letters that can no longer be read.")
        self.connection.text_factory = lambda text: text.decode("utf-8", "replace")
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
        whole = f"{sentence}{earlier_copies(self.folder)}"
        if whole not in self.damage and len(self.damage) < _TOLD_OF_DAMAGE:
            self.damage.append(whole)

    def news_of_damage(self) -> list[str]:
        """Those of the sentences that were not asked for before."""
        news, self._damage_told = self.damage[self._damage_told :], len(self.damage)
        return news

    def writing(self, act: Act | None = None) -> AbstractContextManager[sqlite3.Connection]:
        """One transaction; on disk when the block is left, or nothing is.

        May be nested: the outermost commits, and what it is told as holds for
        all. Raises CannotWrite when the disk
        is full, read-only or held by another.
        """
        # Asked once for all that is done in it: whether it may be written.
        if self.connection.in_transaction:
            self.tell(act)
            return nullcontext(self.connection)
        if self.only_read:
            raise CannotWrite(f"The keeper in {self.folder} cannot be written: {with_advice(self.only_read)}.")
        return self._noted(act)

    def tell(self, act: Act | None) -> None:
        """Say what it is that is being written, unless that was said."""
        self._act = self._act or act

    def going_on(self, act: Act | None, number: int | None = None) -> "AbstractContextManager[OneAct]":
        """Let all that is written within the block be one act, in however many transactions; of ``number``, part of that one."""
        from keeper.store.history.noting import going_on

        return going_on(self, act, number)

    def unnoted(self) -> AbstractContextManager[sqlite3.Connection]:
        """The same as ``writing`` for what is no act: another shape of the file, or an act turned."""
        if self.only_read:
            raise CannotWrite(f"The keeper in {self.folder} cannot be written: {with_advice(self.only_read)}.")
        return self._transaction("BEGIN IMMEDIATE")

    @contextmanager
    def _noted(self, act: Act | None) -> Iterator[sqlite3.Connection]:
        # Only now: nothing is written before one can type.
        from keeper.store.history.noting import last_change, note

        with self._transaction("BEGIN IMMEDIATE") as connection:
            self._act, before = act, last_change(connection)
            yield connection
            note(self, before, self._act)

    def beside(self) -> AbstractContextManager[sqlite3.Connection]:
        """The same for temporary tables alone: the file stays as it was at the beginning, and nobody waits."""
        return self._transaction("BEGIN")

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[sqlite3.Connection]:
        with told(self.folder):
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
    with told(folder):
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
    with told(folder):
        if not _may_write(folder, file):
            return _to_read(folder, ONLY_READ)
        if os.path.exists(folder / DAMAGE) or _log_is_broken(folder, file):
            return _to_read(folder, DAMAGED)
        try:
            return _checked(_opened(folder, file))
        except (sqlite3.OperationalError, CannotWrite) as error:
            why = why_only_read(folder, error.__cause__ if isinstance(error, CannotWrite) else error)
            if not why:
                raise
            return _to_read(folder, why)


def _none_there(folder: Path) -> str:
    with told(folder):
        return f"There is no keeper in {folder}: {no_folder(folder) or f'it has no file {FILE}'}."


def connected(file: Path) -> sqlite3.Connection:
    """A connection to a keeper's file, set as every keeper's is."""
    connection = sqlite3.connect(file, timeout=BUSY_MILLISECONDS / 1000, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    # What was taken out is not to be found in the file's free pages.
    connection.execute("PRAGMA secure_delete = ON")
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
        store = Store(folder, connected(file))
        _opened_here.add(store)
    return store


def _log_is_broken(folder: Path, file: Path) -> bool:
    """Whether opening the file would lose what its log holds; then it is noted as damaged."""
    log = file.with_name(f"{file.name}-wal")
    # Only a program that was stopped leaves one; of one that runs it is in use, and was looked at.
    if any(store.folder == folder for store in _opened_here) or not os.path.exists(log) or in_use(file):
        return False
    from keeper.store.file import known_damage
    from keeper.store.file.log import PAGE_SIZE, is_cut_off

    if not is_cut_off(log.read_bytes(), PAGE_SIZE):
        return False
    known_damage.note(folder, "Its log is broken: SQLite would leave out what was kept last.")
    return True


def in_use(file: Path) -> bool:
    """Whether another program has a keeper's file open; False where the system does not tell. Never while this one has."""
    with file.open("rb+") as asked:
        return not taken_for_oneself(asked)


def taken_for_oneself(opened: IO[bytes]) -> bool:
    """Let no other program read a keeper's file until it is closed; False where one does already."""
    try:
        import fcntl

        # The bytes by which SQLite tells others that it reads ("File Locking And Concurrency").
        fcntl.lockf(opened, fcntl.LOCK_EX | fcntl.LOCK_NB, _SHARED_SIZE, _SHARED_FIRST)
    except ImportError:
        return True
    except OSError:
        return False
    return True


def _may_write(folder: Path, file: Path) -> bool:
    # Asked first: SQLite opens a file it may not write without a word.
    acting = {"effective_ids": True} if os.access in os.supports_effective_ids else {}
    return os.access(file, os.W_OK, **acting) and os.access(folder, os.W_OK | os.X_OK, **acting)


def _to_read(folder: Path, why: str) -> Store:
    from keeper.store.file.reading_only import connected_to_read

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
        raise no_keeper(file.parent)
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
            upgrade(store)
    except BaseException:
        store.close()
        raise
    return store


def upgrade(store: Store) -> None:
    """Bring a keeper to today's shape, from an older one after a verified copy, or from nothing."""
    from keeper.store.file.migrations import migrations
    from keeper.store.history.shapes import watch
    from keeper.store.history.triggers import lift

    with _references_unchecked(store.connection), store.unnoted() as connection:
        # Another program may have done it while this one waited.
        version, mark = (store.row(f"PRAGMA {name}")[0] for name in ("user_version", "application_id"))
        if version >= SCHEMA:
            return
        if mark == MARK:
            _back_up_beside(store, f"before-upgrade-from-{version}.db")
        lift(connection)
        migrations.apply(store.db)
        watch(connection)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute(f"PRAGMA user_version = {SCHEMA}")
    store.connection.execute("PRAGMA journal_mode = WAL")


@contextmanager
def _references_unchecked(connection: sqlite3.Connection) -> Iterator[None]:
    # A table that is made anew would take along what refers to it. Only possible outside of a transaction.
    connection.execute("PRAGMA foreign_keys = OFF")
    try:
        yield
    finally:
        connection.execute("PRAGMA foreign_keys = ON")


def _back_up_beside(store: Store, name: str) -> None:
    # SQLite never ends a copy by the connection that holds the file for writing.
    with Store(store.folder, connected(store.folder / FILE)) as beside:
        back_up(beside, store.folder / BACKUPS / name)


def back_up(store: Store, target: Path) -> None:
    """Copy the whole file as it is now, and prove the copy sound before it has its name.

    Raises CannotWrite when there is no room for it, NotAKeeper when the copy
    does not pass SQLite's own check.
    """
    from keeper.store.file import passing
    from keeper.store.file.copies import copy_file, force_folder

    with told(store.folder):
        private.make_folder(target.parent)
        coming = target.with_name(f".coming-{passing.mark(store.folder)}-{os.urandom(6).hex()}")
        try:
            copy_file(store.connection, coming)
            coming.replace(target)
            force_folder(target.parent)
        except NotAKeeper as error:
            raise NotAKeeper(f"The keeper in {store.folder} cannot be copied; nothing was changed: {error}.") from error
        finally:
            # Half a copy must not be taken for one.
            coming.unlink(missing_ok=True)

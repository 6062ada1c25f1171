"""A new keeper made of what was found of a broken one: a whole file, or none."""

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from keeper import private
from keeper.errors import NotAKeeper
from keeper.store.damage.carving import Carved
from keeper.store.damage.filling import fill_line_tables, fill_table, tie_up
from keeper.store.damage.selecting import NOT_OURS, Read
from keeper.store.file.opening import MARK, SCHEMA

_MADE_OF_OTHERS = ("line", "wording")
"""Tables that are filled by what was carved."""


@dataclass(frozen=True)
class Kept:
    """What of a table is in the new keeper; ``lost`` are rows that no longer fit."""

    table: str
    rows: int
    lost: int


def begin(target: Path, backup: Path | None) -> None:
    """Begin a new file: a copy of a backup in today's shape, or an empty keeper. Raises sqlite3.Error, OSError."""
    from sqlite_utils import Database

    from keeper.store.file.migrations import migrations
    from keeper.store.history.shapes import watch
    from keeper.store.history.triggers import lift

    target.unlink(missing_ok=True)
    private.make_file(target)
    with closing(sqlite3.connect(target, isolation_level=None)) as connection:
        if backup:
            with closing(sqlite3.connect(f"{backup.absolute().as_uri()}?immutable=1", uri=True)) as copied:
                copied.backup(connection)
            connection.execute("PRAGMA journal_mode = DELETE").fetchall()
        connection.execute("BEGIN IMMEDIATE")
        lift(connection)
        migrations.apply(Database(connection))
        watch(connection)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute(f"PRAGMA user_version = {SCHEMA}")
        connection.execute("COMMIT")


_HISTORY = ("act_more", "act", "change")
_OF_ITS_SHAPE = ("watched", "undoing")
"""Tables that say what is noted of which: those of the new file."""


def _is_whole_history(connection: sqlite3.Connection, tables: Iterable[Read]) -> bool:
    read = {table.table: table for table in tables}
    if not all(name in read and read[name].whole for name in (*_HISTORY, "watched")):
        return False
    names = ", ".join(read["watched"].columns)
    return set(connection.execute(f"SELECT {names} FROM watched")) == {tuple(row) for row in read["watched"].rows}


def columns_of(target: Path) -> dict[str, tuple[str, ...]]:
    """The tables of a new file, with their columns."""
    with closing(sqlite3.connect(target)) as connection:
        names = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        ours = [name for name in names if not name.startswith(NOT_OURS)]
        return {name: tuple(row[1] for row in connection.execute(f"PRAGMA table_info({name})")) for name in ours}


def fill(
    target: Path, lines: Iterable[Carved], wordings: Iterable[Carved], tables: Iterable[Read], numbers: dict[str, int]
) -> tuple[Kept, ...]:
    """Fill a file that was begun, check it, and force it to the disk.

    Raises NotAKeeper when SQLite does not find it sound: then it must not be used.
    """
    with closing(sqlite3.connect(target, isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        connection.execute("BEGIN IMMEDIATE")
        # What triggers would do was done when the rows were first written.
        triggers = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            connection.execute(f"DROP TRIGGER {name}")
        tables = list(tables)
        kept = [fill_table(connection, table) for table in tables if table.table not in (*_MADE_OF_OTHERS, *_OF_ITS_SHAPE)]
        if not _is_whole_history(connection, tables):
            # What undoes an act in part would undo something else.
            for name in _HISTORY:
                connection.execute(f"DELETE FROM {name}")
        kept += fill_line_tables(connection, lines, wordings, numbers)
        untied = tie_up(connection)
        for _, sql in triggers:
            connection.execute(sql)
        connection.execute("INSERT INTO line_words (line_words) VALUES ('rebuild')")
        connection.execute("COMMIT")
        _prove(connection)
    # The index of words holds the file as long as its connection is open.
    with closing(sqlite3.connect(target, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL").fetchall()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
    return tuple(Kept(name, rows, lost + untied.get(name, 0)) for name, rows, lost in kept)


def _prove(connection: sqlite3.Connection) -> None:
    said = connection.execute("PRAGMA integrity_check").fetchone()[0]
    untied = connection.execute("PRAGMA foreign_key_check").fetchone()
    # Raises when the index of words does not agree with the lines.
    connection.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
    if said != "ok" or untied:
        raise NotAKeeper(f"The new keeper is not sound, and was not used: {said if said != 'ok' else untied[0]}.")


def lines_in(target: Path) -> list[tuple]:
    """The lines of a file that was begun from a backup: number and the columns that a sum is of."""
    columns = "number, id, night, kind, text, written_at, offset_minutes, zone, sum"
    with closing(sqlite3.connect(target)) as connection:
        return connection.execute(f"SELECT {columns} FROM line").fetchall()


def is_whole(backup: Path) -> bool:
    """Whether a file is a whole keeper of no later version than this; reads all of it."""
    try:
        with closing(sqlite3.connect(f"{backup.absolute().as_uri()}?immutable=1", uri=True)) as connection:
            mark, version = (connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("application_id", "user_version"))
            return mark == MARK and 1 <= version <= SCHEMA and connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    except sqlite3.Error:
        return False



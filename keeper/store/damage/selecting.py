"""What SQLite can still read of a broken file: a copy of it, with its log in it and its header mended, asked table by table."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from keeper.store.damage.pages import MAGIC, Pages
from keeper.store.file.opening import MARK, SCHEMA

NOT_OURS = ("sqlite_", "line_words", "_sqlite_migrations")
"""How the names of tables begin that SQLite and its extensions keep for themselves."""


@dataclass(frozen=True)
class Read:
    """What was read of a table; ``whole`` says that nothing of it is missing."""

    table: str
    columns: tuple[str, ...]
    rows: tuple[tuple, ...] = field(repr=False)
    whole: bool


def lay_out(pages: Pages, target: Path) -> None:
    """Write the pages as a file that SQLite opens, if it opens any of it. Raises OSError."""
    last = max(pages.pages, default=0)
    with target.open("wb") as file:
        for number in range(1, last + 1):
            page = pages.pages.get(number, bytes(pages.size))
            file.write(_mended_header(page, pages, last) if number == 1 else page)


def _mended_header(page: bytes, pages: Pages, count: int) -> bytes:
    """The first page with a header that says what is so ("Database File Format", 1.3)."""
    head = bytearray(page)
    version = int.from_bytes(head[60:64], "big")
    head[0:16] = MAGIC
    head[16:18] = (1 if pages.size == 65536 else pages.size).to_bytes(2, "big")
    # Without a log: what it had is in the pages. The fractions are always these.
    head[18:24] = bytes((1, 1, pages.size - pages.usable, 64, 32, 32))
    head[28:32] = count.to_bytes(4, "big")
    head[32:40] = bytes(8)
    head[44:48] = (4).to_bytes(4, "big")
    head[52:60] = bytes(4) + (1).to_bytes(4, "big")
    head[60:64] = (version if version <= SCHEMA else 0).to_bytes(4, "big")
    head[68:72] = MARK.to_bytes(4, "big")
    # The size just told counts only when these two agree.
    head[92:96] = head[24:28]
    return bytes(head)


@contextmanager
def opened(file: Path) -> Iterator[sqlite3.Connection]:
    """A connection to such a copy, forgiving of what is wrong with it."""
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        connection.text_factory = lambda text: text.decode("utf-8", "replace")
        with suppress(sqlite3.DatabaseError):
            connection.execute("PRAGMA cell_size_check = ON")
            # Entries of the schema that make no sense are then passed over.
            connection.execute("PRAGMA writable_schema = ON")
        yield connection


def tables_of(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The names of the tables that can be asked."""
    try:
        names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    except sqlite3.DatabaseError:
        return ()
    return tuple(name for (name,) in names if isinstance(name, str) and not name.startswith(NOT_OURS))


def read(connection: sqlite3.Connection, table: str, columns: tuple[str, ...]) -> Read:
    """The rows of a table that can be selected, from its beginning and from its end."""
    try:
        there = {row[1] for row in connection.execute(f"PRAGMA table_info({_quoted(table)})")}
    except sqlite3.DatabaseError:
        return Read(table, columns, (), False)
    known = tuple(column for column in columns if column in there)
    if not known:
        return Read(table, columns, (), False)
    rows, ended = _scanned(connection, table, known, "")
    if not ended:
        more, _ = _scanned(connection, table, known, _backwards(connection, table))
        rows = list(dict.fromkeys([*rows, *more]))
    return Read(table, known, tuple(rows), ended and _is_sound(connection, table))


def _scanned(connection: sqlite3.Connection, table: str, columns: tuple[str, ...], order: str) -> tuple[list[tuple], bool]:
    rows: list[tuple] = []
    try:
        names = ", ".join(map(_quoted, columns))
        for row in connection.execute(f"SELECT {names} FROM {_quoted(table)} NOT INDEXED {order}"):
            rows.append(row)
    except (sqlite3.Error, OverflowError):
        return rows, False
    return rows, True


def _backwards(connection: sqlite3.Connection, table: str) -> str:
    keys = [row[1] for row in connection.execute(f"PRAGMA table_info({_quoted(table)})") if row[5]]
    try:
        connection.execute(f"SELECT rowid FROM {_quoted(table)} LIMIT 0")
        return "ORDER BY rowid DESC"
    except sqlite3.DatabaseError:
        return f"ORDER BY {', '.join(f'{_quoted(key)} DESC' for key in keys)}" if keys else ""


def _is_sound(connection: sqlite3.Connection, table: str) -> bool:
    try:
        return connection.execute(f"PRAGMA integrity_check({_quoted(table)})").fetchone() == ("ok",)
    except sqlite3.DatabaseError:
        return False


def _quoted(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'

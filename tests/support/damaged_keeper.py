"""Damages a keeper as no program would: values that no column may have, in rows that SQLite itself finds sound."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from keeper.store.file.opening import FILE

VALUES = (None, "Thursday", "0001-01-01", "9999-12-31T23:59:59Z", b"\xff\xe0", "\x00", -1e308, 2**62, "", float("inf"))
"""What stands in place of what should: nothing, no date, dates beyond all sums, bytes that are no text, numbers too large."""


def columns(folder: Path) -> Iterator[tuple[str, str]]:
    """Every table of a keeper that has rows, with each of its columns."""
    connection = sqlite3.connect(folder / FILE)
    tables = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND sql LIKE '%STRICT%'").fetchall()
    for (table,) in tables:
        if connection.execute(f"SELECT 1 FROM {table} LIMIT 1").fetchone():
            for row in connection.execute(f"PRAGMA table_info({table})"):
                yield table, row[1]
    connection.close()


def damage(folder: Path, table: str, column: str, value: object) -> bool:
    """Put a value where it may not be, in every row; False where even so it cannot be put."""
    connection = sqlite3.connect(folder / FILE, isolation_level=None)
    connection.execute("PRAGMA synchronous = OFF")
    strict = connection.execute("SELECT sql FROM sqlite_master WHERE type = 'table' AND name = ?", (table,)).fetchone()[0]
    # For as long as this takes the table is told to be of the loose kind.
    _spell(connection, table, strict.replace(") STRICT, WITHOUT ROWID", ") WITHOUT ROWID").replace(") STRICT", ")").replace("NOT NULL", ""))
    connection.execute("PRAGMA ignore_check_constraints = ON")
    marks = "CAST(? AS TEXT)" if isinstance(value, bytes) else "?"
    try:
        return connection.execute(f"UPDATE OR IGNORE {table} SET {column} = {marks}", (value,)).rowcount > 0
    except sqlite3.DatabaseError:
        return False
    finally:
        _spell(connection, table, strict)
        connection.close()


def _spell(connection: sqlite3.Connection, table: str, anew: str) -> None:
    """Let the file spell a table otherwise, and read it as it is spelt then."""
    connection.execute("PRAGMA writable_schema = ON")
    connection.execute("UPDATE sqlite_master SET sql = ? WHERE type = 'table' AND name = ?", (anew, table))
    connection.execute("PRAGMA writable_schema = RESET")

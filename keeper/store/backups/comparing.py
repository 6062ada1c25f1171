"""Whether two files hold the same, what is reckoned from the rest and how the window stood left aside."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from keeper.store.file.copies import connected_copy

_LEFT_ASIDE = (
    "sqlite_", "_", "line_words", "theme_line", "theme_second", "theme_base", "theme_model", "theme_asked", "theme_part",
    "pattern_found", "window_state", "brought_up",
)  # fmt: skip
"""How the names of tables begin that can be made anew, or tell how the window stood."""


def same(one: sqlite3.Connection, backup: Path) -> bool:
    """Whether a keeper holds what a backup of it holds; one of another version, or one that cannot be read, is never the same."""
    try:
        with connected_copy(backup) as other:
            shapes = [dict(_shape(file)) for file in (one, other)]
            return shapes[0] == shapes[1] and all(_same_rows(one, other, table) for table in shapes[0])
    except sqlite3.DatabaseError:
        return False


def _shape(file: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    for name, shape in file.execute("SELECT name, sql FROM sqlite_master WHERE type = 'table' ORDER BY name"):
        if not name.startswith(_LEFT_ASIDE):
            yield name, shape


def _same_rows(one: sqlite3.Connection, other: sqlite3.Connection, table: str) -> bool:
    rows = [iter(file.execute(f'SELECT * FROM "{table}"')) for file in (one, other)]
    end = object()
    while True:
        pair = [next(those, end) for those in rows]
        if pair[0] != pair[1]:
            return False
        if pair[0] is end:
            return True

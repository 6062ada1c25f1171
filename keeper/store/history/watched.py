"""Which tables hold what a person did: all, but for those listed here."""

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite3 import Connection

NOT_WATCHED = {
    "about": "the keeper's own id",
    "draft": "words being typed",
    "draft_of": "words being typed",
    "theme": "found again, the person's decisions laid over it",
    "theme_line": "found again",
    "theme_second": "found again",
    "theme_base": "found again",
    "theme_model": "found again",
    "theme_asked": "found again",
    "theme_part": "found again",
    "theme_part_line": "found again",
    "pattern_found": "found again",
    "pattern_found_column": "found again",
    "pattern_found_told": "found again",
    "brought_up": "what was seen, and nothing done",
    "window_state": "where the window was left",
    "file_shape": "how a file was read last",
    "act": "the history itself",
    "act_more": "the history itself",
    "change": "the history itself",
    "undoing": "the history itself",
    "watched": "the history itself",
    "let_go": "the history itself",
}
"""The tables whose changes are no acts, and why."""

NOT_WATCHED_COLUMNS = {"year_page": ("at",)}
"""Columns of watched tables that are changed by no act: a bookmark."""

TOLD_WITH = {"line": ("id", "night", "kind", "written_at", "offset_minutes", "zone")}
"""Columns that are noted with whatever else of a row was changed: words are known by them when all else is let go."""


@dataclass(frozen=True, slots=True)
class Watched:
    """A table whose changes are noted: its columns in order, those of its key, and the types declared."""

    name: str
    columns: tuple[str, ...]
    key: tuple[str, ...]
    types: tuple[str, ...]

    @property
    def compared(self) -> tuple[str, ...]:
        """The columns whose change is an act."""
        return tuple(one for one in self.columns if one not in NOT_WATCHED_COLUMNS.get(self.name, ()))


def watched(connection: "Connection") -> tuple[Watched, ...]:
    """The tables that are watched, by name."""
    # Neither the index of words nor its own tables are of type "table"; what begins with "_" is the migrations' own.
    rows = connection.execute(
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' ORDER BY name"
    ).fetchall()
    names = [name for (name,) in rows if name not in NOT_WATCHED and not name.startswith(("sqlite_", "_"))]
    return tuple(_described(connection, name) for name in names)


def _described(connection: "Connection", name: str) -> Watched:
    rows = connection.execute(f'SELECT name, upper(type), pk FROM pragma_table_info("{name}") ORDER BY cid').fetchall()
    key = sorted((place, column) for column, _, place in rows if place)
    return Watched(name, tuple(row[0] for row in rows), tuple(one for _, one in key), tuple(row[1] for row in rows))


def as_noted(connection: "Connection") -> dict[str, tuple[list[str], list[str]]]:
    """The columns and the key of each table as its changes were noted until now, by name."""
    rows = connection.execute("SELECT name, columns, key FROM watched").fetchall()
    return {name: (json.loads(columns), json.loads(key)) for name, columns, key in rows}

"""What was done since an act and leans on it: changed the same, or points at what it made."""

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from sqlite3 import Connection

HOMES = frozenset(("night", "month_page", "year_page", "place_page"))
"""Tables whose rows are there for others: what was done first of a night made it, and any part may be taken back by itself."""

_BEFORE = "SELECT number FROM act WHERE first <= ? ORDER BY number DESC LIMIT 1"
_SINCE = (
    # Of what was taken back and done again an even number of times nothing is left.
    "SELECT number, told FROM act WHERE (number > :before OR latest > :first) AND number <> :act AND "
    "(SELECT count(DISTINCT turn) FROM act_part WHERE act = number AND act_part.begins > :first) % 2 = 1 "
    "ORDER BY coalesce(latest, first) DESC"
)
_FIRST = "SELECT min(begins) FROM act_part JOIN act ON number = act AND turn = turns WHERE act = ?"
_ROWS = (
    "SELECT what, key, kind, old FROM act_part JOIN act ON number = act AND turn = turns "
    "JOIN change ON seq BETWEEN begins AND ends WHERE act = ?"
)
_WHO = (
    "SELECT told FROM change JOIN act_part ON seq BETWEEN begins AND ends JOIN act ON number = act AND turn = turns "
    "WHERE what = ? AND key = ? AND turns % 2 = 0 ORDER BY seq DESC LIMIT 1"
)

Row = tuple[str, str]
"""A table, and a key in it as it is noted."""


@dataclass
class Since:
    """What was done since: ``hinders`` is the last that leans on the act, "" for nothing.

    ``touched`` are the homes that the act made, or would make again, and that
    others have moved into, with the columns that are theirs.
    """

    hinders: str = ""
    touched: dict[Row, set[str]] = field(default_factory=dict)


class _Change(NamedTuple):
    kind: str
    columns: frozenset[str]


def since(connection: "Connection", number: int) -> Since:
    """What was done since an act, as far as it concerns its rows."""
    found, its = Since(), _changes(connection, number)
    (first,) = connection.execute(_FIRST, (number,)).fetchone()
    (before,) = connection.execute(_BEFORE, (first,)).fetchone() or (0,)
    for later, told in connection.execute(_SINCE, {"first": first, "before": before, "act": number}).fetchall():
        for row, changes in _changes(connection, later).items():
            if row not in its:
                continue
            if _is_home(row, its[row]) and all(one.kind != "d" for one in changes):
                found.touched.setdefault(row, set()).update(*(one.columns for one in changes))
            elif not found.hinders and any(_meet(one, other) for one in its[row] for other in changes):
                found.hinders = told
    return found


def _changes(connection: "Connection", number: int) -> dict[Row, list[_Change]]:
    found: dict[Row, list[_Change]] = {}
    for what, key, kind, old in connection.execute(_ROWS, (number,)):
        columns = frozenset(json.loads(old)) if kind == "u" else frozenset()
        found.setdefault((what, key), []).append(_Change(kind, columns))
    return found


def _is_home(row: Row, changes: list[_Change]) -> bool:
    return row[0] in HOMES and any(one.kind in ("i", "d") for one in changes)


def _meet(one: _Change, other: _Change) -> bool:
    return not one.kind == other.kind == "u" or bool(one.columns & other.columns)


class _Reference(NamedTuple):
    """A column that points at the key of another table."""

    table: str
    column: str
    key: str


class Pointing:
    """What points at rows, within one transaction: which columns may is asked once, not for each of thousands of rows."""

    def __init__(self, connection: "Connection") -> None:
        self._connection = connection
        self._columns: dict[str, list[_Reference]] = {}

    def is_at(self, what: str, key: list) -> bool:
        """Whether a row of another table points at this one."""
        return next(self._rows(what, key), None) is not None

    def told(self, what: str, key: list) -> str | None:
        """What was done and points at a row, in its words; None when nothing does."""
        for table, row in self._rows(what, key):
            who = self._connection.execute(_WHO, (table, row)).fetchone()
            return who[0] if who else f"something of \u201c{table}\u201d"
        return None

    def _rows(self, what: str, key: list) -> Iterator[Row]:
        if what not in self._columns:
            self._columns[what] = _references(self._connection, what)
        for table, column, its_key in self._columns[what]:
            sql = f"SELECT json_array({its_key}) FROM {table} WHERE {column} = ? LIMIT 1"
            if row := self._connection.execute(sql, key[:1]).fetchone():
                yield table, row[0]


def _references(connection: "Connection", to: str) -> list[_Reference]:
    """The columns that point at a table, but for those whose rows go with what they point at."""
    rows = connection.execute(
        'SELECT t.name, f."from", (SELECT group_concat(name) FROM (SELECT name FROM pragma_table_info(t.name) WHERE pk ORDER BY pk)) '
        "FROM pragma_table_list AS t JOIN pragma_foreign_key_list(t.name) AS f "
        "WHERE t.schema = 'main' AND t.type = 'table' AND f.\"table\" = ? AND f.on_delete <> 'CASCADE'",
        (to,),
    ).fetchall()
    return [_Reference(*row) for row in rows]

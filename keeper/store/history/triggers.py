"""The triggers that note what undoes each change.

The technique is SQLite's own ("Automatic Undo/Redo Using SQLite"). AFTER, not
BEFORE: rows that go with another one (ON DELETE CASCADE) are noted before it.
"""

import json
from collections.abc import Iterable
from typing import TYPE_CHECKING

from keeper.store.history.watched import TOLD_WITH, Watched, watched

if TYPE_CHECKING:
    from sqlite3 import Connection

_BEGINNING = "history_"


def lift(connection: "Connection") -> None:
    """Take all of them away, while the tables are given another shape."""
    rows = connection.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND substr(name, 1, ?) = ?",
        (len(_BEGINNING), _BEGINNING),
    ).fetchall()
    for (name,) in rows:
        connection.execute(f'DROP TRIGGER "{name}"')


def lay(connection: "Connection") -> None:
    """Make them for the tables as they are now, and remember how those are noted."""
    lift(connection)
    connection.execute("DELETE FROM watched")
    for table in watched(connection):
        for statement in _triggers(table):
            connection.execute(statement)
        connection.execute(
            "INSERT INTO watched (name, columns, key) VALUES (?, ?, ?)",
            (table.name, json.dumps(table.columns), json.dumps(table.key)),
        )


def _triggers(table: Watched) -> Iterable[str]:
    note = "INSERT INTO change (what, kind, key, old) "
    name, differs = table.name, " OR ".join(f'old."{one}" IS NOT new."{one}"' for one in table.compared)
    rekeyed = " OR ".join(f'old."{one}" IS NOT new."{one}"' for one in table.key)
    yield (
        f"CREATE TRIGGER {_BEGINNING}{name}_in AFTER INSERT ON {name} BEGIN "
        f"{note}VALUES ('{name}', 'i', {_key(table, 'new')}, NULL); END"
    )
    yield (
        f"CREATE TRIGGER {_BEGINNING}{name}_out AFTER DELETE ON {name} BEGIN "
        f"{note}VALUES ('{name}', 'd', {_key(table, 'old')}, {_row(table)}); END"
    )
    yield (
        f"CREATE TRIGGER {_BEGINNING}{name}_anew AFTER UPDATE ON {name} WHEN {differs} BEGIN "
        f"{note}VALUES ('{name}', 'u', {_key(table, 'new')}, {_before(table)}); "
        f"{note}SELECT '{name}', 'k', {_key(table, 'old')}, NULL WHERE {rekeyed}; END"
    )


def _key(table: Watched, of: str) -> str:
    types = dict(zip(table.columns, table.types, strict=True))
    return f"json_array({', '.join(_value(of, one, types[one]) for one in table.key)})"


def _row(table: Watched) -> str:
    both = zip(table.columns, table.types, strict=True)
    return f"json_array({', '.join(_value('old', one, its) for one, its in both)})"


def _before(table: Watched) -> str:
    types = dict(zip(table.columns, table.types, strict=True))
    always = TOLD_WITH.get(table.name, ())
    told = " || ".join(
        f"""CASE WHEN {"1" if one in always else f'old."{one}" IS NOT new."{one}"'} """
        f"""THEN ',"{one}":' || json_quote({_value('old', one, types[one])}) ELSE '' END"""
        for one in table.compared
    )
    return f"'{{' || ltrim({told}, ',') || '}}'"


def _value(of: str, column: str, declared: str) -> str:
    value = f'{of}."{column}"'
    if declared in ("TEXT", "INTEGER", "INT"):
        return value
    # SQLite writes fifteen digits into JSON; seventeen tell every number apart. JSON has no infinity,
    # and cannot hold bytes: they stand as a list of their hexadecimal digits.
    return (
        f"CASE typeof({value}) WHEN 'real' THEN json(replace(printf('%!.17g', {value}), 'Inf', '9e999')) "
        f"WHEN 'blob' THEN json_array(hex({value})) ELSE {value} END"
    )

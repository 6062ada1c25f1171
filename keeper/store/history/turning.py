"""Taking an act back, and doing it again: what undoes each of its changes, in the opposite order.

While that is done the triggers note what undoes it in its turn, so an act that
was taken back is done again by the same means.
"""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple

from keeper.errors import CannotTurn, UnknownThing
from keeper.store.history.leaning import HOMES, Pointing, Since, since
from keeper.store.history.noting import last_change
from keeper.store.history.watched import as_noted

if TYPE_CHECKING:
    from keeper.store.file.opening import Store


class _Change(NamedTuple):
    """What undoes one change: see the table."""

    what: str
    kind: str
    key: str
    old: Any


def next_undone(store: "Store") -> int | None:
    """The act that was done last and stands."""
    once = store.row("SELECT first, number FROM act WHERE latest IS NULL ORDER BY number DESC LIMIT 1")
    again = store.row("SELECT latest, number FROM act WHERE latest IS NOT NULL AND turns % 2 = 0 ORDER BY latest DESC LIMIT 1")
    return max(once or (0, None), again or (0, None))[1] if once or again else None


def next_redone(store: "Store") -> int | None:
    """The act that was taken back last, unless something was done since."""
    row = store.row("SELECT number FROM act WHERE turns % 2 = 1 AND set_aside = 0 ORDER BY latest DESC LIMIT 1")
    return row[0] if row else None


def turn(store: "Store", number: int) -> frozenset[str]:
    """Take an act back if it stands, do it again if it was taken back; returns the tables whose rows that changed.

    Raises CannotTurn when what was done since leans on it, naming that;
    UnknownThing when it is no longer known. Then nothing is changed.
    """
    with _telling(), store.unnoted() as connection:
        row = store.row("SELECT turns FROM act WHERE number = ?", (number,))
        if row is None:
            raise UnknownThing("That is no longer known.")
        later = Since() if _is_last(store, number) else since(connection, number)
        if later.hinders:
            raise CannotTurn(_leans(later.hinders))
        connection.execute("PRAGMA defer_foreign_keys = ON")
        return _turned(connection, number, row[0], later)


def _is_last(store: "Store", number: int) -> bool:
    """Whether nothing can have been done to the same rows since: it was done last, and at one go."""
    return number == next_undone(store) and not store.row("SELECT 1 FROM act_more WHERE act = ?", (number,))


@contextmanager
def _telling() -> Iterator[None]:
    try:
        yield
    except sqlite3.IntegrityError as error:
        # Two of what there can be one of; or, at the end of the transaction, a row that points at none.
        raise CannotTurn("Something done since is in its place, or has taken away what belongs to it.") from error


def _leans(later: str) -> str:
    return f"Something done since leans on it: {later}. Take that back first."


def _turned(connection: sqlite3.Connection, number: int, turns: int, later: Since) -> frozenset[str]:
    before, tables, pointing = last_change(connection), as_noted(connection), Pointing(connection)
    changes = [_Change(*row[:3], row[3] and json.loads(row[3])) for row in connection.execute(
        "SELECT what, kind, key, old FROM act_part JOIN change ON seq BETWEEN begins AND ends "
        "WHERE act = ? AND turn = ? ORDER BY seq DESC",
        (number, turns),
    ).fetchall()]  # fmt: skip
    connection.execute("INSERT INTO undoing (yes) VALUES (1)")
    for change in changes:
        _undo(connection, tables[change.what], change, later, pointing)
    connection.execute("DELETE FROM undoing")
    for what, kind, key, _ in changes:
        if kind == "i" and what not in HOMES and (leaning := pointing.told(what, json.loads(key))):
            raise CannotTurn(_leans(leaning))
    _note_turn(connection, number, turns, before)
    return frozenset(change.what for change in changes)


def _note_turn(connection: sqlite3.Connection, number: int, turns: int, before: int) -> None:
    parts = "SELECT begins, ends FROM act_part WHERE act = ? AND turn = ?"
    for first, last in connection.execute(parts, (number, turns)).fetchall():
        connection.execute("DELETE FROM change WHERE seq BETWEEN ? AND ?", (first, last))
    connection.execute(
        "INSERT INTO act_more (act, turn, first, last) VALUES (?, ?, ?, ?)",
        (number, turns + 1, before + 1, last_change(connection)),
    )
    connection.execute(
        "UPDATE act SET turns = turns + 1, set_aside = 0, latest = ? WHERE number = ?", (before + 1, number)
    )


def _undo(
    connection: sqlite3.Connection, table: tuple[list[str], list[str]], change: _Change, later: Since, pointing: Pointing
) -> None:
    columns, of_key = table
    what, kind, row, old = change
    key, where = _values(json.loads(row)), " AND ".join(f'"{one}" = ?' for one in of_key)
    if kind == "k":
        return
    if (what, row) in later.touched or (kind == "i" and what in HOMES and pointing.is_at(what, key)):
        # Somebody else lives there since: the home stays, without what this act brought, or is there already.
        if kind == "i":
            _empty(connection, what, where, key, later.touched.get((what, row), set()))
        return
    if kind == "i":
        done = connection.execute(f"DELETE FROM {what} WHERE {where}", key)
    elif kind == "d":
        names, marks = ", ".join(f'"{one}"' for one in columns), ", ".join("?" * len(columns))
        done = connection.execute(f"INSERT INTO {what} ({names}) VALUES ({marks})", _values(old))
    else:
        sets = ", ".join(f'"{one}" = ?' for one in columns if one in old)
        values = _values([old[one] for one in columns if one in old])
        done = connection.execute(f"UPDATE {what} SET {sets} WHERE {where}", [*values, *key])
    if done.rowcount != 1:
        raise CannotTurn("What it changed is no longer there as it was left.")


def _empty(connection: sqlite3.Connection, what: str, where: str, key: list, but: set[str]) -> None:
    """Let a row be as one that was only just made, except for some columns."""
    rows = connection.execute(
        f"SELECT name, dflt_value FROM pragma_table_info('{what}') WHERE NOT pk AND (dflt_value IS NOT NULL OR NOT \"notnull\")"
    ).fetchall()
    sets = ", ".join(f'"{name}" = {default or "NULL"}' for name, default in rows if name not in but)
    if sets:
        connection.execute(f"UPDATE {what} SET {sets} WHERE {where}", key)


def _values(told: list) -> list:
    """The values as they were: bytes stand in JSON as a list of their hexadecimal digits."""
    return [bytes.fromhex(one[0]) if isinstance(one, list) else one for one in told]

"""Rows put into the tables of a new file, whatever of them still fits."""

import sqlite3
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from keeper.store.damage.carving import Carved
from keeper.store.damage.selecting import Read
from keeper.store.file.sums import line_sum
from keeper.store.folding import folded_or_none
from keeper.store.ids import new_id
from keeper.store.moments import NUMBERS_A_NIGHT

Counted = tuple[str, int, int]
"""A table, how many rows of it there are now, and how many did not fit."""

_PARENTS = {
    "night": "INSERT INTO night (date, begun_at) VALUES (?, strftime('%Y-%m-%dT%H:%M:%f000Z', 'now'))",
    "month_page": "INSERT INTO month_page (month) VALUES (?)",
    "place": "INSERT INTO place (id, name, begun_at) VALUES (?, 'A place', strftime('%Y-%m-%dT%H:%M:%f000Z', 'now'))",
    # What was said of them tells who it was; the person can write the name anew.
    "person": "INSERT INTO person (id, name) VALUES (?, 'Somebody')",
    "year_page": "INSERT INTO year_page (year, state, at, begun_at) "
    "VALUES (?, 'begun', 1, strftime('%Y-%m-%dT%H:%M:%f000Z', 'now'))",
}
"""How a row is made anew that others hang on, from its key alone."""


def fill_table(connection: sqlite3.Connection, table: Read) -> Counted:
    """Put the rows read of a table into it: in place of those of a backup if all of it was read, else besides them."""
    lost = 0
    if table.whole:
        connection.execute(f'DELETE FROM "{table.table}"')
    names, marks = ", ".join(f'"{name}"' for name in table.columns), ", ".join("?" * len(table.columns))
    # The newer of two rows of one key is that of the broken file.
    set_anew = ", ".join(f'"{name}" = excluded."{name}"' for name in table.columns)
    put = f'INSERT INTO "{table.table}" ({names}) VALUES ({marks}) ON CONFLICT DO UPDATE SET {set_anew}'
    for row in table.rows:
        try:
            connection.execute(put, row)
        except (sqlite3.IntegrityError, sqlite3.InterfaceError, OverflowError):
            lost += 1
    return table.table, _count(connection, table.table), lost


def fill_line_tables(
    connection: sqlite3.Connection, lines: Iterable[Carved], wordings: Iterable[Carved], numbers: dict[str, int]
) -> list[Counted]:
    """Put the lines and the earlier wordings into their tables, in place of whatever is there."""
    numbers = _numbers(connection, lines := list(lines), numbers)
    connection.execute("DELETE FROM line")
    lost = sum(not _put_line(connection, one, numbers) for one in lines)
    known = {row[:3] for row in connection.execute("SELECT line_id, text, written_at, id FROM wording")}
    for one in wordings:
        if (one.id, one.text, one.written_at) not in known:
            known.add((one.id, one.text, one.written_at))
            _put_wording(connection, one)
    return [("line", _count(connection, "line"), lost), ("wording", _count(connection, "wording"), 0)]


def _put_line(connection: sqlite3.Connection, one: Carved, numbers: dict[str, int]) -> bool:
    """Put a line in; False where its night or kind is not known, or taken."""
    row = _summed(one)
    try:
        number = date.fromisoformat(one.night).toordinal() * NUMBERS_A_NIGHT + numbers[one.kind]
        put = (
            "INSERT INTO line (number, folded, id, night, kind, text, written_at, offset_minutes, zone, sum) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
        )
        connection.execute(put, (number, folded_or_none(one.text), *row))
        return True
    except (sqlite3.IntegrityError, ValueError, KeyError):
        return False


def _put_wording(connection: sqlite3.Connection, one: Carved) -> None:
    connection.execute(
        "INSERT INTO wording (id, line_id, night, kind, text, written_at, offset_minutes, zone, sum, replaced_at) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (new_id(), *_summed(one), one.replaced_at),
    )


def _summed(one: Carved) -> tuple:
    row = (one.id, one.night, one.kind, one.text, one.written_at, one.offset_minutes, one.zone)
    return (*row, line_sum(*row))


def _numbers(connection: sqlite3.Connection, lines: list[Carved], numbers: dict[str, int]) -> dict[str, int]:
    """Which number within a night each kind has, by the file's own list of kinds where there is one."""
    if not connection.execute("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'kind'").fetchone():
        return numbers
    listed = dict(connection.execute("SELECT key, number FROM kind"))
    for kind in sorted({one.kind for one in lines} - listed.keys()):
        free = (n for n in range(NUMBERS_A_NIGHT) if n not in listed.values())
        wanted = numbers.get(kind, -1)
        number = wanted if wanted >= 0 and wanted not in listed.values() else next(free, None)
        # One of the person's own, of which only the lines are left.
        if number is not None and _put_kind(connection, kind, number):
            listed[kind] = number
    return listed


def _put_kind(connection: sqlite3.Connection, kind: str, number: int) -> bool:
    put = "INSERT INTO kind (key, number, name, position) VALUES (?, ?, ?, ?)"
    try:
        connection.execute(put, (kind, number, f"Kind {number}", number))
        return True
    except sqlite3.IntegrityError:
        return False


def tie_up(connection: sqlite3.Connection) -> dict[str, int]:
    """See to it that nothing refers to what is not there; how many rows of each table had to go."""
    # A night can do without its place; what is said of a place cannot.
    connection.execute("UPDATE night SET place_id = NULL, place_source = '' WHERE place_id NOT IN (SELECT id FROM place)")
    _make_parents(connection)
    gone: dict[str, int] = {}
    # Each going may leave others without what they refer to.
    while rows := connection.execute("PRAGMA foreign_key_check").fetchall():
        for table, rowid, _, which in rows:
            if not _forget_reference(connection, table, rowid, which):
                gone[table] = gone.get(table, 0) + 1
    return gone


def _make_parents(connection: sqlite3.Connection) -> None:
    tables = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    for table in tables:
        for _, _, parent, column, _, *_ in connection.execute(f'PRAGMA foreign_key_list("{table}")').fetchall():
            if parent in _PARENTS:
                key = connection.execute(f"SELECT name FROM pragma_table_info('{parent}') WHERE pk = 1").fetchone()[0]
                lacking = f'SELECT DISTINCT "{column}" FROM "{table}" WHERE "{column}" NOT IN (SELECT {key} FROM {parent})'
                for (value,) in connection.execute(lacking).fetchall():
                    _try(connection, _PARENTS[parent], value)


def _try(connection: sqlite3.Connection, sql: str, value: object) -> None:
    try:
        connection.execute(sql, (value,))
    except sqlite3.IntegrityError:
        return


def _forget_reference(connection: sqlite3.Connection, table: str, rowid: int | None, which: int) -> bool:
    """Take out a reference that leads nowhere; False where its whole row had to go."""
    references = connection.execute(f'PRAGMA foreign_key_list("{table}")').fetchall()
    parent, column, key = next((row[2], row[3], row[4]) for row in references if row[0] == which)
    key = key or connection.execute(f"SELECT name FROM pragma_table_info('{parent}') WHERE pk = 1").fetchone()[0]
    lost = f'"{column}" IS NOT NULL AND "{column}" NOT IN (SELECT "{key}" FROM "{parent}")'
    only = f"rowid = {rowid} AND {lost}" if rowid is not None else lost
    try:
        connection.execute(f'UPDATE "{table}" SET "{column}" = NULL WHERE {only}')
        return True
    except sqlite3.IntegrityError:
        connection.execute(f'DELETE FROM "{table}" WHERE {only}')
        return False


def _count(connection: sqlite3.Connection, table: str) -> int:
    return connection.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0]


def with_own_ids(lines: Iterable[Carved]) -> list[Carved]:
    """The lines, none with the id of another."""
    seen: set[str] = set()
    made = []
    for one in lines:
        line = replace(one, id=new_id()) if one.id in seen else one
        seen.add(line.id)
        made.append(line)
    return made

"""What was done since an act and leans on it: changed the same rows, or points at what it made."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from sqlite3 import Connection

_BEFORE = "SELECT number FROM act WHERE first <= ? ORDER BY number DESC LIMIT 1"
_SINCE = (
    # Of what was taken back and done again an even number of times nothing is left.
    "SELECT number, told FROM act WHERE (number > :before OR latest > :first) AND number <> :act AND "
    "(SELECT count(DISTINCT turn) FROM act_part WHERE act = number AND act_part.begins > :first) % 2 = 1 "
    "ORDER BY coalesce(latest, first) DESC"
)
_FIRST = "SELECT min(begins) FROM act_part JOIN act ON number = act AND turn = turns WHERE act = ?"
_ROWS = (
    "SELECT what, key FROM act_part JOIN act ON number = act AND turn = turns JOIN change ON seq BETWEEN begins AND ends "
    "WHERE act = ?"
)
_WHO = (
    "SELECT told FROM change JOIN act_part ON seq BETWEEN begins AND ends JOIN act ON number = act AND turn = turns "
    "WHERE what = ? AND key = ? AND turns % 2 = 0 ORDER BY seq DESC LIMIT 1"
)


class _Reference(NamedTuple):
    """A column that points at the key of another table."""

    table: str
    column: str
    key: str


def hindered_by(connection: "Connection", number: int) -> str:
    """The last thing done since an act that changed the same rows, in its words; "" when there is none."""
    (first,) = connection.execute(_FIRST, (number,)).fetchone()
    rows = set(connection.execute(_ROWS, (number,)))
    (before,) = connection.execute(_BEFORE, (first,)).fetchone() or (0,)
    for since, told in connection.execute(_SINCE, {"first": first, "before": before, "act": number}).fetchall():
        if not rows.isdisjoint(connection.execute(_ROWS, (since,))):
            return told
    return ""


def pointing_at(connection: "Connection", gone: Iterable[tuple[str, list]]) -> str | None:
    """What was done and points at one of the rows that are gone (table and key), in its words; None when nothing does."""
    pointing: dict[str, list[_Reference]] = {}
    for what, key in gone:
        if what not in pointing:
            pointing[what] = _references(connection, what)
        for table, column, its_key in pointing[what]:
            row = connection.execute(f"SELECT json_array({its_key}) FROM {table} WHERE {column} = ? LIMIT 1", key[:1]).fetchone()
            if row:
                who = connection.execute(_WHO, (table, *row)).fetchone()
                return who[0] if who else f"something of \u201c{table}\u201d"
    return None


def _references(connection: "Connection", to: str) -> list[_Reference]:
    """The columns that point at a table, but for those whose rows go with what they point at."""
    rows = connection.execute(
        'SELECT t.name, f."from", (SELECT group_concat(name) FROM (SELECT name FROM pragma_table_info(t.name) WHERE pk ORDER BY pk)) '
        "FROM pragma_table_list AS t JOIN pragma_foreign_key_list(t.name) AS f "
        "WHERE t.schema = 'main' AND t.type = 'table' AND f.\"table\" = ? AND f.on_delete <> 'CASCADE'",
        (to,),
    ).fetchall()
    return [_Reference(*row) for row in rows]

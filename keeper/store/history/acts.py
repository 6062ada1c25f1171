"""Acts as they are told: one, the latest, those with certain words."""

import json
from datetime import datetime
from sqlite3 import Connection

from keeper.model import Act, ActDone
from keeper.store.file.opening import Store
from keeper.store.history.watched import as_noted
from keeper.store.moments import day, utc_instant, words

_COLUMNS = "number, told, page, night, thing, at, done_from, turns % 2, set_aside"

_CHANGES = "(SELECT 1 FROM act_part JOIN change ON seq BETWEEN begins AND ends WHERE act = number AND turn = turns AND {})"
_GONE = "EXISTS " + _CHANGES.format("kind = 'd' AND what NOT IN ('wording', 'place_merge_night')")
_SAID = (
    "(SELECT 1 FROM act_part JOIN change ON seq BETWEEN begins AND ends JOIN json_each(old) AS said "
    "WHERE act = number AND turn = turns AND what || '.' || said.key IN (SELECT value FROM json_each(:spots)) "
    "AND instr(lower(said.value), :w{}))"
)

_WORDS = frozenset(("text", "name", "caption", "words", "question", "answer", "word", "prompt"))
"""The columns that hold words of the person, whatever the table."""


def one(store: Store, number: int) -> ActDone | None:
    """The act of this number."""
    return next(iter(store.made(_done, store.rows(f"SELECT {_COLUMNS} FROM act WHERE number = ?", (number,)))), None)


def latest(
    store: Store, limit: int, before: int | None = None, sought: str = "", taken_out: bool = False
) -> tuple[ActDone, ...]:
    """The acts done last, those made before the act ``before`` if that is given.

    ``sought`` are words that are told, or stood in what was changed; with
    ``taken_out`` only acts by which something is gone.
    """
    wanted, asked = sought.lower().split(), [f"number < {before or 1 << 62}", *([_GONE] if taken_out else [])]
    asked += [f"(instr(lower(told), :w{place}) OR EXISTS {_SAID.format(place)})" for place in range(len(wanted))]
    rows = store.rows(
        f"SELECT {_COLUMNS} FROM act WHERE {' AND '.join(asked)} ORDER BY number DESC LIMIT :limit",
        {"limit": limit, "spots": _spots(store) if wanted else "[]", **{f"w{place}": word for place, word in enumerate(wanted)}},
    )
    return store.made(_done, rows)


def of_page(store: Store, page: str, thing: str) -> tuple[ActDone, ...]:
    """The acts seen on a page whose thing begins so, the latest first."""
    rows = store.rows(
        f"SELECT {_COLUMNS} FROM act WHERE page = ? AND substr(thing, 1, ?) = ? ORDER BY number DESC", (page, len(thing), thing)
    )
    return store.made(_done, rows)


def tell(connection: Connection, number: int, told: str, thing: str) -> None:
    """Let an act be told otherwise."""
    connection.execute("UPDATE act SET told = ?, thing = ? WHERE number = ?", (told, thing, number))


def _spots(store: Store) -> str:
    """Where words stand in what is noted, by table: under the name of the column, or in its place."""
    noted = as_noted(store.connection).items()
    return json.dumps([f"{table}.{spot}" for table, (columns, _) in noted
                       for place, column in enumerate(columns) if column in _WORDS for spot in (column, place)])  # fmt: skip


def of_row(store: Store, table: str, key: str) -> int | None:
    """The act that stands and put a row there, by its key; None when that is no longer known."""
    row = store.row(
        "SELECT number FROM change JOIN act_part ON seq BETWEEN begins AND ends JOIN act ON number = act AND turn = turns "
        "WHERE what = ? AND kind = 'i' AND key = json_array(?) AND turns % 2 = 0 ORDER BY seq DESC LIMIT 1",
        (table, key),
    )
    return row[0] if row else None


def let_go_until(store: Store) -> datetime | None:
    """Until when acts were let go because the keeper was given another shape; None when none were."""
    row = store.row("SELECT until FROM let_go")
    return utc_instant(row[0]) if row else None


def _done(row: tuple) -> ActDone:
    act = Act(words(row[1]), words(row[2]), day(row[3]) if row[3] else None, words(row[4]))
    return ActDone(row[0], act, utc_instant(row[5]), words(row[6]), bool(row[7]), bool(row[8]))

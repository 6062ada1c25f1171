"""Letting go of acts: after two years, beyond a hundred thousand, or when they can no longer be turned.

No words go with them. What a line said that was undone stands nowhere else:
it becomes an earlier wording.
"""

import json
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

from keeper.store.history.noting import last_change
from keeper.store.history.watched import as_noted
from keeper.store.moments import utc_text

if TYPE_CHECKING:
    from sqlite3 import Connection

    from keeper.store.file.opening import Store

KEPT_FOR = timedelta(days=731)
MOST = 100_000
"""So many acts are kept, and so long."""

_AT_ONCE = 1000

_HAD = (
    "SELECT 1 FROM photo WHERE sha256 = :sha256 UNION ALL SELECT 1 FROM scan WHERE sha256 = :sha256 "
    "UNION ALL SELECT 1 FROM change WHERE what IN ('photo', 'scan') AND instr(old, :sha256)"
)

_CHANGES = (
    "SELECT what, kind, old, turns % 2 FROM act JOIN act_part ON act = number AND turn = turns "
    "JOIN change ON seq BETWEEN begins AND ends WHERE number = ? AND what IN ('line', 'wording', 'photo', 'scan') AND old IS NOT NULL"
)


def let_go_old(store: "Store", kept_for: timedelta = KEPT_FOR, most: int = MOST) -> Iterator[tuple[str, str]]:
    """Let go of acts older than a time, and of the oldest of more than so many.

    Gives SHA-256 and ending of each photo, or page of a notebook, that no act can bring back any more: its file may go.
    """
    while gone := _old(store, datetime.now(UTC) - kept_for, most):
        with store.unnoted() as connection:
            left_over = let_go(connection, gone)
        yield from left_over


def _old(store: "Store", before: datetime, most: int) -> list[int]:
    rows = store.rows(
        "SELECT number FROM act WHERE at < :at OR number <= (SELECT number FROM act ORDER BY number DESC LIMIT 1 OFFSET :most) "
        "ORDER BY number LIMIT :some",
        {"at": utc_text(before), "most": most, "some": _AT_ONCE},
    )
    return [number for (number,) in rows]


def let_go(connection: "Connection", numbers: Iterable[int]) -> list[tuple[str, str]]:
    """Let go of these acts; returns SHA-256 and ending of the photos that nothing has any more."""
    noted, photos = as_noted(connection), []
    for number in numbers:
        for what, kind, old, undone in connection.execute(_CHANGES, (number,)).fetchall():
            row = _as_noted(noted[what][0], kind, json.loads(old))
            if what in ("photo", "scan") and kind == "d":
                photos.append((row["sha256"], row["ending"]))
            elif undone and what in ("line", "wording") and "text" in row:
                _keep_words(connection, row, noted["wording"][0])
        for first, last in connection.execute("SELECT begins, ends FROM act_part WHERE act = ?", (number,)).fetchall():
            connection.execute("DELETE FROM change WHERE seq BETWEEN ? AND ?", (first, last))
        connection.execute("DELETE FROM act WHERE number = ?", (number,))
    return list(_left_over(connection, photos))


def _as_noted(columns: list[str], kind: str, old: Any) -> dict:
    return dict(zip(columns, old, strict=True)) if kind == "d" else old


def _keep_words(connection: "Connection", row: dict, columns: list[str]) -> None:
    """Make what a line said, or would have said, an earlier wording, unless it stands somewhere."""
    where = {name: row[name] for name in ("night", "kind", "text")}
    stands = "SELECT 1 FROM {} WHERE night = :night AND kind = :kind AND text = :text"
    if any(connection.execute(stands.format(table), where).fetchone() for table in ("line", "wording")):
        return
    before = last_change(connection)
    if "line_id" not in row:
        row = {**row, "line_id": row["id"]}
        del row["id"]
    told = [name for name in columns if name in row]
    connection.execute(
        f"INSERT INTO wording ({', '.join(told)}) VALUES ({', '.join('?' * len(told))})", [row[name] for name in told]
    )
    # That is nothing the person did.
    connection.execute("DELETE FROM change WHERE seq > ?", (before,))


def _left_over(connection: "Connection", photos: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    for sha256, ending in dict.fromkeys(photos):
        if not connection.execute(_HAD, {"sha256": sha256}).fetchone():
            yield sha256, ending

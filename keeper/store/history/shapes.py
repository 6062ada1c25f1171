"""The history when the tables were given another shape."""

import json
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from keeper.store.history.letting_go import let_go
from keeper.store.history.triggers import lay
from keeper.store.history.watched import as_noted, watched
from keeper.store.moments import utc_text

if TYPE_CHECKING:
    from sqlite3 import Connection


def watch(connection: "Connection") -> None:
    """Note the changes of all tables in their present shape.

    Acts that changed a table which has another shape since can no longer be
    turned, nor those before them: they are let go, and that is kept to be told.
    """
    before = as_noted(connection)
    # What moving rows about made the triggers of an earlier version note is no act.
    connection.execute("DELETE FROM change WHERE seq > (SELECT coalesce(max(ends), 0) FROM act_part)")
    now = {table.name: (list(table.columns), list(table.key)) for table in watched(connection)}
    changed = [name for name, shape in before.items() if now.get(name) != shape]
    last = connection.execute(
        "SELECT max(seq) FROM change WHERE what IN (SELECT value FROM json_each(?))", (json.dumps(changed),)
    ).fetchone()[0]
    if last is not None:
        _let_go_until(connection, last)
    lay(connection)


def _let_go_until(connection: "Connection", change: int) -> None:
    numbers = connection.execute("SELECT DISTINCT act FROM act_part WHERE begins <= ?", (change,)).fetchall()
    let_go(connection, [number for (number,) in numbers])
    connection.execute(
        "INSERT INTO let_go (one, until, why) VALUES (1, ?, 'shape') "
        "ON CONFLICT (one) DO UPDATE SET until = excluded.until, why = excluded.why",
        (utc_text(datetime.now(UTC)),),
    )

"""Where the second phase of a cycle begins, as the person said it."""

from datetime import date

from keeper.model import Act
from keeper.store.file.opening import Store
from keeper.store.moments import day


def of_mark(store: Store, mark_id: str) -> dict[date, date | None]:
    """By the night a cycle begins, the first night of its second phase; None where the person said that it has none."""
    rows = store.rows("SELECT begins, rise FROM cycle_phase WHERE mark_id = ? ORDER BY begins", (mark_id,))
    return dict(store.made(lambda row: (day(row[0]), day(row[1]) if row[1] else None), rows))


def say(store: Store, mark_id: str, begins: date, rise: date | None, act: Act) -> None:
    """Keep where the second phase of a cycle begins, or that it has none."""
    with store.writing(act) as connection:
        connection.execute(
            "INSERT INTO cycle_phase (mark_id, begins, rise) VALUES (?, ?, ?) "
            "ON CONFLICT (mark_id, begins) DO UPDATE SET rise = excluded.rise",
            (mark_id, begins.isoformat(), rise.isoformat() if rise else None),
        )


def leave_to_rule(store: Store, mark_id: str, begins: date, act: Act | None = None) -> None:
    """Forget what was said of a cycle."""
    with store.writing(act) as connection:
        connection.execute("DELETE FROM cycle_phase WHERE mark_id = ? AND begins = ?", (mark_id, begins.isoformat()))

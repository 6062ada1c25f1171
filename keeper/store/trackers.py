"""Trackers and their readings."""

from collections.abc import Iterable
from datetime import UTC, date, datetime

from keeper.model import Reading, Tracker
from keeper.store.ids import new_id
from keeper.store.moments import day, utc_text
from keeper.store.opening import Store


def every(store: Store) -> tuple[Tracker, ...]:
    """All trackers, ended ones too, in the person's order."""
    rows = store.rows(
        "SELECT id, name, form, low, high, unit, better, began, ended FROM tracker ORDER BY position, name"
    )
    return tuple(Tracker(*r[:7], day(r[7]), day(r[8]) if r[8] else None) for r in rows)


def add(store: Store, tracker: Tracker) -> str:
    """Begin a tracker at the end of the row; an empty id is given one."""
    tracker_id = tracker.id or new_id()
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO tracker SELECT ?, ?, ?, ?, ?, ?, ?, ?, ?, count(*) FROM tracker",
            (tracker_id, tracker.name, tracker.form, tracker.low, tracker.high, tracker.unit, tracker.better,
             tracker.began.isoformat(), tracker.ended.isoformat() if tracker.ended else None),
        )  # fmt: skip
    return tracker_id


def note(store: Store, readings: Iterable[Reading]) -> None:
    """Keep readings; one already noted for the night is replaced."""
    now = utc_text(datetime.now(UTC))
    rows = [(r.night.isoformat(), r.tracker_id, r.value, now) for r in readings]
    with store.writing() as connection:
        connection.executemany(
            "INSERT OR IGNORE INTO night (date, begun_at) VALUES (?, ?)", [(row[0], now) for row in rows]
        )
        connection.executemany("INSERT OR REPLACE INTO reading VALUES (?, ?, ?, ?)", rows)


def readings(store: Store, first: date, last: date) -> tuple[Reading, ...]:
    """All readings of a span of nights, oldest first."""
    rows = store.rows(
        "SELECT night, tracker_id, value FROM reading WHERE night BETWEEN ? AND ? ORDER BY night",
        (first.isoformat(), last.isoformat()),
    )
    return tuple(Reading(day(r[0]), r[1], r[2]) for r in rows)

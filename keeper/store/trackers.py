"""Trackers and their readings."""

from collections.abc import Iterable
from datetime import UTC, date, datetime

from keeper.model import FORMS, Reading, Tracker
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import damaged, day, number, utc_text, words


def every(store: Store) -> tuple[Tracker, ...]:
    """All trackers, ended ones too, in the person's order."""
    rows = store.rows(
        "SELECT id, name, form, low, high, unit, better, began, ended FROM tracker ORDER BY position, name"
    )
    return store.made(_tracker, rows)


def _tracker(row: tuple) -> Tracker:
    ends = [number(value, -_LARGEST, _LARGEST) for value in row[3:5]]
    told = [words(value) for value in row[:3]]
    if told[2] not in FORMS:
        raise damaged(told[2], "a form of reading")
    return Tracker(*told, *ends, words(row[5]), words(row[6]), day(row[7]), day(row[8]) if row[8] else None)


def _reading(row: tuple) -> Reading:
    if number(row[2], -_LARGEST, _LARGEST) is None:
        raise damaged(row[2], "a reading")
    return Reading(day(row[0]), row[1], row[2])


_LARGEST = 1e15


def add(store: Store, tracker: Tracker) -> str:
    """Begin a tracker at the end of the row; an empty id is given one."""
    tracker_id = tracker.id or new_id()
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO tracker (id, name, form, low, high, unit, better, began, ended, position) SELECT ?, ?, ?, ?, ?, ?, ?, ?, ?, count(*) FROM tracker",
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
        connection.executemany(
            "INSERT INTO reading (night, tracker_id, value, noted_at) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (tracker_id, night) DO UPDATE SET value = excluded.value, noted_at = excluded.noted_at "
            "WHERE value <> excluded.value",
            rows,
        )


def readings(store: Store, first: date, last: date) -> tuple[Reading, ...]:
    """All readings of a span of nights, oldest first."""
    rows = store.rows(
        "SELECT night, tracker_id, value FROM reading WHERE night BETWEEN ? AND ? ORDER BY night",
        (first.isoformat(), last.isoformat()),
    )
    return store.made(_reading, rows)


def highest(store: Store, tracker_id: str) -> float:
    """The highest value ever noted, or 0."""
    return store.row("SELECT coalesce(max(value), 0) FROM reading WHERE tracker_id = ?", (tracker_id,))[0]

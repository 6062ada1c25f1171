"""What rests: never brought up unasked, still found."""

from datetime import UTC, date, datetime

from keeper.store.ids import new_id
from keeper.store.moments import utc_text
from keeper.store.opening import Store


def rest(store: Store, what: str, ref: str) -> None:
    """Let a line, photo, place or person rest."""
    with store.writing() as connection:
        connection.execute(
            "INSERT OR IGNORE INTO resting (id, what, ref, since) VALUES (?, ?, ?, ?)",
            (new_id(), what, ref, utc_text(datetime.now(UTC))),
        )


def wake(store: Store, what: str, ref: str) -> None:
    """Let it be brought up again."""
    with store.writing() as connection:
        connection.execute("DELETE FROM resting WHERE what = ? AND ref = ?", (what, ref))


def rest_span(store: Store, first: date, last: date) -> None:
    """Let all nights of a span rest, both ends included."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO resting (id, what, first, last, since) VALUES (?, 'span', ?, ?, ?)",
            (new_id(), first.isoformat(), last.isoformat(), utc_text(datetime.now(UTC))),
        )


def wake_span(store: Store, first: date, last: date) -> None:
    """Take back ``rest_span`` with the same ends."""
    with store.writing() as connection:
        connection.execute(
            "DELETE FROM resting WHERE what = 'span' AND first = ? AND last = ?",
            (first.isoformat(), last.isoformat()),
        )

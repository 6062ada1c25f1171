"""Words being typed that are no line: of a month's question, a place, a goal, a caption and so on.

What is kept of lines (their own drafts and wordings) is in ``lines``.
"""

from datetime import datetime

from keeper.store.file.opening import Store
from keeper.store.moments import utc_text


def keep(store: Store, what: str, ref: str, text: str, typed_at: datetime) -> None:
    """Put words aside as they are being typed."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO draft_of (what, ref, text, typed_at) VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
            "text = excluded.text, typed_at = excluded.typed_at",
            (what, ref, text, utc_text(typed_at)),
        )


def drop(store: Store, what: str, ref: str) -> None:
    """Forget the words put aside."""
    with store.writing() as connection:
        connection.execute("DELETE FROM draft_of WHERE what = ? AND ref = ?", (what, ref))


def one(store: Store, what: str, ref: str) -> str | None:
    """The words put aside, or None."""
    row = store.row("SELECT text FROM draft_of WHERE what = ? AND ref = ?", (what, ref))
    return row[0] if row else None


def every(store: Store, what: str) -> dict[str, str]:
    """All words put aside for one sort of thing, by which one they are of."""
    return dict(store.rows("SELECT ref, text FROM draft_of WHERE what = ?", (what,)))

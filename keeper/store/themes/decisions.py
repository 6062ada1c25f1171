"""What the person decided about themes, in order; an undone decision stays, marked as such."""

import json
from dataclasses import dataclass
from datetime import datetime

from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import told, utc_instant, utc_text


@dataclass(frozen=True, slots=True)
class KeptDecision:
    """A decision: ``what`` it is, ``detail`` as plain names and values, and when it was made."""

    id: str
    what: str
    detail: dict
    at: datetime


_COLUMNS = "id, what, detail, decided_at"


def _decision(row: tuple) -> KeptDecision:
    return KeptDecision(row[0], row[1], told(row[2], dict), utc_instant(row[3]))


def standing(store: Store) -> tuple[KeptDecision, ...]:
    """The decisions that were not undone, earliest first."""
    rows = store.rows(f"SELECT {_COLUMNS} FROM theme_decision WHERE undone_at IS NULL ORDER BY position")
    return store.made(_decision, rows)


def last(store: Store) -> KeptDecision | None:
    """The latest decision that was not undone."""
    row = store.row(
        f"SELECT {_COLUMNS} FROM theme_decision WHERE undone_at IS NULL ORDER BY position DESC LIMIT 1"
    )
    return _decision(row) if row else None


def add(store: Store, what: str, detail: dict, at: datetime) -> KeptDecision:
    """Put a decision after all others."""
    made = KeptDecision(new_id(), what, detail, at)
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO theme_decision (id, position, what, detail, decided_at) "
            "SELECT ?, coalesce(max(position), 0) + 1, ?, ?, ? FROM theme_decision",
            (made.id, what, json.dumps(detail), utc_text(at)),
        )
    return made


def undo(store: Store, decision_id: str, at: datetime) -> None:
    """Let a decision stand no more."""
    with store.writing() as connection:
        connection.execute(
            "UPDATE theme_decision SET undone_at = ? WHERE id = ? AND undone_at IS NULL", (utc_text(at), decision_id)
        )

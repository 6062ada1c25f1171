"""What takes part in patterns, and what the person decided of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from keeper.model import Act
from keeper.store.file.opening import Store
from keeper.store.moments import day, words

Question = tuple[str, str, int]
"""The keys of first and second, and how many nights the second comes later."""


@dataclass(frozen=True, slots=True)
class Decision:
    """What the person decided of a pattern.

    An eye is kept on it when ``watched_nights`` is not 0: since the night
    ``watched_from``, when ``watched_told`` was told, until so many more are kept.
    """

    put_away: bool = False
    watched_nights: int = 0
    watched_from: date | None = None
    watched_told: str = ""


def picked(store: Store) -> tuple[str, ...]:
    """The keys of what takes part, in their order."""
    return store.made(lambda row: words(row[0]), store.rows("SELECT key FROM pattern_pick ORDER BY position, key"))


def pick(store: Store, keys: Sequence[str], act: Act) -> None:
    """Let these take part, and no others."""
    with store.writing(act) as connection:
        gone = [(key,) for key in picked(store) if key not in keys]
        connection.executemany("DELETE FROM pattern_pick WHERE key = ?", gone)
        connection.executemany(
            "INSERT INTO pattern_pick (key, position) VALUES (?, ?) "
            "ON CONFLICT (key) DO UPDATE SET position = excluded.position WHERE position <> excluded.position",
            [(key, place) for place, key in enumerate(keys)],
        )


def decisions(store: Store) -> dict[Question, Decision]:
    """What was decided, by question."""
    rows = store.rows(
        "SELECT first, second, lag, put_away, watched_nights, watched_from, watched_told FROM pattern_decision"
    )
    return dict(store.made(_decision, rows))


def _decision(row: tuple) -> tuple[Question, Decision]:
    begun = day(row[5]) if row[5] else None
    return (words(row[0]), words(row[1]), row[2]), Decision(bool(row[3]), row[4] if begun else 0, begun, words(row[6]))


def decide(store: Store, question: Question, decision: Decision, act: Act) -> None:
    """Keep what was decided of a pattern."""
    values = (
        *question, int(decision.put_away), decision.watched_nights,
        decision.watched_from.isoformat() if decision.watched_from else "", decision.watched_told,
    )  # fmt: skip
    with store.writing(act) as connection:
        connection.execute(
            "INSERT INTO pattern_decision (first, second, lag, put_away, watched_nights, watched_from, watched_told) "
            "VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (first, second, lag) DO UPDATE SET put_away = excluded.put_away, "
            "watched_nights = excluded.watched_nights, watched_from = excluded.watched_from, watched_told = excluded.watched_told",
            values,
        )


def due(store: Store) -> tuple[Question, ...]:
    """The patterns of which as many nights more are kept as the person wanted to wait for."""
    rows = store.rows(
        "SELECT first, second, lag FROM pattern_decision WHERE watched_nights > 0 AND put_away = 0 "
        "AND watched_nights <= (SELECT count(*) FROM night WHERE date > watched_from)"
    )
    return tuple((words(first), words(second), lag) for first, second, lag in rows)

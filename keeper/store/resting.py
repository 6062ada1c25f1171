"""What rests: never brought up unasked, still found."""

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, utc_text, words

if TYPE_CHECKING:
    from keeper.model import Resting

_BY_PLACE = "EXISTS (SELECT 1 FROM resting WHERE what = 'place' AND ref = night.place_id)"
_BY_SPAN = "EXISTS (SELECT 1 FROM resting WHERE what = 'span' AND night.date BETWEEN resting.first AND resting.last)"

NIGHT_AWAKE = f"NOT ({_BY_PLACE} OR {_BY_SPAN})"
"""For rows of night: it does not rest as a whole."""

LINE_AWAKE = f"({NIGHT_AWAKE} AND NOT EXISTS (SELECT 1 FROM resting WHERE what = 'line' AND ref = line.id))"
"""For rows of line and night: neither rests. Whom the line names is not asked: see ``keeper.study.awake``."""


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


def id_of(store: Store, what: str, ref: str) -> str | None:
    """The id of its rest, another each time it is let rest; None when it is awake."""
    row = store.row("SELECT id FROM resting WHERE what = ? AND ref = ?", (what, ref))
    return row[0] if row else None


def anybody(store: Store) -> bool:
    """Whether a person rests."""
    asked = "SELECT 1 FROM resting WHERE what = 'person' AND EXISTS (SELECT 1 FROM person WHERE id = ref) LIMIT 1"
    return store.row(asked) is not None


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


def nights(store: Store, first: date, last: date, places: bool = True) -> frozenset[date]:
    """The nights that rest as a whole: in a resting span, or (if ``places``) at a resting place."""
    rests = f"{_BY_SPAN} OR {_BY_PLACE}" if places else _BY_SPAN
    rows = store.rows(
        f"SELECT date FROM night WHERE date BETWEEN ? AND ? AND ({rests})", (first.isoformat(), last.isoformat())
    )
    return frozenset(store.made(lambda row: day(row[0]), rows))


def every(store: Store) -> "tuple[Resting, ...]":
    """All that rests: spans first, then people, places, photos and lines, the latest night first.

    What is taken out is passed over, even where it would rest again if it came back.
    """
    rows = store.rows(
        "SELECT * FROM (SELECT what, coalesce(ref, ''), CASE what "
        "WHEN 'line' THEN (SELECT text FROM line WHERE line.id = ref) "
        "WHEN 'photo' THEN (SELECT coalesce(nullif(caption, ''), name) FROM photo WHERE photo.id = ref) "
        "WHEN 'place' THEN (SELECT name FROM place WHERE place.id = ref) "
        "WHEN 'person' THEN (SELECT name FROM person WHERE person.id = ref) ELSE '' END AS told, "
        "CASE what WHEN 'line' THEN (SELECT night FROM line WHERE line.id = ref) "
        "WHEN 'photo' THEN (SELECT min(night) FROM night_photo WHERE photo_id = ref) ELSE first END AS night, "
        "last, (SELECT kind FROM line WHERE what = 'line' AND line.id = ref), (SELECT name FROM line "
        "JOIN kind ON kind.key = line.kind WHERE what = 'line' AND line.id = ref) FROM resting) WHERE told IS NOT NULL "
        "ORDER BY instr('span person place photo line', what), night DESC, told"
    )
    return store.made(_resting, rows)


def _resting(row: tuple) -> "Resting":
    from keeper.model import Resting

    what, ref, told, night, last, kind, kind_name = row
    first = day(night) if night else None
    return Resting(what, ref, words(told), first, day(last) if last else first, kind or "", kind_name or "")

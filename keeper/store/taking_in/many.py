"""Many lines, places and readings at once, as a file brings them."""

import json
from collections.abc import Iterable, Sequence
from datetime import date
from sqlite3 import Connection
from typing import NamedTuple

from keeper.model import Moment
from keeper.store.file.opening import Store
from keeper.store.file.sums import line_sum
from keeper.store.folding import folded_or_none
from keeper.store.ids import new_id
from keeper.store.moments import line_number, utc_text

_BY_ONE = 100


class ComingLine(NamedTuple):
    """A line that comes: its night, the key and the number of its kind, its words."""

    night: date
    kind: str
    of_kind: int
    text: str

    @property
    def number(self) -> int:
        """The one number that a line of this night and kind has."""
        return line_number(self.night, self.of_kind)


def texts_at(store: Store, numbers: Iterable[int]) -> dict[int, str]:
    """What the lines of these numbers say; those that are not there are left out."""
    rows = store.rows(
        "SELECT number, text FROM line WHERE number IN (SELECT value FROM json_each(?))", (json.dumps(list(numbers)),)
    )
    return {number: str(text) for number, text in rows}


def earlier_at(store: Store, nights: Iterable[date]) -> dict[tuple[str, str], set[str]]:
    """The earlier wordings of nights, by night (ISO 8601) and kind."""
    found: dict[tuple[str, str], set[str]] = {}
    rows = store.rows("SELECT night, kind, text FROM wording WHERE night IN (SELECT value FROM json_each(?))", (_spelt(nights),))
    for night, kind, text in rows:
        found.setdefault((night, kind), set()).add(text)
    return found


def places_at(store: Store, nights: Iterable[date]) -> dict[date, tuple[str, str]]:
    """Where nights were spent, of those of which it is known: the place's id, and how it came."""
    rows = store.rows(
        "SELECT date, place_id, place_source FROM night WHERE place_id IS NOT NULL AND date IN (SELECT value FROM json_each(?))",
        (_spelt(nights),),
    )
    return {date.fromisoformat(night): (place_id, source) for night, place_id, source in rows}


def readings_at(store: Store, nights: Iterable[date]) -> dict[tuple[str, date], float]:
    """What is noted on nights, by tracker and night."""
    rows = store.rows(
        "SELECT tracker_id, night, value FROM reading WHERE night IN (SELECT value FROM json_each(?))", (_spelt(nights),)
    )
    return {(tracker_id, date.fromisoformat(night)): value for tracker_id, night, value in rows}


def put(store: Store, lines: Sequence[ComingLine], written: Moment) -> None:
    """Keep lines where there are none, and never were: each of another night or kind."""
    at = utc_text(written.utc)
    with store.writing() as connection:
        nights = [(night, at) for night in dict.fromkeys(line.night.isoformat() for line in lines)]
        _insert(connection, "INSERT INTO night (date, begun_at) VALUES", nights, "ON CONFLICT (date) DO NOTHING")
        # In the order of their numbers: so the file grows at its end.
        rows = [_row(line, at, written) for line in sorted(lines, key=lambda line: line.number)]
        _insert(connection, "INSERT INTO line (number, folded, id, night, kind, text, written_at, offset_minutes, zone, sum) VALUES", rows)


def _insert(connection: Connection, begins: str, rows: Sequence[tuple], ends: str = "") -> None:
    """Insert rows, a hundred by each statement: FTS5 writes its index anew at each, and that takes most of the time."""
    for at in range(0, len(rows), _BY_ONE):
        part = rows[at : at + _BY_ONE]
        marks = f"({', '.join('?' * len(part[0]))})"
        connection.execute(f"{begins} {', '.join([marks] * len(part))} {ends}", [value for row in part for value in row])


def _row(line: ComingLine, at: str, written: Moment) -> tuple:
    row = (new_id(), line.night.isoformat(), line.kind, line.text, at, written.offset_minutes, written.zone)
    return (line.number, folded_or_none(line.text), *row, line_sum(*row))


def set_aside(store: Store, line: ComingLine, written: Moment) -> None:
    """Keep words as an earlier wording of the line that stands there."""
    with store.writing() as connection:
        (line_id,) = store.row("SELECT id FROM line WHERE number = ?", (line.number,))
        row = (line_id, line.night.isoformat(), line.kind, line.text, utc_text(written.utc), written.offset_minutes, written.zone)
        connection.execute(
            "INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone, sum) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (*row, line_sum(*row)),
        )


def shape(store: Store, shape: str) -> str | None:
    """What was said last of the columns of files of a shape, as JSON; None where nothing was."""
    row = store.row("SELECT meant FROM file_shape WHERE shape = ?", (shape,))
    return row[0] if row else None


def keep_shape(store: Store, shape: str, meant: str, used_at: str) -> None:
    """Keep what the person said of them."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO file_shape (shape, meant, used_at) VALUES (?, ?, ?) ON CONFLICT (shape) DO UPDATE SET "
            "meant = excluded.meant, used_at = excluded.used_at",
            (shape, meant, used_at),
        )


def _spelt(nights: Iterable[date]) -> str:
    return json.dumps([night.isoformat() for night in dict.fromkeys(nights)])

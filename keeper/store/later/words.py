"""Later words: what was written under a line on later nights, beside the line and never in it."""

import json
from datetime import date, timedelta

from keeper.model import Moment
from keeper.model.later import EarlierLater, LaterWord
from keeper.store.file.opening import Store
from keeper.store.moments import damaged, day, moment, number, utc_instant, utc_text, words

_LARGEST = 1e15

AN_EVENING = timedelta(hours=12)
"""What was written no longer ago is still being written: what it said meanwhile is no earlier wording."""

_EARLIER = "earlier"
"""Under this name the words that stand beside other words say what was said before."""


def from_told(told: str) -> tuple[LaterWord, ...]:
    """The later words from the value of ``lines.LATER``, oldest first. Raises NotAKeeper for damaged ones."""
    return tuple(sorted((_word(row) for row in json.loads(told)), key=lambda one: one.said_on))


def _word(row: list) -> LaterWord:
    said_on, text, written_at, offset, zone, looks, of, was, tracker_id = row
    if looks is not None and number(looks, -_LARGEST, _LARGEST) is None:
        raise damaged(looks, "a reading")
    written = moment(written_at, offset, zone)
    return LaterWord(day(said_on), words(text), written, looks, of or "", number(was, -_LARGEST, _LARGEST), tracker_id or "")


def write(store: Store, line_id: str, said_on: date, text: str, written: Moment) -> None:
    """Let this be what was said of a line on a night; "" takes it out, but for how a reading looks."""
    with store.writing() as connection:
        key = (line_id, said_on.isoformat())
        _set_aside(store, key, text, written)
        if not text:
            connection.execute(
                "DELETE FROM later_word WHERE line_id = ? AND said_on = ? AND value IS NULL", key
            )
            connection.execute("UPDATE later_word SET text = '' WHERE line_id = ? AND said_on = ? AND text <> ''", key)
            return
        connection.execute(
            "INSERT INTO later_word (line_id, said_on, text, written_at, offset_minutes, zone) VALUES (?, ?, ?, ?, ?, ?) "
            "ON CONFLICT DO UPDATE SET text = excluded.text, written_at = excluded.written_at, "
            "offset_minutes = excluded.offset_minutes, zone = excluded.zone WHERE text <> excluded.text",
            (*key, text, utc_text(written.utc), written.offset_minutes, written.zone),
        )


def note(store: Store, line_id: str, said_on: date, tracker_id: str, value: float | None, written: Moment) -> None:
    """Keep how a reading of the line's night looks on a later one; None takes that back. The reading itself stays as it is."""
    with store.writing() as connection:
        key = (line_id, said_on.isoformat())
        if value is None:
            connection.execute("DELETE FROM later_word WHERE line_id = ? AND said_on = ? AND text = ''", key)
            connection.execute(
                "UPDATE later_word SET value = NULL, tracker_id = NULL WHERE line_id = ? AND said_on = ? AND value IS NOT NULL", key
            )
            return
        connection.execute(
            "INSERT INTO later_word (line_id, said_on, tracker_id, value, written_at, offset_minutes, zone) "
            "VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET tracker_id = excluded.tracker_id, value = excluded.value "
            "WHERE (tracker_id, value) IS NOT (excluded.tracker_id, excluded.value)",
            (*key, tracker_id, value, utc_text(written.utc), written.offset_minutes, written.zone),
        )


def _set_aside(store: Store, key: tuple[str, str], coming: str, now: Moment) -> None:
    """Keep what was said on another evening, before other words take its place, or none."""
    row = store.row("SELECT text, written_at FROM later_word WHERE line_id = ? AND said_on = ? AND text NOT IN ('', ?)", (*key, coming))
    if row and utc_instant(row[1]) < now.utc - AN_EVENING:
        with store.writing() as connection:
            connection.execute(
                "INSERT INTO second_wording (what, ref, name, text, came_at) VALUES ('later_word', ?, ?, ?, ?) "
                "ON CONFLICT DO UPDATE SET came_at = excluded.came_at",
                (_ref(key), _EARLIER, row[0], utc_text(now.utc)),
            )


def _ref(key: tuple[str, str]) -> str:
    # Not by SQLite's own json_array: what that gives is noted as a list, and the key of a row has none.
    return json.dumps(key)


def earlier(store: Store, line_id: str, said_on: date) -> tuple[EarlierLater, ...]:
    """What a later word said before, what was replaced last first."""
    rows = store.rows(
        "SELECT text, came_at FROM second_wording WHERE what = 'later_word' AND ref = ? AND name = ? ORDER BY came_at DESC, text",
        (_ref((line_id, said_on.isoformat())), _EARLIER),
    )
    return store.made(lambda row: EarlierLater(words(row[0]), utc_instant(row[1])), rows)

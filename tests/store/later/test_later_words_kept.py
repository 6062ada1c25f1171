"""Later words and what was brought up, on disk."""

import json
import sqlite3
from datetime import date

import pytest
from sqlite_utils import Database

from keeper.errors import NotAKeeper
from keeper.model import Act
from keeper.store import lines, open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.later import words
from keeper.store.remembering import brought_up

THEN = "2026-11-14T20:00:00.000000Z"
NIGHT, EVENING = date(2025, 11, 15), date(2026, 11, 14)


def test_an_older_keeper_gets_room_for_them_and_its_lines_are_read(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m024_later_words")
    assert not {"later_word", "brought_up"} & set(old.table_names())
    old.execute("INSERT INTO night (date, begun_at) VALUES ('2026-11-14', ?)", (THEN,))
    old.execute(
        "INSERT INTO line (number, id, night, kind, text, written_at, offset_minutes, zone, sum) "
        "VALUES (1, 'one', '2026-11-14', 'memory', 'Kept.', ?, 0, '', 0)", (THEN,),
    )  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 19")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert [(one.text, one.later) for one in lines.of_night(store, EVENING)] == [("Kept.", ())]


def test_of_a_line_with_a_damaged_later_word_the_words_are_shown(store):
    with store.writing(Act("Something")) as connection:
        connection.execute("INSERT INTO night (date, begun_at) VALUES ('2026-11-14', ?)", (THEN,))
        row = "INSERT INTO line (number, id, night, kind, text, written_at, offset_minutes, zone, sum) VALUES (1, 'one', '2026-11-14', 'memory', 'Kept.', ?, 0, '', 0)"
        connection.execute(row, (THEN,))
        connection.execute("INSERT INTO later_word VALUES ('one', '2027-11-14', 'Later.', NULL, NULL, 'no moment', 0, '')")
    assert [one.text for one in lines.of_night(store, EVENING)] == ["Kept."]


@pytest.mark.parametrize(("said_on", "text"), [("2026-11-14", 5), ("no date", "a")])
def test_what_is_no_later_word_is_told_of(said_on, text):
    with pytest.raises(NotAKeeper):
        words.from_told(json.dumps([[said_on, text, THEN, 0, "", None, None, None, None]]))



def test_what_is_brought_up_tonight_counts_from_tomorrow_on(store):
    brought_up.note(store, [NIGHT], EVENING)
    brought_up.note(store, [NIGHT], EVENING)
    assert brought_up.last_before(store, [NIGHT], EVENING) == {}
    assert brought_up.last_before(store, [NIGHT], date(2026, 11, 15)) == {NIGHT: EVENING}
    brought_up.note(store, [NIGHT], date(2026, 11, 20))
    # The evening is not over: what was chosen for it stays chosen.
    assert brought_up.last_before(store, [NIGHT, EVENING], date(2026, 11, 20)) == {NIGHT: EVENING}

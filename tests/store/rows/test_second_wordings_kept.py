"""Second wordings: an older keeper gets room for them, and each is told beside what stands here now."""

import sqlite3

from sqlite_utils import Database

from keeper.model import Act
from keeper.store import open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.rows import second_wordings
from keeper.store.rows.shape import LEFT_OUT, WHAT, tables

THEN = "2026-11-14T20:00:00.000000Z"


def test_an_older_keeper_has_room_for_them(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m017_second_wordings")
    old.execute("INSERT INTO night (date, begun_at) VALUES ('2026-11-14', ?)", (THEN,))
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 11")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert store.row("SELECT count(*) FROM night") == (1,) and second_wordings.every(store) == ()


def test_each_is_told_with_what_is_here_now(store):
    with store.writing(Act("Something")) as connection:
        connection.execute("INSERT INTO month_page (month, question) VALUES ('2026-11', 'What held?')")
        for what, ref, name in (("month_page", '["2026-11"]', "question"), ("goal", '["gone"]', "text"), ("x; y", "[1]", "z"), ("goal", "[]", 'a"b')):
            connection.execute(
                "INSERT INTO second_wording (what, ref, name, text, came_at) VALUES (?, ?, ?, 'What broke?', ?)", (what, ref, name, THEN)
            )
    told = {(one.what, one.here, one.there) for one in second_wordings.every(store)}
    assert told == {("Month 2026-11: question", "What held?", "What broke?"), ("Goal: text", "", "What broke?"), ('Goal: a"b', "", "What broke?")}


def test_every_table_is_given_or_left_out_for_a_reason(store):
    given = {table.name for table in tables(store)}
    assert given.isdisjoint(LEFT_OUT) and {"line", "wording", "draft", "setting", "theme_decision", "second_wording"} <= given
    assert WHAT.keys() & given and all(table.key for table in tables(store))

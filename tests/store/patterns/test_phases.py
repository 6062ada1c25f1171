"""Where the second phase of a cycle begins: kept as it was said, undone, and brought along from an older keeper."""

import sqlite3
from datetime import date

from sqlite_utils import Database

from keeper.model import Act, Tracker
from keeper.store import open_store, trackers
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.history import acts
from keeper.store.patterns import phases

BEGINS, RISE = date(2026, 3, 2), date(2026, 3, 17)
ACT = Act("A phase", "patterns")


def test_what_was_said_is_kept_said_again_and_left_to_the_rule(store):
    trackers.add(store, Tracker("m", "begun", "mark", None, None, "", "neither", BEGINS), Act("begun"))
    phases.say(store, "m", BEGINS, RISE, ACT)
    phases.say(store, "m", RISE, None, ACT)
    assert phases.of_mark(store, "m") == {BEGINS: RISE, RISE: None} and phases.of_mark(store, "n") == {}
    phases.say(store, "m", BEGINS, None, ACT)
    phases.leave_to_rule(store, "m", RISE, ACT)
    assert phases.of_mark(store, "m") == {BEGINS: None}


def test_the_same_said_again_is_no_act(store):
    trackers.add(store, Tracker("m", "begun", "mark", None, None, "", "neither", BEGINS), Act("begun"))
    phases.say(store, "m", BEGINS, None, ACT)
    before = len(acts.latest(store, 9))
    phases.say(store, "m", BEGINS, None, ACT)
    assert len(acts.latest(store, 9)) == before


def test_an_older_keeper_comes_along_without_phases(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m016")
    migrations.apply(old, stop_before=later[0])
    old.execute("INSERT INTO tracker (id, name, form, unit, better, began, position) "
                "VALUES ('m', 'begun', 'mark', '', 'neither', '2026-01-01', 0)")  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 11")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,) and phases.of_mark(store, "m") == {}
        phases.say(store, "m", BEGINS, RISE, ACT)
        assert phases.of_mark(store, "m") == {BEGINS: RISE}

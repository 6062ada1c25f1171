"""An older keeper comes along with room for patterns, and nothing in it."""

import sqlite3

from sqlite_utils import Database

from keeper.actions.patterns import asking
from keeper.store import open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.history.watched import watched
from keeper.store.patterns import decided, found


def test_an_older_keeper_comes_along(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m012")
    migrations.apply(old, stop_before=later[0])
    old.execute("INSERT INTO tracker (id, name, form, unit, better, began, position) "
                "VALUES ('m', 'mood', 'scale', '', 'higher', '2026-01-01', 0)")  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 11")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert (decided.picked(store), decided.decisions(store), found.told(store), found.answers(store)) == ((), {}, "", {})
        # What was found can be found again; what was decided is the person's.
        assert {one.name for one in watched(store.connection) if one.name.startswith("pattern")} == {"pattern_pick", "pattern_decision"}
        asking.pick(store, ["reading:m"])
        assert [one.name for one in asking.taking_part(store)] == ["mood"]

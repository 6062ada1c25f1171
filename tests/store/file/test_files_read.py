"""Shapes of files that were read in: an older keeper comes along, and what is kept of them is nothing a person did."""

import sqlite3

from sqlite_utils import Database

from keeper.store import open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.taking_in import many

SHAPE = "a" * 64


def test_an_older_keeper_comes_along_and_remembers_from_then_on(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m015")
    migrations.apply(old, stop_before=later[0])
    assert "file_shape" not in old.table_names()
    old.execute("INSERT INTO night (date, begun_at) VALUES ('2026-06-03', '2026-06-03T20:00:00.000000Z')")
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 11")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert many.shape(store, SHAPE) is None and store.row("SELECT count(*) FROM night") == (1,)
        for told in ("[1]", "[2]"):
            many.keep_shape(store, SHAPE, told, "2026-06-03T20:00:00.000000Z")
        assert many.shape(store, SHAPE) == "[2]"
        assert store.row("SELECT count(*) FROM act") == (0,)

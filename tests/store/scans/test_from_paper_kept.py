"""Pages of a notebook and lines from paper: brought into an older keeper, and read when damaged."""

import sqlite3
from datetime import UTC, date, datetime

from sqlite_utils import Database

from keeper.model.scans import WHOLE, Scan
from keeper.store import lines
from keeper.store.file.folder import FILE
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import MARK, SCHEMA, open_store
from keeper.store.scans import known

NIGHT, NOW = date(2026, 9, 1), datetime(2026, 11, 14, tzinfo=UTC)


def scan(**more) -> Scan:
    told = {"sha256": "a" * 64, "ending": "png", "bytes": 9, "page": 0, "name": "one.png", "first": NIGHT, "last": NIGHT}
    return Scan("", **(told | more))


def test_an_older_keeper_comes_along_with_no_page_and_nothing_from_paper(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m014")
    migrations.apply(old, stop_before=later[0])
    assert not old["scan"].exists() and not old["from_paper"].exists()
    old.execute("INSERT INTO night (date, begun_at) VALUES ('2026-09-01', '2026-09-01T20:00:00.000000Z')")
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 13")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert known.of_span(store, NIGHT, NIGHT) == () and "memory" not in lines.from_paper(store, NIGHT)
        with store.unnoted():
            known.add(store, [scan()], NOW)
        assert known.any_of(store, NIGHT, NIGHT) == 1


def test_what_is_damaged_of_how_a_page_is_seen_is_as_it_came(store):
    with store.unnoted() as connection:
        (one,) = known.add(store, [scan(turns=1, angle=2.5, cut=(0.1, 0.1, 0.9, 0.9))], NOW)
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute("UPDATE scan SET turns = 9, angle = 1000, cut_left = 0.95")
    assert known.by_id(store, one.id).cut == WHOLE
    assert (known.by_id(store, one.id).turns, known.by_id(store, one.id).angle) == (0, 0.0)


def test_a_page_is_kept_once(store):
    with store.unnoted():
        assert len(known.add(store, [scan(), scan(page=1)], NOW)) == 2
        assert known.add(store, [scan(name="again")], NOW) == ()
    assert [one.page for one in known.there(store, "a" * 64)] == [0, 1]

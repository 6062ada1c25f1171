"""An older keeper comes along without the index of the days of the year, and the same nights are found."""

import sqlite3
from datetime import UTC, date, datetime

import pytest
from sqlite_utils import Database

from keeper.model import Moment
from keeper.store import lines, nights
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA, open_store
from keeper.store.history.shapes import watch


@pytest.fixture
def older(folder):
    """A keeper of the shape before, empty."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m019")
    migrations.apply(old, stop_before=later[0])
    watch(old.conn)
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 18")
    old.conn.close()
    return folder


def test_the_index_goes_and_the_nights_are_found(older):
    with open_store(older) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        assert not store.row("SELECT 1 FROM sqlite_schema WHERE name = 'line_day'")
        for year in (1931, 1976, 2024, 2026):
            lines.keep(store, date(year, 2, 28), "memory", f"Ice, {year}.", Moment(datetime(2026, 1, 1, tzinfo=UTC), 0, ""))
        lines.keep(store, date(2024, 2, 29), "memory", "A day more.", Moment(datetime(2026, 1, 1, tzinfo=UTC), 0, ""))
        found = nights.on_days(store, ["02-28", "02-29"], date(2026, 2, 28))
    assert found == (date(2024, 2, 29), date(2024, 2, 28), date(1976, 2, 28), date(1931, 2, 28))

"""A place's mark: its tint and shape, once given, stay."""

import sqlite3
from datetime import date, timedelta

import pytest
from sqlite_utils import Database

from keeper.actions import reading, writing
from keeper.actions.months.shown import month_page
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.store import open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA

NIGHT = date(2026, 11, 14)


@pytest.fixture
def spend(store, clock):
    """Spends a night, some days ago, at a place; returns the place."""
    return lambda name, ago: writing.set_place(store, NIGHT - timedelta(days=ago), name, clock)


def marks(store) -> dict[str, int | None]:
    """The marks of all places, by name."""
    return dict(store.rows("SELECT name, mark FROM place"))


def test_nights_typed_up_later_recolour_nothing(store, spend, clock):
    for ago, name in enumerate(("Riga", "Visby", "Turku")):
        spend(name, ago)
    before = marks(store)
    for name in ("Kalmar", "Visby", "Aarhus"):
        writing.set_place(store, date(2019, 6, 3) + timedelta(days=len(marks(store))), name, clock)
    after = marks(store)
    assert {name: after[name] for name in before} == before
    assert len(set(after.values())) == 5


def test_a_mark_is_given_at_the_first_night_and_to_one_place_only(store, spend):
    given = [spend(f"Town {number}", number).name for number in range(60)]
    found = marks(store)
    assert [found[name] for name in given] == [number % 48 for number in range(60)]
    store.connection.execute("INSERT INTO place (id, name, begun_at) VALUES ('n', 'Never', '')")
    assert marks(store)["Never"] is None


def test_every_page_asks_for_the_same_mark(store, spend, clock):
    spend("Riga", 400)
    visby = spend("Visby", 1)
    writing.set_place(store, date(2019, 6, 3), "Kalmar", clock)
    ribbon = reading.ribbon_year(store, 2026)[1][visby.id]
    listed = next(one.place.mark for one in places.places_view(store, 2026).places if one.place.id == visby.id)
    month = month_page(store, NIGHT.replace(day=1)).places[0].place.mark
    assert {ribbon, listed, month, places.place_view(store, visby.id).kept.place.mark} == {1}


def test_a_merge_and_its_taking_apart_leave_the_marks(store, spend, clock):
    riga, visby, turku = spend("Riga", 3), spend("Visby", 2), spend("Turku", 1)
    before = marks(store)
    place_merging.merge(store, riga.id, visby.id, clock)
    assert marks(store) == {"Visby": before["Visby"], "Turku": before["Turku"]}
    spend("Kalmar", 0)
    place_merging.take_apart(store, place_merging.merged_into(store, visby.id)[0].id)
    after = marks(store)
    assert {name: after[name] for name in before} == before
    assert after["Kalmar"] not in before.values()
    assert turku.name in after


def test_a_place_without_nights_that_is_merged_into_gets_a_mark(store, spend, clock):
    riga = spend("Riga", 3)
    store.connection.execute("INSERT INTO place (id, name, begun_at) VALUES ('n', 'R\u012bga', '')")
    place_merging.merge(store, riga.id, "n", clock)
    assert marks(store) == {"R\u012bga": 1}
    place_merging.take_apart(store, place_merging.merged_into(store, "n")[0].id)
    assert marks(store) == {"Riga": 0, "R\u012bga": 1}


@pytest.fixture
def version_2(folder):
    """A keeper of version 2: places slept at in another order than that of their ids, one merged away."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m006_places_keep_their_mark")
    old.execute("INSERT INTO about VALUES ('id', 'one')")
    for name in ("a", "b", "c", "gone", "never"):
        old.execute("INSERT INTO place (id, name, begun_at) VALUES (?, ?, '')", [name, name])
    for night, name in (("2026-11-01", "b"), ("2025-01-01", "c"), ("2026-11-02", "a"), ("2026-11-03", "c")):
        old.execute(f"INSERT INTO night VALUES ('{night}', '{name}', 'said', NULL, '')")
    gone = '{"id": "gone", "name": "gone", "region": "", "country": "", "latitude": null, "longitude": null, '
    gone += '"zone": "", "geoname_id": null, "begun_at": ""}'
    old.execute("DELETE FROM place WHERE id = 'gone'")
    old.execute("INSERT INTO place_merge VALUES ('m', 1, 'a', ?, '{}', '2026-11-04')", [gone])
    old.execute("INSERT INTO place_merge_night VALUES ('m', '2026-11-02')")
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 2")
    old.conn.close()
    return folder


def test_on_upgrading_nothing_changes_colour(version_2, clock):
    with open_store(version_2) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        assert marks(store) == {"a": 2, "b": 1, "c": 0, "never": None}
        writing.set_place(store, date(2019, 1, 1), "never", clock)
        assert marks(store) == {"a": 2, "b": 1, "c": 0, "never": 3}
        place_merging.take_apart(store, "m")
        assert marks(store) == {"a": 2, "b": 1, "c": 0, "never": 3, "gone": 4}
        assert not any(one.on_the_way for one in reading.known_places(store))

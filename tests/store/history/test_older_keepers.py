"""Keepers of earlier versions, from the very first on, get their history; killed at any moment they are the one or the other."""

import random
import shutil
import sqlite3
import subprocess
import sys
import time
from datetime import date
from pathlib import Path

import pytest
from soundness import whole
from sqlite_utils import Database
from whole_keeper import content

from keeper.actions import writing
from keeper.actions.places import merging
from keeper.actions.themes import undoing as theme_undoing
from keeper.store import create_store, lines, open_store, settings
from keeper.store.file.folder import FILE
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import MARK, SCHEMA
from keeper.store.history import turning
from keeper.store.history.watched import watched

NIGHT = date(2026, 11, 14)
UPGRADER = Path(__file__).with_name("killed_upgrader.py")

VERSIONS = (1, 2, 6)

ROWS = (
    "INSERT INTO setting VALUES ('ink', 'plum'), ('page', 'month'), ('window', 'AAAA'), ('left_on', '2026-11-13')",
    "INSERT INTO place (id, name, begun_at) VALUES ('p', 'Riga', '2026-11-14T20:00:00.000000Z')",
    "INSERT INTO night (date, place_id, place_source, begun_at) VALUES ('2026-11-14', 'p', 'said', '2026-11-14T20:00:00.000000Z')",
    "INSERT INTO line (number, id, night, kind, text, written_at, offset_minutes, zone) VALUES "
    "(2959737, 'l', '2026-11-14', 'memory', 'One', '2026-11-14T20:00:00.000000Z', 120, 'Europe/Riga')",
    "UPDATE line SET text = 'Two'",
    "INSERT INTO theme_decision VALUES ('d', 1, 'leave out', '{\"word\": \"fog\"}', '2026-11-14T20:00:00.000000Z', NULL)",
)


def older(folder: Path, version: int) -> Path:
    """A keeper as that version left it."""
    create_store(folder).close()
    (folder / FILE).unlink()
    with sqlite3.connect(folder / FILE) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        names = [one.name for one in migrations._migrations]
        migrations.apply(Database(connection), stop_before=next(name for name in names if int(name[1:4]) > version))
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute(f"PRAGMA user_version = {version}")
        for statement in ROWS:
            connection.execute(statement)
    connection.close()
    return folder


@pytest.mark.parametrize("version", VERSIONS)
def test_an_older_keeper_gets_its_history(folder, clock, version):
    with open_store(older(folder, version)) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA and whole(store)
        assert turning.next_undone(store) is None and store.rows("SELECT * FROM change") == []
        assert settings.read(store) == {"ink": "plum", "page": "month", "window": "AAAA", "left_on": "2026-11-13"}
        assert store.rows("SELECT * FROM setting") == [("ink", "plum")]
        before = content(store)
        writing.write_line(store, NIGHT, "memory", "Three", clock)
        writing.set_place(store, NIGHT, "Visby", clock)
        assert [one.text for one in lines.wordings(store, NIGHT, "memory")] == ["Two", "One"]
        for _ in range(2):
            turning.turn(store, turning.next_undone(store))
        assert content(store) == before
        names = {name for (name,) in store.rows("SELECT name FROM sqlite_schema WHERE type = 'trigger'")}
        assert {f"history_{table.name}_in" for table in watched(store.connection)} <= names


def test_what_was_decided_on_themes_before_is_taken_back_as_ever(folder, clock):
    with open_store(older(folder, 6)) as store:
        (made,) = theme_undoing.decisions(store, clock)
        assert theme_undoing.undo(store, made.id, clock) == "Took back: \u201cfog\u201d left out."
        assert theme_undoing.decisions(store, clock) == ()
        turning.turn(store, turning.next_undone(store))
        assert theme_undoing.decisions(store, clock) == (made,)


def test_places_merged_before_are_taken_apart_as_ever(folder, clock):
    with open_store(older(folder, 6)) as store:
        visby = writing.set_place(store, date(2026, 11, 13), "Visby", clock)
        merging.merge(store, "p", visby.id, clock)
        with store.unnoted() as connection:
            connection.execute("DELETE FROM act")
            connection.execute("DELETE FROM change")
        (made,) = merging.merged_into(store, visby.id)
        merging.take_apart(store, made.id)
        assert store.rows("SELECT place_id FROM night WHERE date = '2026-11-14'") == [("p",)]
        turning.turn(store, turning.next_undone(store))
        assert store.rows("SELECT place_id FROM night WHERE date = '2026-11-14'") == [(visby.id,)]


def test_killed_while_it_is_brought_up_to_date_it_is_the_one_or_the_other(folder, tmp_path):
    chance = random.Random(9)
    kept = older(folder, 6)
    seen = set()
    for number in range(5):
        copy = shutil.copytree(kept, tmp_path / str(number))
        upgrader = subprocess.Popen([sys.executable, UPGRADER, copy])
        time.sleep(chance.uniform(0.05, 0.7))
        upgrader.kill()
        upgrader.wait()
        with sqlite3.connect(copy / FILE) as connection:
            seen.add(connection.execute("PRAGMA user_version").fetchone()[0])
        connection.close()
        with open_store(copy) as store:
            assert whole(store) and settings.read(store)["ink"] == "plum"
            assert lines.one(store, NIGHT, "memory").text == "Two"
    assert seen <= {6, SCHEMA}

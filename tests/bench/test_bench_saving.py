"""Keeping a line, durably, against a bare insert and commit with the same pragmas."""

import shutil
import sqlite3
from dataclasses import replace
from datetime import timedelta

import fifty_years
import pytest

from keeper.actions import writing
from keeper.actions.opening import open_or_begin
from keeper.actions.readings import changing, noting
from keeper.clock import Clock

FIRST = fifty_years.LAST + timedelta(days=1)
LINE = "The ferry was late, the coffee was good, and somebody sang on the quay, number"


@pytest.fixture(params=["new", "of fifty years", "of fifty years with readings"])
def store(request, tmp_path):
    """A keeper: just begun, with 55,000 lines, and with twenty trackers besides."""
    name, folder = "fifty_noted" if request.param.endswith("readings") else "fifty", tmp_path / "keeper"
    if request.param != "new":
        # The same lines kept once more in the same keeper would change nothing, and take no time.
        shutil.copytree(request.getfixturevalue(name), folder)
    with open_or_begin(folder) as opened:
        opened.kind = request.param
        yield opened


@pytest.fixture
def bare(tmp_path):
    """A plain table in a file with the keeper's pragmas."""
    connection = sqlite3.connect(tmp_path / "bare.db", isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        connection.execute(f"PRAGMA {pragma}")
    connection.execute("CREATE TABLE line (night TEXT, kind TEXT, text TEXT, written_at TEXT, PRIMARY KEY (night, kind))")
    yield connection
    connection.close()


def bare_insert(connection: sqlite3.Connection, number: int) -> None:
    """Insert and commit one line."""
    connection.execute("BEGIN IMMEDIATE")
    row = ((FIRST + timedelta(days=number)).isoformat(), "memory", f"{LINE} {number}", "2026-11-14T20:00:00Z")
    connection.execute("INSERT INTO line VALUES (?, ?, ?, ?)", row)
    connection.execute("COMMIT")


def test_saving_a_line(store, bare, compared):
    clock = Clock()

    def ours(number: int) -> None:
        writing.write_line(store, FIRST + timedelta(days=number), "memory", f"{LINE} {number}", clock)

    compared(f"saving a line, keeper {store.kind}", ours, lambda n: bare_insert(bare, n), rounds=400, target=1.7)
    assert store.row("SELECT count(*) FROM line WHERE night >= ?", (FIRST.isoformat(),))[0] == 450
    assert bare.execute("SELECT count(*) FROM line").fetchone() == (400,)


def bare_reading(connection: sqlite3.Connection, number: int) -> None:
    """Insert and commit one reading."""
    connection.execute("BEGIN IMMEDIATE")
    row = ((FIRST + timedelta(days=number)).isoformat(), "mood", float(number % 11), "2026-11-14T20:00:00Z")
    connection.execute("INSERT INTO reading VALUES (?, ?, ?, ?)", row)
    connection.execute("COMMIT")


def test_noting_a_reading(store, bare, compared):
    bare.execute("CREATE TABLE reading (night TEXT, tracker TEXT, value REAL, noted_at TEXT, PRIMARY KEY (tracker, night))")
    clock, mood = Clock(), changing.begin(store, replace(changing.offered(FIRST)[0], key=""))

    def ours(number: int) -> None:
        noting.note(store, FIRST + timedelta(days=number), mood.id, str(number % 11), clock)

    compared(f"noting a reading, keeper {store.kind}", ours, lambda n: bare_reading(bare, n), rounds=400, target=2.0)
    assert store.row("SELECT count(*) FROM reading WHERE tracker_id = ?", (mood.id,))[0] == 450


def test_saving_a_draft(store, bare, compared):
    clock = Clock()

    def ours(number: int) -> None:
        writing.keep_draft(store, FIRST, "memory", f"{LINE} {number}", clock, known=f"{LINE} {number - 1}")

    compared(f"saving a draft, keeper {store.kind}", ours, lambda n: bare_insert(bare, n), rounds=200)
    assert store.row("SELECT text FROM draft") == (f"{LINE} 249",)

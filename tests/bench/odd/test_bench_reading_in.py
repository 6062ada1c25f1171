"""Reading in 20,000 lines of a table, against the same rows put bare into the same table with the same index and search."""

import csv
import random
import sqlite3
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from sqlite_utils import Database

from keeper.actions.opening import open_or_begin
from keeper.actions.taking_in import keeping, looking, weighing
from keeper.clock import StoppedClock
from keeper.store.ids import new_id

ROUNDS, LINES, FIRST = 3, 20_000, date(1970, 1, 1)
WORDS = ("ferry", "coffee", "quay", "piano", "tuned", "string", "hammer", "felt", "hotel", "rain", "sun", "walked", "slept", "train",
         "letter", "harbour", "church", "bell", "bread")
CLOCK = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")


@pytest.fixture
def table(tmp_path) -> Path:
    chance, path = random.Random(1), tmp_path / "lines.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["date", "memory"])
        rows.writerows(((FIRST + timedelta(days=at)).isoformat(), f"The {' '.join(chance.choices(WORDS, k=10))} number {at}.") for at in range(LINES))
    return path


def bare_insert(table: Path, file: Path) -> None:
    """Begin a plain database with the keeper's pragmas, its index of lines and its search, and insert all rows."""
    connection = sqlite3.connect(file, isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON", "secure_delete = ON"):
        connection.execute(f"PRAGMA {pragma}")
    connection.execute(
        "CREATE TABLE line (number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, night TEXT NOT NULL, kind TEXT NOT NULL, text TEXT NOT NULL, "
        "written_at TEXT NOT NULL, offset_minutes INTEGER NOT NULL, zone TEXT NOT NULL, UNIQUE (night, kind)) STRICT"
    )
    connection.execute("CREATE INDEX line_day ON line (substr(night, 6), night)")
    connection.execute(
        "CREATE VIRTUAL TABLE words USING fts5 (text, content='line', content_rowid='number', "
        "tokenize='unicode61 remove_diacritics 2', prefix='2 3')"
    )
    connection.execute(
        "CREATE TRIGGER line_in AFTER INSERT ON line BEGIN INSERT INTO words (rowid, text) VALUES (new.number, new.text); END"
    )
    Database(connection)["line"].insert_all(_rows(table))
    assert connection.execute("SELECT count(*) FROM line").fetchone() == (LINES,)
    connection.close()


def _rows(table: Path):
    with table.open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            yield {
                "number": date.fromisoformat(row["date"]).toordinal() * 64, "id": new_id(), "night": row["date"], "kind": "memory",
                "text": row["memory"], "written_at": "2026-11-14T20:00:00.000000Z", "offset_minutes": 120, "zone": "Europe/Riga",
            }  # fmt: skip


def test_reading_in_a_table(table, tmp_path, compared):
    # The rounds compared, and as many again.
    stores = [open_or_begin(tmp_path / f"keeper {number}") for number in range(2 * ROUNDS)]
    looked = [looking.look(store, table, CLOCK) for store in stores]
    weighed = weighing.weigh(stores[0], looked[0], CLOCK)

    def ours(number: int) -> None:
        keeping.keep(stores[number], looked[number], weighed, CLOCK)

    compared("reading in 20,000 lines", ours, lambda n: bare_insert(table, tmp_path / f"bare {n}.db"), rounds=ROUNDS, target=3.0)
    assert stores[0].row("SELECT count(*) FROM line") == (LINES,)
    for store in stores:
        store.close()

"""Pages of a notebook, which lie with the photos and which another table knows by their SHA-256."""

import hashlib
from datetime import timedelta

import pytest
from kept_things import NIGHT, fill

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.opening import open_or_begin
from keeper.store.photos.files import relative_file

PAGE = b"%PDF-1.7 a page in the hand of a piano tuner"
SHA256 = hashlib.sha256(PAGE).hexdigest()
TABLE = """CREATE TABLE IF NOT EXISTS scan (
    id TEXT PRIMARY KEY, sha256 TEXT NOT NULL, ending TEXT NOT NULL, bytes INTEGER NOT NULL, page INTEGER NOT NULL DEFAULT 0,
    name TEXT NOT NULL DEFAULT '', first TEXT NOT NULL, last TEXT NOT NULL, came_at TEXT NOT NULL) STRICT"""
ROW = ("s", SHA256, "pdf", len(PAGE), 0, "notebook", NIGHT.isoformat(), NIGHT.isoformat(), "2026-11-14T20:00:00.000000Z")
COLUMNS = "id, sha256, ending, bytes, page, name, first, last, came_at"


@pytest.fixture
def kept(store, clock, tmp_path):
    fill(store, clock, tmp_path, pictures=0)
    with store.unnoted() as connection:
        connection.execute(TABLE)
        connection.execute(f"INSERT INTO scan ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", ROW)
    file = store.folder / "photos" / relative_file(SHA256, "pdf")
    file.parent.mkdir(parents=True)
    file.write_bytes(PAGE)
    return store


def test_they_go_out_and_come_in(kept, clock, tmp_path):
    given = give(kept, tmp_path / "out", ToGive(), clock)
    assert "1 file of notebook pages" in given.sentence
    (page,) = (tmp_path / "out/data/notebook").iterdir()
    assert page.name == f"2026-11-14 {SHA256[:16]}.pdf" and page.read_bytes() == PAGE
    with open_or_begin(tmp_path / "other") as other:
        other.connection.execute(TABLE)
        take(other, tmp_path / "out", clock)
        assert other.row(f"SELECT {COLUMNS} FROM scan") == ROW
        assert (other.folder / "photos" / relative_file(SHA256, "pdf")).read_bytes() == PAGE


def test_one_that_is_not_in_the_archive_does_not_come(kept, clock, tmp_path):
    give(kept, tmp_path / "out", ToGive(frozenset({"json"})), clock)
    with open_or_begin(tmp_path / "other") as other:
        other.connection.execute(TABLE)
        assert take(other, tmp_path / "out", clock).seen.without_file == 1
        assert other.row("SELECT count(*) FROM scan") == (0,)


@pytest.mark.parametrize("held_back", [
    ToGive(resting=False), ToGive(positions=False), ToGive(first=NIGHT + timedelta(1)), ToGive(last=NIGHT - timedelta(1)),
])  # fmt: skip
def test_one_that_may_show_what_is_held_back_is_in_no_file(kept, clock, tmp_path, held_back):
    give(kept, tmp_path / "out", held_back, clock)
    found = b"".join(path.read_bytes() for path in (tmp_path / "out").rglob("*") if path.is_file())
    assert b"in the hand of" not in found and (held_back.all_nights or SHA256.encode() not in found)

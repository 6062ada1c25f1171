"""Carving against what SQLite itself reads from whole files ("Database File Format", 1.3 to 1.6, 2.1 and 4)."""

import random
import shutil
import sqlite3
from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keeper.actions import writing
from keeper.clock import StoppedClock
from keeper.model import KINDS
from keeper.store import create_store, open_store
from keeper.store.damage.carving import IN_PLACE, LEFT_OVER, LOOSE, RIGHT, WRONG, Carved, carve
from keeper.store.damage.leaves import leaf_of
from keeper.store.damage.pages import pages_of, read_pages
from keeper.store.file import log as logs
from keeper.store.file.folder import FILE

NIGHT = date(2026, 11, 14)
CLOCK = StoppedClock(datetime(2026, 11, 14, 22, tzinfo=UTC))
ROW = "id, night, kind, text, written_at, offset_minutes, zone, sum"


def as_rows(found: Iterable[Carved]) -> list[tuple]:
    """What was carved, as SQLite gives it."""
    return sorted((o.id, o.night, o.kind, o.text, o.written_at, o.offset_minutes, o.zone, o.sum) for o in found)


def said(file: Path, table: str) -> list[tuple]:
    """The rows of a table as SQLite reads them."""
    connection = sqlite3.connect(file)
    rows = connection.execute(f"SELECT {ROW if table == 'line' else ROW.replace('id', 'line_id', 1)} FROM {table}").fetchall()
    connection.close()
    return sorted(rows)


def carved(folder: Path):
    """What is carved out of a keeper's file and its log."""
    return carve(read_pages(folder / FILE, logs.log_of(folder / FILE)))


def fill(folder: Path, texts: Iterable[str]) -> None:
    """Begin a keeper with lines of these texts."""
    with create_store(folder) as store, store.writing():
        for n, text in enumerate(texts):
            writing.write_line(store, NIGHT - timedelta(days=n // 3), KINDS[n % 3], text, CLOCK)


def a_text(chance: random.Random) -> str:
    scripts = ("abcdefgh ", "\u00e6\u00f8\u00e5 \u00e9", "\u0431\u0432\u0433 ", "\u65e5\u672c\u8a9e", "\u0e01\u0e02", "\U0001f3b9\U0001f30a", "\u05d0\u05d1 ")
    letters = chance.choice(scripts)
    return "x" + "".join(chance.choices(letters, k=chance.choice((3, 80, 80, 80, 400, 5000, 20_000 - 1))))


@pytest.fixture(scope="module")
def filled(tmp_path_factory) -> Path:
    """A keeper of 300 lines of many scripts and lengths, some changed and some taken out, closed."""
    folder, chance = tmp_path_factory.mktemp("filled") / "keeper", random.Random(8)
    fill(folder, (a_text(chance) for _ in range(300)))
    with open_store(folder) as store, store.writing():
        for n in range(0, 60, 3):
            writing.write_line(store, NIGHT - timedelta(days=n), "memory", "" if n % 2 else "Changed.", CLOCK)
    return folder


def test_whole_files_are_carved_as_sqlite_reads_them(filled):
    found = carved(filled)
    assert as_rows(found.lines) == said(filled / FILE, "line")
    assert as_rows(found.wordings) == said(filled / FILE, "wording")
    assert {one.proof for one in found.lines} == {RIGHT} and {one.place for one in found.lines} == {IN_PLACE}
    assert found.broken_pages == 0


def test_the_index_tells_of_every_line(filled):
    assert carved(filled).told == {(row[1], row[2]) for row in said(filled / FILE, "line")}


def test_the_numbers_are_those_of_the_cells(filled):
    connection = sqlite3.connect(filled / FILE)
    assert {one.number for one in carved(filled).lines} == {row[0] for row in connection.execute("SELECT number FROM line")}
    connection.close()


def test_every_page_of_a_tree_in_a_whole_file_adds_up(filled):
    pages = read_pages(filled / FILE)
    leaves = [leaf_of(number, page, pages.usable) for number, page in pages.pages.items()]
    # The others are overflow pages: 300 lines, a seventh of them of five pages and more.
    assert len([leaf for leaf in leaves if leaf and leaf.whole]) > 60


_texts = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=300)
_long = st.builds(lambda text, times: (text * times)[:20_000], _texts, st.integers(1, 400))


@settings(max_examples=25)
@given(st.lists(_texts | _long, min_size=1, max_size=12), st.sampled_from((512, 1024, 4096, 65536)), st.sampled_from((0, 1, 5)))
def test_any_lines_in_pages_of_any_size_with_columns_to_come(tmp_path_factory, texts, size, more):
    """``more`` columns behind ours, as later versions may have."""
    file = tmp_path_factory.mktemp("any") / "one.db"
    connection = sqlite3.connect(file)
    connection.execute(f"PRAGMA page_size = {size}")
    later = "".join(f", later{n} TEXT" for n in range(more))
    connection.execute(
        "CREATE TABLE line (number INTEGER PRIMARY KEY, id TEXT, night TEXT, kind TEXT, text TEXT, folded TEXT, "
        f"written_at TEXT, offset_minutes INTEGER, zone TEXT, sum INTEGER{later})"
    )
    from keeper.store.file.sums import line_sum
    from keeper.store.ids import new_id

    rows = []
    for n, text in enumerate(texts):
        kind = ("gratitude", new_id())[n % 2]
        row = (new_id(), (NIGHT - timedelta(days=n)).isoformat(), kind, text, "2026-11-14T20:00:00.000001Z", n * 60 - 700, "Europe/Riga")
        rows.append((*row, line_sum(*row)))
        connection.execute(f"INSERT INTO line ({ROW}, number, folded) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", (*rows[-1], n + 1, text[::-1]))
    connection.commit()
    connection.close()
    found = carve(pages_of(file.read_bytes()))
    assert as_rows(found.lines) == sorted(rows)
    assert {one.proof for one in found.lines} == {RIGHT}


def test_the_log_is_laid_over_the_file(filled, tmp_path):
    folder = shutil.copytree(filled, tmp_path / "keeper")
    with open_store(folder) as store:
        store.connection.execute("PRAGMA wal_autocheckpoint = 0")
        for n in range(40):
            writing.write_line(store, NIGHT + timedelta(days=n + 1), "memory", f"In the log {n}.", CLOCK)
        writing.write_line(store, NIGHT, "memory", "Changed in the log.", CLOCK)
        for name in (FILE, f"{FILE}-wal"):
            shutil.copy(folder / name, tmp_path / name)
    found = carve(read_pages(tmp_path / FILE, tmp_path / f"{FILE}-wal"))
    assert as_rows(one for one in found.lines if one.place == IN_PLACE) == said(tmp_path / FILE, "line")


@pytest.fixture
def with_log(filled, tmp_path) -> tuple[bytes, bytearray, list[tuple]]:
    """A file, a log of forty lines that were kept one after another, and all lines."""
    folder = shutil.copytree(filled, tmp_path / "keeper")
    with open_store(folder) as store:
        store.connection.execute("PRAGMA wal_autocheckpoint = 0")
        for n in range(40):
            writing.write_line(store, NIGHT + timedelta(days=n + 1), "memory", f"In the log {n}.", CLOCK)
        file, log = (folder / FILE).read_bytes(), bytearray((folder / f"{FILE}-wal").read_bytes())
        return file, log, sorted(store.rows(f"SELECT {ROW} FROM line"))


@pytest.mark.parametrize("where", ["header", "first frame", "middle frame", "last frame"])
def test_a_log_that_is_broken_somewhere_gives_what_was_kept_after_it_too(with_log, where):
    file, log, rows = with_log
    frames = (len(log) - 32) // 4120
    at = {"header": 5, "first frame": 32 + 24 + 2000, "middle frame": 32 + 4120 * (frames // 2) + 24 + 2500, "last frame": len(log) - 2000}[where]
    log[at] ^= 0x10
    found = carve(pages_of(file, bytes(log)))
    right = set(as_rows(one for one in found.lines if one.proof == RIGHT))
    assert right <= set(rows) and len(set(rows) - right) <= 1
    # Half of the last frame is what whoever is killed leaves: nobody was told that it was kept.
    assert logs.is_cut_off(bytes(log), 4096) == (where != "last frame")


def test_a_log_that_a_power_cut_left_half_done_is_not_called_broken(with_log):
    _, log, _ = with_log
    assert not logs.is_cut_off(bytes(log), 4096)
    last = len(log) - 4120
    # The last transaction without its end, and the frame of it cut.
    # Or its frame written, and its page not yet, over what an earlier round left there.
    half = log[: last + 24] + bytes(4096)
    for cut in (b"", log[:30], log[:last], log[: last + 1000], log[: last + 4] + bytes(4) + log[last + 8 :], half):
        assert not logs.is_cut_off(bytes(cut), 4096)


def test_a_flipped_byte_is_known(filled, tmp_path):
    data = bytearray((filled / FILE).read_bytes())
    rows = said(filled / FILE, "line")
    chance = random.Random(3)
    # Four hundred in all: some break no row, and one of them may break what leads to a few.
    for _ in range(10):
        broken = bytearray(data)
        for _ in range(40):
            broken[chance.randrange(len(broken))] ^= 1 << chance.randrange(8)
        right = as_rows(one for one in carve(pages_of(bytes(broken))).lines if one.proof == RIGHT)
        assert set(right) <= set(rows)
        assert len(rows) - len(set(right)) <= 40 + 2


def test_letters_changed_in_a_line_make_it_doubtful(filled):
    data = (filled / FILE).read_bytes()
    assert data.count(b"Changed.") >= 1
    at = data.index(b"Changed.")
    doubtful = [one for one in carve(pages_of(data[:at] + b"Charged." + data[at + 8 :])).lines if one.proof == WRONG]
    assert [(one.text, one.place) for one in doubtful] == [("Charged.", IN_PLACE)]


def test_a_page_of_which_the_beginning_is_gone_gives_its_lines(filled):
    rows, data = said(filled / FILE, "line"), bytearray((filled / FILE).read_bytes())
    pages = read_pages(filled / FILE)
    for number in pages.pages:
        if number > 1 and pages.pages[number][0] == 0x0D:
            data[(number - 1) * 4096 : (number - 1) * 4096 + 8] = b"\xa5" * 8
    found = carve(pages_of(bytes(data)))
    assert as_rows(found.lines) == rows
    assert {(one.proof, one.place) for one in found.lines} == {(RIGHT, LOOSE)}


def test_what_was_taken_out_is_told_apart(tmp_path):
    """In a file from before what was taken out was overwritten."""
    folder = tmp_path / "keeper"
    fill(folder, (f"The kettle sang {n}." for n in range(300)))
    connection = sqlite3.connect(folder / FILE)
    connection.execute("PRAGMA secure_delete = OFF")
    connection.execute("DELETE FROM line WHERE number % 4 = 1 OR night < '2026-09-20'")
    connection.commit()
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()
    found = carved(folder)
    assert as_rows(one for one in found.lines if one.place == IN_PLACE) == said(folder / FILE, "line")
    left = [one for one in found.lines if one.place != IN_PLACE]
    assert left and {one.place for one in left} == {LEFT_OVER}


def test_a_swapped_pair_of_pages_loses_no_line(filled):
    data, rows, chance = (filled / FILE).read_bytes(), said(filled / FILE, "line"), random.Random(9)
    for _ in range(10):
        one, two = (chance.randrange(1, len(data) // 4096) * 4096 for _ in range(2))
        broken = bytearray(data)
        broken[one : one + 4096], broken[two : two + 4096] = data[two : two + 4096], data[one : one + 4096]
        right = as_rows(o for o in carve(pages_of(bytes(broken))).lines if o.proof == RIGHT)
        assert set(right) <= set(rows)
        # Lines that reach into a page that is another now are not whole.
        assert len(set(rows) - set(right)) <= 2

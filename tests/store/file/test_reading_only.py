"""A keeper that cannot be written is opened to read, says why, and changes nothing."""

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from datetime import date
from pathlib import Path

import pytest

from keeper.actions import finding, opening, reading, writing
from keeper.errors import CannotWrite, NewerKeeper, NotAKeeper
from keeper.store import create_store, open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")

NIGHT = date(2026, 11, 14)


def kept_bytes(folder: Path) -> dict[str, bytes]:
    """Every file of a folder and what is in it."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def fill(folder: Path, clock) -> Path:
    """A keeper with a line, closed."""
    with create_store(folder) as store:
        writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    return folder


def read(store) -> list[str]:
    """What the pages read first, and the words of the night."""
    page = reading.night_page(store, NIGHT, NIGHT)
    assert [found.line.text for found in finding.find(store, finding.Sought("kettle"))] == ["The kettle sang."]
    assert reading.ribbon_year(store, 2026) and opening.read_settings(store) == {}
    return [line.text for line in page.night.lines]


@pytest.fixture
def closed(tmp_path, folder, clock, unprivileged):
    """Call it with the modes of folders and files: a keeper that is so, of which one is not the superuser any more."""
    place = Path(tempfile.gettempdir()) / f"keeper-closed-{os.getpid()}"

    def close(folders: int, files: int) -> Path:
        shutil.move(fill(folder, clock), place)
        os.chown(place, 65534, 65534) if os.getuid() == 0 else None
        for path in place.rglob("*"):
            os.chown(path, 65534, 65534) if os.getuid() == 0 else None
        for path in (*place.rglob("*"), place):
            path.chmod(folders if path.is_dir() else files)
        unprivileged()
        return place

    yield close
    if os.getuid() == 0:
        os.seteuid(0)
    if place.exists():
        for path in (place, *place.rglob("*")):
            path.chmod(0o700)
        shutil.rmtree(place)


@pytest.mark.parametrize(("folders", "files"), [(0o500, 0o400), (0o500, 0o600), (0o700, 0o400)])
def test_a_keeper_that_may_not_be_written_is_read_and_says_why(closed, clock, folders, files):
    place = closed(folders, files)
    before = kept_bytes(place)
    with opening.open_or_begin(place) as store:
        assert store.only_read == "its disk, folder or file is closed to writing"
        assert read(store) == ["The kettle sang."]
        with pytest.raises(CannotWrite, match=r"cannot be written: its disk, folder or file is closed to writing\.$"):
            writing.write_line(store, NIGHT, "gratitude", "After.", clock)
    assert kept_bytes(place) == before


def test_a_disk_closed_to_writing_is_read_from_every_thread(small_disk, clock):
    place = fill(small_disk.path / "keeper", clock)
    small_disk.close_to_writing()
    with open_store(place) as store, opening.open_again(place) as again:
        assert store.only_read and again.only_read
        assert read(store) == read(again) == ["The kettle sang."]


def test_a_full_disk_is_read_and_called_full(small_disk, clock):
    place = fill(small_disk.path / "keeper", clock)
    small_disk.fill()
    # The second time the first has left an empty log beside the file.
    for _ in range(2):
        with open_store(place) as store:
            assert store.only_read == "its disk is full"
            assert read(store) == ["The kettle sang."]
            with pytest.raises(CannotWrite, match=r"its disk is full\. Free some space and try again\.$"):
                writing.write_line(store, NIGHT, "gratitude", "After.", clock)
    small_disk.empty()
    with open_store(place) as store:
        assert not store.only_read
        assert writing.write_line(store, NIGHT, "gratitude", "After.", clock).text == "After."


@pytest.mark.parametrize("index", ["kept", "gone"])
def test_what_only_the_log_holds_is_read_too(small_disk, clock, index):
    place = fill(small_disk.path / "keeper", clock)
    killed = (
        "import os, sys; from pathlib import Path; from datetime import date\n"
        "from keeper.actions import opening, writing; from keeper.clock import Clock\n"
        "store = opening.open_kept(Path(sys.argv[1]))\n"
        "writing.write_line(store, date(2026, 11, 14), 'gratitude', 'In the log.', Clock()); os.kill(os.getpid(), 9)"
    )
    subprocess.run([sys.executable, "-c", killed, place], timeout=200, check=False)
    assert (place / f"{FILE}-wal").stat().st_size
    if index == "gone":
        (place / f"{FILE}-shm").unlink()
    small_disk.close_to_writing()
    before = kept_bytes(place)
    with open_store(place) as store:
        assert store.only_read
        assert read(store) == ["In the log.", "The kettle sang."]
    assert kept_bytes(place) == before


@pytest.fixture
def older(small_disk) -> Path:
    """A keeper of the first version, with a line."""
    place = small_disk.path / "keeper"
    place.mkdir()
    from sqlite_utils import Database

    old = Database(sqlite3.connect(place / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m002_place_merges")
    old.execute(f"INSERT INTO night (date, begun_at) VALUES ('{NIGHT}', '2026-11-14T20:00:00.000000Z')")
    number = NIGHT.toordinal() * 4 + 1
    old.execute(f"INSERT INTO line VALUES ({number}, 'l', '{NIGHT}', 'memory', 'The kettle sang.', NULL, "
                "'2026-11-14T20:00:00.000000Z', 0, '')")  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 1")
    old.conn.close()
    return place


@pytest.mark.parametrize("how", ["full", "closed"])
def test_a_keeper_of_an_older_version_is_read_as_one_of_today_and_stays_what_it_is(older, small_disk, how):
    small_disk.fill() if how == "full" else small_disk.close_to_writing()
    before = (older / FILE).read_bytes()
    with open_store(older) as store:
        assert store.only_read and store.row("PRAGMA user_version") == (SCHEMA,)
        assert read(store) == ["The kettle sang."]
        assert store.rows("SELECT * FROM place_merge") == []
    assert (older / FILE).read_bytes() == before
    # Half a copy is not taken for one.
    assert not list((older / "backups").glob("*.db")) if (older / "backups").exists() else True


def test_one_of_a_newer_version_and_a_stranger_are_refused_there_too(small_disk, clock):
    place = fill(small_disk.path / "keeper", clock)
    with sqlite3.connect(place / FILE) as newer:
        newer.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    newer.close()
    (small_disk.path / "other").mkdir()
    (small_disk.path / "other" / FILE).write_text("a note " * 100)
    small_disk.close_to_writing()
    with pytest.raises(NewerKeeper):
        open_store(place)
    with pytest.raises(NotAKeeper, match="not a keeper"):
        open_store(small_disk.path / "other")

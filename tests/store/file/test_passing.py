"""What lies in a keeper in passing: swept once its program is gone, and never before."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from sample_pictures import save

from keeper.actions import opening
from keeper.store.file import passing
from keeper.store.file.opening import FILE
from keeper.store.photos import files as photo_files

HOUR = 3600

WRITES = """
import sys
from pathlib import Path
from keeper.actions import opening
from keeper.store.photos import files as photo_files
from keeper.store.file.opening import FILE
folder = Path(sys.argv[1])
with opening.open_kept(folder) as store:
    laid = opening.passing_folder(store)
    Path(laid.name, "year.typ").write_text("words in clear")
    coming = photo_files.receive(folder, Path(sys.argv[2]))
    small = photo_files.thumbnail_file(folder, "ab" * 32, 64).with_name(photo_files._coming_name(folder))
    small.parent.mkdir(parents=True)
    small.write_bytes(b"half")
    (folder / f"{FILE}.{photo_files.passing.mark(folder)}.new").write_bytes(b"half")
    print("laid down", flush=True)
    sys.stdin.readline()
"""


@pytest.fixture
def writer(store, folder, tmp_path):
    """Another program that has laid things down in the keeper, and goes on."""
    picture = save(tmp_path / "one.jpg")
    process = subprocess.Popen([sys.executable, "-c", WRITES, folder, picture], stdin=subprocess.PIPE,
                               stdout=subprocess.PIPE, text=True)  # fmt: skip
    assert process.stdout.readline() == "laid down\n"
    yield process
    process.kill()
    process.communicate()


def laid(folder: Path) -> list[str]:
    """The files that lie in a keeper in passing, by what they are."""
    found = [path for path in folder.rglob("*") if path.is_file()]
    return sorted(
        part for part, there in {
            "book": any(path.name == "year.typ" for path in found),
            "photo": any(path.parent.name == "photos" and ".coming" in path.name for path in found),
            "thumbnail": any(path.parent.name == "ab" and ".coming" in path.name for path in found),
            "begun": any(path.name.endswith(".new") for path in found),
        }.items() if there
    )  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="age decides there")
def test_what_a_living_program_laid_down_stays_and_what_a_killed_one_left_goes(writer, store, folder):
    everything = ["begun", "book", "photo", "thumbnail"]
    assert laid(folder) == everything
    opening.tidy(store)
    assert laid(folder) == everything
    os.kill(writer.pid, signal.SIGKILL)
    writer.wait()
    assert laid(folder) == everything
    opening.tidy(store)
    assert laid(folder) == []
    assert not any((folder / "passing").iterdir())


def test_what_is_laid_down_here_stays_while_it_is_needed(store, folder):
    with opening.passing_folder(store) as here:
        assert folder in Path(here).parents
        opening.tidy(store)
        assert Path(here).is_dir()
    assert not Path(here).exists()


def test_nothing_is_left_of_a_program_that_ended(writer, folder):
    writer.communicate("go on\n")
    assert not (folder / "passing").exists()


@pytest.mark.parametrize("name", ["photos/.coming-4711-abcdefabcdef", f"{FILE}.4711.new", f"{FILE}.4711.new-journal"])
def test_what_an_older_version_left_goes_by_its_age(store, folder, name):
    left = folder / name
    left.write_bytes(b"half")
    opening.tidy(store)
    assert left.exists()
    os.utime(left, (time.time() - 2 * HOUR,) * 2)
    opening.tidy(store)
    assert not left.exists()


def test_where_folders_cannot_be_locked_age_decides(store, folder, monkeypatch):
    monkeypatch.setattr(passing, "_locked", lambda room: (None, False))
    room = folder / "passing" / "4711-abcdefabcdef"
    room.mkdir(parents=True)
    passing.sweep(folder)
    assert room.exists()
    os.utime(room, (time.time() - 2 * HOUR,) * 2)
    passing.sweep(folder)
    assert not room.exists()


def test_a_keeper_that_cannot_be_written_lays_down_elsewhere(store, folder):
    store.only_read = "its disk is full"
    with opening.passing_folder(store) as here:
        assert folder not in Path(here).parents and Path(here).is_dir()
    assert photo_files.PHOTOS in os.listdir(folder) and "passing" not in os.listdir(folder)


@pytest.mark.skipif(sys.platform == "win32", reason="age decides there")
def test_a_program_that_has_been_open_for_long_keeps_what_it_laid_down(store, folder):
    room = folder / "passing" / passing.mark(folder)
    os.utime(room, (time.time() - 2 * HOUR,) * 2)
    passing.sweep(folder)
    assert room.is_dir()


def test_a_mark_about_to_be_locked_is_not_swept(store, folder):
    coming = folder / "passing" / ".4711-abcdefabcdef"
    coming.mkdir(parents=True)
    passing.sweep(folder)
    assert coming.is_dir()
    os.utime(coming, (time.time() - 2 * HOUR,) * 2)
    passing.sweep(folder)
    assert not coming.exists()


def test_a_mark_that_was_taken_away_is_made_again(store, folder):
    first = passing.mark(folder)
    assert passing.mark(folder) == first
    (folder / "passing" / first).rmdir()
    with passing.lay_down(folder) as here:
        assert Path(here).parent == folder / "passing" / passing.mark(folder)
    assert passing.mark(folder) != first


def test_a_process_that_was_split_off_leaves_what_is_not_its_own(folder, tmp_path):
    room = tmp_path / "passing" / "4711-abcdefabcdef"
    room.mkdir(parents=True)
    passing._Mark(room, None, os.getpid() + 1).end()
    assert room.is_dir()
    passing._Mark(room, None, os.getpid()).end()
    assert not room.exists()


ELSEWHERE = """
import sys
from pathlib import Path
from keeper.store.file import passing
keeper, there = map(Path, sys.argv[1:])
for name in ("keeper 2026-11-14", "keeper.zip"):
    (there / passing.name_elsewhere(keeper, name)).mkdir()
(there / (passing.name_elsewhere(keeper, "keeper") + ".zip")).write_bytes(b"half")
print("laid down", flush=True)
sys.stdin.readline()
"""


def test_what_a_program_began_elsewhere_goes_once_it_is_gone_and_nothing_else(store, folder, tmp_path):
    there, other = tmp_path / "there", tmp_path / "other"
    with opening.open_or_begin(other):
        there.mkdir()
    theirs = there / passing.name_elsewhere(other, "theirs")
    for kept in (there / ".a.coming-soon", there / ".a.coming-0123456789ab", there / "keeper 2026-11-13", theirs):
        kept.mkdir()
    before = set(there.iterdir())
    with subprocess.Popen([sys.executable, "-c", ELSEWHERE, folder, there], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as making:
        assert making.stdout.readline() == "laid down\n"
        passing.sweep_elsewhere(folder, there)
        assert len(set(there.iterdir()) - before) == 3
        making.kill()
    passing.sweep_elsewhere(folder, there)
    assert set(there.iterdir()) == before

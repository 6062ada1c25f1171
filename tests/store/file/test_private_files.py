"""Whatever a keeper is made of is its owner's alone, whatever the umask; what stands open is closed."""

import os
import shutil
import stat
import sys
from datetime import date
from pathlib import Path

import pytest
from sample_pictures import save

from keeper.actions import opening, writing
from keeper.actions.photos import kept as photos
from keeper.actions.rescue import rescue
from keeper.actions.trouble import note
from keeper.store import create_store, open_store
from keeper.store.file import beginning
from keeper.store.file.opening import FILE, back_up

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")

NIGHT = date(2026, 11, 14)


@pytest.fixture(autouse=True)
def _careless():
    """A umask that lets everybody do everything."""
    before = os.umask(0)
    yield
    os.umask(before)


def modes(folder: Path) -> dict[str, str]:
    """The mode of whatever lies in a folder, and of itself, where others can do something with it."""
    there = {str(path.relative_to(folder)): stat.S_IMODE(path.stat().st_mode) for path in (folder, *folder.rglob("*"))}
    return {name: oct(mode) for name, mode in there.items() if mode & 0o077}


def filled(folder: Path, tmp_path: Path, clock):
    """An open keeper with one of everything."""
    store = create_store(folder)
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    picture = save(tmp_path / "one.jpg")
    photos.thumbnail_of(store, photos.take_in(store, picture, clock, NIGHT).photo, 64)
    back_up(store, folder / "backups" / "one.db")
    note(folder, ValueError("one"))
    return store


def test_what_is_made_is_its_owners_alone(folder, tmp_path, clock):
    with filled(folder, tmp_path, clock), opening.passing_folder(open_store(folder)) as passing:
        Path(passing, "pages").mkdir(mode=0o700)
        names = {path.name.split(".")[-1].split("-")[0] for path in folder.rglob("*") if path.is_file()}
        assert names >= {"db", "jpg", "txt"} and (folder / f"{FILE}-wal").exists() and (folder / f"{FILE}-shm").exists()
        assert modes(folder) == {}


def test_a_keeper_being_begun_is_its_owners_alone_before_a_byte_is_written(folder, monkeypatch):
    connected, seen = beginning.connected, []

    def looked_at(file, *more):
        seen.append((file.stat().st_size, stat.S_IMODE(file.stat().st_mode)))
        return connected(file, *more)

    monkeypatch.setattr(beginning, "connected", looked_at)
    create_store(folder).close()
    assert seen == [(0, 0o600)]


def test_a_hidden_file_beside_the_keeper_makes_its_folder_nobody_elses(folder, tmp_path, clock):
    filled(folder, tmp_path, clock).close()
    folder.chmod(0o755)
    (folder / ".directory").touch(0o600)
    open_store(folder).close()
    assert "." not in modes(folder)
    folder.chmod(0o755)
    (folder / "a list.txt").touch(0o600)
    open_store(folder).close()
    assert modes(folder) == {".": "0o755"}


def test_what_is_rescued_is_its_owners_alone(folder):
    path = rescue({(NIGHT, "memory"): "The kettle sang."}, folder, NIGHT)
    assert path.parent == folder.parent and stat.S_IMODE(path.stat().st_mode) == 0o600


def opened_to_all(folder: Path) -> None:
    """Make a keeper as open as an older version left it."""
    for path in (folder, *folder.rglob("*")):
        path.chmod(0o755 if path.is_dir() else 0o644)


def test_a_keeper_that_stands_open_is_closed_on_opening_and_the_rest_in_the_background(folder, tmp_path, clock):
    filled(folder, tmp_path, clock).close()
    opened_to_all(folder)
    with open_store(folder) as store:
        closed = {"keeper.db", "photos", "backups", "thumbnails", "trouble.txt", "."}
        assert not closed & modes(folder).keys()
        assert modes(folder)
        opening.tidy(store)
        assert modes(folder) == {}


def test_a_folder_that_holds_other_things_stays_as_it_is(folder, tmp_path, clock):
    filled(folder, tmp_path, clock).close()
    (folder / "letters to a sister.odt").touch()
    opened_to_all(folder)
    with open_store(folder) as store:
        opening.tidy(store)
        assert modes(folder) == {".": "0o755", "letters to a sister.odt": "0o644"}


def test_links_are_not_followed_out_of_the_keeper(folder, tmp_path, clock):
    with filled(folder, tmp_path, clock) as store:
        elsewhere = tmp_path / "elsewhere"
        elsewhere.mkdir()
        (elsewhere / "note.txt").touch()
        opened_to_all(elsewhere)
        (folder / "photos" / "away").symlink_to(elsewhere)
        opening.tidy(store)
        assert modes(elsewhere) == {".": "0o755", "note.txt": "0o644"}


@pytest.mark.of_rights
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only the superuser gives files away")
def test_what_is_somebody_elses_is_let_be(folder, tmp_path, clock):
    filled(folder, tmp_path, clock).close()
    opened_to_all(folder)
    for path in (folder, *folder.rglob("*")):
        os.chown(path, 12345, 12345)
    with open_store(folder) as store:
        opening.tidy(store)
        before = modes(folder)
        assert before["."] == "0o755" and before["keeper.db"] == "0o644"


def test_tidying_a_keeper_that_is_gone_fails_nobody(folder, tmp_path, clock):
    with filled(folder, tmp_path, clock) as store:
        shutil.rmtree(folder)
        opening.tidy(store)

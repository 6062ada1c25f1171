"""A keeper moved to another folder: whole before the old one goes, and found there from then on."""

import os
import stat
import subprocess
import sys

import pytest
from kept_things import NIGHT, fill
from soundness import whole

from keeper.actions import opening, writing
from keeper.actions.backups import listed, making
from keeper.actions.backups.listing import is_good
from keeper.actions.keepers import known as keepers
from keeper.actions.keepers.moving import move, target_in
from keeper.errors import CannotWrite, NotAKeeper, Stopped
from keeper.store import lines, open_store
from keeper.store.backups import moving
from keeper.store.photos import known


@pytest.fixture
def filled(store, clock, tmp_path, folder):
    """The folder of a closed keeper with photos and backups."""
    fill(store, clock, tmp_path)
    making.back_up_if_due(store, making.own_place(store), clock)
    (folder / "trouble.txt").write_text("Something.")
    store.close()
    return folder


def belongings(folder) -> dict:
    """All files but the database and what can be made again, with their bytes."""
    files = [path for path in folder.rglob("*") if path.is_file() and not path.name.startswith(("keeper.db", ".busy"))]
    return {path.relative_to(folder): path.read_bytes() for path in files if path.relative_to(folder).parts[0] not in ("thumbnails", "passing")}


def test_all_that_belongs_to_it_comes_and_the_old_one_goes(filled, tmp_path):
    before, target = belongings(filled), tmp_path / "disk" / "keeper"
    with open_store(filled) as store:
        text = {(line.night, line.kind): line.text for line in lines.between(store, NIGHT.replace(year=1900), NIGHT)}
    move(filled, target, NIGHT)
    assert not filled.exists() and belongings(target) == before
    assert len(before) > 5
    with open_store(target) as store:
        assert whole(store) and store.row("PRAGMA journal_mode") == ("wal",)
        assert {(line.night, line.kind): line.text for line in lines.between(store, NIGHT.replace(year=1900), NIGHT)} == text
        for photo in known.every(store):
            known.check(store, photo)
    assert is_good(listed(target)[0]) and not list(target.parent.glob(".*"))
    if os.name == "posix":
        assert [path for path in (target, *target.rglob("*")) if stat.S_IMODE(path.stat().st_mode) & 0o077] == []


def test_the_persons_own_is_found_where_it_went_and_none_is_begun_in_its_old_place(filled, tmp_path):
    assert opening.own_folder() == filled
    move(filled, tmp_path / "disk", NIGHT)
    assert opening.own_folder() == tmp_path / "disk"
    assert not opening.begins_unasked(opening.own_folder())
    move(tmp_path / "disk", filled, NIGHT)
    assert opening.own_folder() == opening.usual_folder() == filled


def test_another_than_the_own_one_leaves_that_where_it_was(filled, tmp_path):
    opening.open_or_begin(tmp_path / "other").close()
    move(tmp_path / "other", tmp_path / "third", NIGHT)
    assert opening.own_folder() == filled


def test_the_list_of_those_known_follows(filled, tmp_path):
    keepers.note(filled, NIGHT)
    move(filled, tmp_path / "disk", NIGHT)
    assert [(one.folder, one.there) for one in keepers.every()] == [(tmp_path / "disk", True)]


def test_files_that_are_not_the_keepers_stay(filled, tmp_path):
    (filled / "letters.txt").write_text("Not ours.")
    move(filled, tmp_path / "disk", NIGHT)
    assert [path.name for path in filled.iterdir()] == ["letters.txt"]


def test_while_somebody_has_it_open_it_is_not_moved(filled, tmp_path, clock):
    with open_store(filled) as store:
        with pytest.raises(CannotWrite, match="open in another program"):
            move(filled, tmp_path / "disk", NIGHT)
        writing.write_line(store, NIGHT, "reflection", "Still here.", clock)
    assert not (tmp_path / "disk").exists() and not list(tmp_path.glob(".disk*"))
    look = "import sys, time; from pathlib import Path; from keeper.store import open_store; s = open_store(Path(sys.argv[1])); print(1, flush=True); time.sleep(60)"
    other = subprocess.Popen([sys.executable, "-c", look, filled], stdout=subprocess.PIPE)
    other.stdout.readline()
    try:
        with pytest.raises(CannotWrite, match="open in another program"):
            move(filled, tmp_path / "disk", NIGHT)
    finally:
        other.kill()
        other.communicate()
    with open_store(filled) as store:
        assert whole(store) and lines.one(store, NIGHT, "reflection").text == "Still here."


def test_what_came_while_it_was_being_copied_comes_too(filled, tmp_path, clock, monkeypatch):
    copy_all, times = moving._Copying.copy_all, []

    def meanwhile(copying):
        copy_all(copying)
        times.append(1)
        if len(times) == 1:
            (filled / "photos" / "ff").mkdir()
            (filled / "photos" / "ff" / "late.jpg").write_bytes(b"late")
            (filled / "trouble.txt").write_text("Something more.")
            with open_store(filled) as store:
                writing.write_line(store, NIGHT, "reflection", "Late.", clock)

    monkeypatch.setattr(moving._Copying, "copy_all", meanwhile)
    move(filled, tmp_path / "disk", NIGHT)
    assert (tmp_path / "disk" / "photos" / "ff" / "late.jpg").read_bytes() == b"late"
    assert (tmp_path / "disk" / "trouble.txt").read_text() == "Something more."
    with open_store(tmp_path / "disk") as store:
        assert lines.one(store, NIGHT, "reflection").text == "Late."


@pytest.mark.parametrize("after", [0, 3, 7])
def test_stopped_it_is_where_it_was(filled, tmp_path, after):
    before, calls = belongings(filled), iter(range(10**6))
    with pytest.raises(Stopped):
        move(filled, tmp_path / "disk", NIGHT, stopped=lambda: next(calls) >= after)
    assert belongings(filled) == before and not list(tmp_path.glob("*disk*"))
    with open_store(filled) as store:
        assert whole(store)


def test_where_it_cannot_go_is_told(filled, tmp_path, small_disk):
    for target, told in ((filled / "inner", "into itself"), (tmp_path / "data", "Something lies in")):
        with pytest.raises(CannotWrite, match=told):
            move(filled, target, NIGHT)
    with pytest.raises(NotAKeeper):
        move(tmp_path / "nowhere", tmp_path / "disk", NIGHT)
    small_disk.fill()
    with pytest.raises(CannotWrite, match="its disk is full"):
        move(filled, small_disk.path / "keeper", NIGHT)
    small_disk.empty()
    small_disk.close_to_writing()
    with pytest.raises(CannotWrite, match="closed to writing"):
        move(filled, small_disk.path / "keeper", NIGHT)
    with open_store(filled) as store:
        assert whole(store)


def test_if_it_could_not_be_found_again_it_stays(filled, tmp_path, monkeypatch):
    def fail(folder):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(opening, "note_moved", fail)
    with pytest.raises(CannotWrite):
        move(filled, tmp_path / "disk", NIGHT)
    assert opening.own_folder() == filled and not (tmp_path / "disk").exists()
    with open_store(filled) as store:
        assert whole(store)


def test_a_copy_that_is_not_the_same_is_no_copy(filled, tmp_path, monkeypatch):
    monkeypatch.setattr(moving, "sha256_of", lambda file: "0" * 64)
    with pytest.raises(CannotWrite, match="could not be read again"):
        move(filled, tmp_path / "disk", NIGHT)
    with open_store(filled) as store:
        assert whole(store)


def test_into_a_chosen_folder_or_one_below_it(tmp_path, folder):
    (tmp_path / "empty").mkdir()
    assert target_in(tmp_path / "empty", folder) == tmp_path / "empty"
    assert target_in(tmp_path / "none", folder) == tmp_path / "none"
    assert target_in(tmp_path, folder) == tmp_path / "keeper"

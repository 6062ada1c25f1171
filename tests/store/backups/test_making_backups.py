"""A backup is whole, checked, private, and has its name only then; photos lie there once."""

import os
import sqlite3
import stat
from datetime import date
from pathlib import Path

import pytest
from kept_things import NIGHT, fill
from soundness import whole

from keeper.actions import writing
from keeper.errors import AlreadyKept, CannotWrite, HeldElsewhere, KeeperError, NotAKeeper, Stopped
from keeper.store import lines, open_store
from keeper.store.backups import comparing, listing, making, photos
from keeper.store.backups.inside import opened
from keeper.store.backups.place import alone
from keeper.store.file import copies
from keeper.store.photos import known

DAY = date(2026, 11, 15)


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


@pytest.fixture
def place(tmp_path) -> Path:
    return tmp_path / "stick" / "backups"


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_a_backup_holds_the_whole_keeper_and_needs_nothing_beside_it(filled, place):
    made = making.make(filled, place, "2026-11-15", DAY)
    assert made.lacking == () and made.path == place / "2026-11-15" / "keeper.db"
    assert names(made.path.parent) == {"keeper.db", "README.md", "2026.md"}
    copy = sqlite3.connect(made.path)
    assert copy.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert copy.execute("PRAGMA foreign_key_check").fetchall() == []
    assert list(copy.iterdump()) == list(filled.connection.iterdump())
    copy.close()
    (told,) = listing.listed(place)
    assert (told.name, told.day, told.nights, told.lines, told.photos, told.last_line, told.kind, told.sound) == (
        "2026-11-15", DAY, 7, 8, 2, NIGHT, "daily", True,
    )  # fmt: skip
    assert told.bytes == sum(file.stat().st_size for file in made.path.parent.iterdir())
    assert listing.check(told)


def test_photos_lie_in_a_folder_of_backups_once_and_are_real_copies(filled, place):
    making.make(filled, place, "2026-11-15", DAY)
    written = {path: path.stat().st_mtime_ns for path in (place / "photos").rglob("*.jpg")}
    making.make(filled, place, "2026-11-16", DAY)
    assert {path: path.stat().st_mtime_ns for path in (place / "photos").rglob("*.jpg")} == written
    for photo in known.every(filled):
        copy = place / "photos" / photo.sha256[:2] / f"{photo.sha256}.{photo.ending}"
        assert copy.read_bytes() == known.file_of(filled, photo).read_bytes()
        assert copy.stat().st_nlink == 1
    assert len(written) == 2


def test_a_photo_that_is_damaged_is_told_and_never_takes_the_place_of_a_sound_copy(filled, place):
    one, other = known.every(filled)
    making.make(filled, place, "2026-11-15", DAY)
    before = {path: path.read_bytes() for path in (place / "photos").rglob("*.jpg")}
    known.file_of(filled, one).write_bytes(b"x" * one.bytes)
    assert making.make(filled, place, "2026-11-16", DAY).lacking == ()
    assert {path: path.read_bytes() for path in (place / "photos").rglob("*.jpg")} == before
    known.file_of(filled, other).unlink()
    made = making.make(filled, place.with_name("another"), "2026-11-16", DAY)
    assert sorted(made.lacking) == sorted([one.sha256, other.sha256])
    assert list((place.with_name("another") / "photos").rglob("*.jpg")) == []


def test_what_was_written_is_read_again(filled, place, monkeypatch):
    sha256_of = photos.sha256_of
    monkeypatch.setattr(photos, "sha256_of", lambda file: "0" * 64 if file.name.startswith(".coming") else sha256_of(file))
    with pytest.raises(CannotWrite, match=r"cannot be read again\.$"):
        making.make(filled, place, "2026-11-15", DAY)
    assert listing.listed(place) == () and names(place) == {".busy"}


def test_what_was_copied_when_it_was_stopped_need_not_be_copied_again(filled, place):
    calls = iter(range(10**6))
    with pytest.raises(Stopped):
        making.make(filled, place, "2026-11-15", DAY, stopped=lambda: next(calls) >= 1)
    assert len(list((place / "photos").rglob("*.jpg"))) == 1


def test_a_copy_that_lacks_a_line_never_gets_its_name(filled, place, monkeypatch):
    copy = copies._copy

    def lossy(source, target, stopped):
        copy(source, target, stopped)
        with sqlite3.connect(target) as lost:
            lost.execute("DELETE FROM line WHERE kind = 'memory'")
        lost.close()

    monkeypatch.setattr(copies, "_copy", lossy)
    with pytest.raises(NotAKeeper, match="does not hold as many nights and lines"):
        making.make(filled, place, "2026-11-15", DAY)
    assert listing.listed(place) == () and not list(place.glob(".coming-*"))


def test_a_copy_with_something_astray_never_gets_its_name(filled, place, monkeypatch):
    copy = copies._copy

    def astray(source, target, stopped):
        copy(source, target, stopped)
        with sqlite3.connect(target) as lost:
            lost.execute("DELETE FROM place")
        lost.close()

    monkeypatch.setattr(copies, "_copy", astray)
    with pytest.raises(NotAKeeper, match="something is missing"):
        making.make(filled, place, "2026-11-15", DAY)


def test_a_copy_that_is_not_sound_never_gets_its_name(filled, place, monkeypatch):
    copy = copies._copy

    def unsound(source, target, stopped):
        copy(source, target, stopped)
        with sqlite3.connect(target) as spoilt:
            spoilt.execute("PRAGMA ignore_check_constraints = ON")
            spoilt.execute("UPDATE photo SET orientation = 99")
        spoilt.close()

    monkeypatch.setattr(copies, "_copy", unsound)
    with pytest.raises(NotAKeeper, match="SQLite says: CHECK constraint failed in photo"):
        making.make(filled, place, "2026-11-15", DAY)
    assert listing.listed(place) == ()


def test_what_others_write_meanwhile_is_not_half_in_it(filled, place, clock, folder, monkeypatch):
    monkeypatch.setattr(copies, "PAGES_AT_ONCE", 1)
    with open_store(folder) as other:
        wanted = lines.count(filled)

        count = iter(range(10**6))

        def writes() -> bool:
            # Begun anew for each it would never come to its end.
            number = next(count)
            assert number < 2000
            writing.write_line(other, date(2020, 1, 1), "memory", f"Wording {number}.", clock)
            return False

        made = making.make(filled, place, "2026-11-15", DAY, stopped=writes)
    with opened(made.path) as copy:
        assert lines.count(copy) in (wanted, wanted + 1)


@pytest.mark.skipif(os.name == "nt", reason="permissions are different there")
def test_it_is_its_owners_alone(filled, place):
    before = os.umask(0)
    try:
        making.make(filled, place, "2026-11-15", DAY)
    finally:
        os.umask(before)
    open_to_others = [path for path in (place, *place.rglob("*")) if stat.S_IMODE(path.stat().st_mode) & 0o077]
    assert open_to_others == []


@pytest.mark.parametrize("after", [0, 1, 2, 3, 4, 5])
def test_stopped_it_leaves_nothing_that_could_be_taken_for_a_backup(filled, place, after):
    calls = iter(range(10**6))
    with pytest.raises(Stopped):
        making.make(filled, place, "2026-11-15", DAY, stopped=lambda: next(calls) >= after)
    assert listing.listed(place) == () and not list(place.rglob(".coming-*"))
    assert making.make(filled, place, "2026-11-15", DAY).lacking == ()


def test_a_name_is_given_once(filled, place):
    making.make(filled, place, "2026-11-15", DAY)
    with pytest.raises(AlreadyKept):
        making.make(filled, place, "2026-11-15", DAY)
    assert len(listing.listed(place)) == 1


def test_two_at_once_do_no_harm(filled, place, folder):
    with alone(place, folder), pytest.raises(HeldElsewhere):
        making.make(filled, place, "2026-11-15", DAY)
    assert making.make(filled, place, "2026-11-15", DAY)


def test_what_a_program_that_was_killed_left_goes_with_the_next(filled, place):
    (place / ".coming-1-abc-def").mkdir(parents=True)
    (place / ".coming-1-abc-def" / "keeper.db").write_bytes(b"half")
    (place / "photos").mkdir()
    (place / "photos" / ".coming-1-abc-fed").write_bytes(b"half")
    making.make(filled, place, "2026-11-15", DAY)
    assert not list(place.rglob(".coming-*"))


def test_taken_away_it_takes_only_the_photos_that_no_other_has(filled, place, clock, tmp_path, folder):
    one, other = known.every(filled)
    making.make(filled, place, "2026-11-15", DAY)
    known.drop(filled, one.id)
    making.make(filled, place, "2026-11-16", DAY)
    making.take_away(place, folder, ["2026-11-15"])
    assert [backup.name for backup in listing.listed(place)] == ["2026-11-16"]
    assert [path.stem for path in (place / "photos").rglob("*.jpg")] == [other.sha256]


def test_while_one_cannot_be_read_no_photo_is_taken_away(filled, place, folder):
    making.make(filled, place, "2026-11-15", DAY)
    making.make(filled, place, "2026-11-16", DAY)
    (place / "2026-11-16" / "keeper.db").write_bytes(b"no database")
    making.take_away(place, folder, ["2026-11-15"])
    assert len(list((place / "photos").rglob("*.jpg"))) == 2
    (left,) = listing.listed(place)
    assert (left.sound, left.lines) == (False, 0) and not listing.check(left)


def test_a_backup_opened_to_be_read_writes_nothing(filled, place):
    made = making.make(filled, place, "2026-11-15", DAY)
    before = {path: path.read_bytes() for path in made.path.parent.iterdir()}
    with opened(made.path) as copy:
        assert lines.count(copy) == 8 and copy.only_read
        with pytest.raises(CannotWrite):
            lines.keep(copy, NIGHT, "memory", "No.", lines.one(copy, NIGHT, "memory").written)
    assert {path: path.read_bytes() for path in made.path.parent.iterdir()} == before


def test_the_same_and_not_the_same(filled, place, clock, tmp_path):
    made = making.make(filled, place, "2026-11-15", DAY)
    assert comparing.same(filled.connection, made.path)
    with filled.writing() as connection:
        connection.execute("INSERT INTO window_state (name, value) VALUES ('window', 'wide'), ('night', '2026-11-14')")
        connection.execute("DELETE FROM theme_line")
    assert comparing.same(filled.connection, made.path)
    known.caption(filled, known.every(filled)[0].id, "A bridge.")
    assert not comparing.same(filled.connection, made.path)
    made.path.write_bytes(b"no database")
    assert not comparing.same(filled.connection, made.path)


def test_a_full_disk_is_told_and_nothing_half_stays(filled, small_disk):
    place = small_disk.path / "backups"
    small_disk.fill()
    with pytest.raises(CannotWrite, match=r"its disk is full"):
        making.make(filled, place, "2026-11-15", DAY)
    small_disk.empty()
    assert making.make(filled, place, "2026-11-15", DAY).lacking == ()


@pytest.mark.parametrize("free", [8, 64, 150, 200, 250, 300, 350, 400, 450])
def test_a_disk_that_fills_on_the_way_is_told_too(filled, small_disk, free):
    small_disk.fill()
    with open(small_disk.path / "filling", "rb+") as filling:
        filling.truncate(os.path.getsize(small_disk.path / "filling") - free * 1024)
    place = small_disk.path / "backups"
    try:
        making.make(filled, place, "2026-11-15", DAY)
    except KeeperError as error:
        assert "its disk is full" in str(error)
        assert listing.listed(place) == () and not list(place.rglob(".coming-*"))
    else:
        assert free >= 350


def test_a_disk_closed_to_writing_is_told(filled, small_disk):
    small_disk.close_to_writing()
    with pytest.raises(CannotWrite, match=r"closed to writing\.$"):
        making.make(filled, small_disk.path / "backups", "2026-11-15", DAY)


def test_a_damaged_keeper_is_told_and_has_no_backup_of_its_damage(filled, place, folder, clock):
    filled.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    size = filled.row("PRAGMA page_size")[0]
    page = filled.row("SELECT rootpage FROM sqlite_master WHERE name = 'line'")[0]
    filled.close()
    with open(folder / "keeper.db", "rb+") as file:
        file.seek((page - 1) * size)
        file.write(b"\xff" * size)
    with open_store(folder) as broken, pytest.raises(KeeperError, match="damaged"):
        making.make(broken, place, "2026-11-15", DAY)
    assert listing.listed(place) == ()


def test_whole_keeper_is_whole_still(filled, place):
    making.make(filled, place, "2026-11-15", DAY)
    assert whole(filled)

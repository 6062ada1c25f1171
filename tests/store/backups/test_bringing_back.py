"""A keeper brought back whole: the present one kept aside, no log met by another file, older versions brought up to date."""

import shutil
import sqlite3
from datetime import date

import pytest
from kept_things import NIGHT, fill
from soundness import whole
from sqlite_utils import Database

from keeper.actions import writing
from keeper.actions.backups import bringing_back, listed, making
from keeper.actions.backups.listing import listed_in
from keeper.errors import CannotWrite, KeeperError, NewerKeeper, NotAKeeper, UnknownThing
from keeper.store import lines, open_store
from keeper.store import settings as kept_settings
from keeper.store.backups import bringing_back as into
from keeper.store.backups.bringing_back import into_place
from keeper.store.file import copies, known_damage
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.photos import known

FIRST, LAST = date(1900, 1, 1), date(2999, 12, 31)


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


@pytest.fixture
def backup(filled, clock, folder):
    """A backup, after which a line was worded anew, one taken out and one added."""
    making.back_up_if_due(filled, making.own_place(filled), clock)
    writing.write_line(filled, NIGHT, "memory", "The kettle was silent.", clock)
    writing.write_line(filled, NIGHT.replace(day=10), "gratitude", "", clock)
    writing.write_line(filled, NIGHT.replace(day=1), "memory", "Later.", clock)
    return listed(folder)[0]


def words(store) -> dict:
    return {(line.night, line.kind): line.text for line in lines.between(store, FIRST, LAST)}


def dump(connection) -> list[str]:
    return [row for row in connection.iterdump() if "INSERT INTO \"setting\"" not in row]


def dump_of(path) -> list[str]:
    with copies.connected_copy(path) as file:
        return dump(file)


def test_it_holds_what_the_backup_holds_and_the_present_one_is_kept_aside(filled, backup, clock, folder):
    before = dump(filled.connection)
    came = bringing_back.bring_back(filled, backup, clock)
    assert came.lacking == 0 and came.aside == folder / "backups" / "2026-11-14 22.30.00 aside"
    assert dump(filled.connection) == dump_of(backup.path)
    assert dump_of(came.aside / FILE) == before
    assert whole(filled) and words(filled)[NIGHT, "memory"] == "The kettle sang."
    assert filled.row("PRAGMA journal_mode") == ("wal",)


def test_whoever_has_it_open_goes_on_with_what_was_brought_back(filled, backup, clock, folder):
    with open_store(folder) as other:
        assert words(other)[NIGHT, "memory"] == "The kettle was silent."
        bringing_back.bring_back(filled, backup, clock)
        assert words(other)[NIGHT, "memory"] == "The kettle sang."
        writing.write_line(other, NIGHT, "reflection", "Written after.", clock)
        assert whole(other)
    assert words(filled)[NIGHT, "reflection"] == "Written after."
    filled.close()
    with open_store(folder) as again:
        assert whole(again) and words(again)[NIGHT, "reflection"] == "Written after."


def test_and_back_again(filled, backup, clock, folder):
    before = words(filled)
    bringing_back.bring_back(filled, backup, clock)
    bringing_back.bring_back(filled, listed(folder)[0], clock)
    assert words(filled) == before


def test_photos_come_back_and_those_of_now_stay(filled, backup, clock, folder, tmp_path):
    one, other = known.every(filled)
    known.drop(filled, one.id)
    bringing_back.bring_back(filled, backup, clock)
    assert {photo.sha256 for photo in known.every(filled)} == {one.sha256, other.sha256}
    for photo in known.every(filled):
        known.check(filled, photo)


def test_a_photo_that_is_damaged_is_mended(filled, backup, clock):
    one, _ = known.every(filled)
    known.file_of(filled, one).write_bytes(b"x" * one.bytes)
    assert bringing_back.bring_back(filled, backup, clock).lacking == 0
    known.check(filled, one)


def test_a_photo_that_is_nowhere_whole_is_counted(filled, backup, clock, folder):
    one, _ = known.every(filled)
    for file in (known.file_of(filled, one), *(folder / "backups" / "photos").rglob(f"{one.sha256}*")):
        file.unlink()
    assert bringing_back.bring_back(filled, backup, clock).lacking == 1


def test_settings_of_this_computer_stay(filled, backup, clock):
    kept_settings.write(filled, {"second_folder": "/media/stick", "window": "wide", "ink": "plum"})
    bringing_back.bring_back(filled, backup, clock)
    assert kept_settings.read(filled) == {"second_folder": "/media/stick", "window": "wide"}


def test_from_another_folder(filled, backup, clock, tmp_path, folder):
    shutil.copytree(folder / "backups", tmp_path / "stick")
    shutil.rmtree(folder / "backups")
    one, _ = known.every(filled)
    known.drop(filled, one.id)
    bringing_back.bring_back(filled, listed_in(tmp_path / "stick")[0], clock)
    assert len(known.every(filled)) == 2 and words(filled)[NIGHT, "memory"] == "The kettle sang."


def test_one_of_an_older_version_is_brought_up_to_date(filled, clock, folder, tmp_path):
    (tmp_path / "stick" / "2020-01-01").mkdir(parents=True)
    old = Database(sqlite3.connect(tmp_path / "stick" / "2020-01-01" / FILE, isolation_level=None))
    migrations.apply(old, stop_before="m002_place_merges")
    old.execute(f"INSERT INTO night (date, begun_at) VALUES ('{NIGHT}', '2026-11-14T20:00:00.000000Z')")
    old.execute(
        "INSERT INTO line (number, id, night, kind, text, written_at, offset_minutes, zone) "
        "VALUES (1, 'l', ?, 'memory', 'Before.', '2026-11-14T20:00:00.000000Z', 0, '')", [str(NIGHT)],
    )  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 1")
    old.conn.close()
    (backup,) = listed_in(tmp_path / "stick")
    assert backup.sound and backup.lines == 1
    bringing_back.bring_back(filled, backup, clock)
    assert filled.row("PRAGMA user_version") == (SCHEMA,)
    assert filled.rows("SELECT text FROM line") == [("Before.",)]
    with open_store(folder) as again:
        assert whole(again)


def test_one_of_a_newer_version_is_refused_and_nothing_changed(filled, backup, clock):
    with sqlite3.connect(backup.path) as newer:
        newer.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    newer.close()
    before = words(filled)
    with pytest.raises(NewerKeeper):
        bringing_back.bring_back(filled, backup, clock)
    assert words(filled) == before


def test_one_that_cannot_be_read_is_refused(filled, backup, clock, folder):
    backup.path.write_bytes(b"no database")
    with pytest.raises(UnknownThing, match="cannot be read"):
        bringing_back.bring_back(filled, listed(folder)[0], clock)
    with pytest.raises(KeeperError, match=r"was not brought back: .*\.$"):
        bringing_back.bring_back(filled, backup, clock)
    assert words(filled)[NIGHT, "memory"] == "The kettle was silent."


def test_a_damaged_one_is_refused(filled, backup, clock):
    data = bytearray(backup.path.read_bytes())
    data[8192:12288] = b"\xff" * 4096
    backup.path.write_bytes(data)
    with pytest.raises(KeeperError, match="was not brought back"):
        into_place(filled, backup, ())
    assert words(filled)[NIGHT, "memory"] == "The kettle was silent."


def test_while_another_program_writes_it_waits_and_then_says_so(filled, backup, clock, folder, monkeypatch):
    monkeypatch.setattr("keeper.store.backups.bringing_back.PATIENCE", 200)
    filled.connection.execute("PRAGMA busy_timeout = 50")
    with open_store(folder) as other, other.writing(), pytest.raises(CannotWrite, match=r"Another program is writing"):
        into_place(filled, backup, ())
    assert words(filled)[NIGHT, "memory"] == "The kettle was silent."


def test_what_is_written_while_it_is_kept_aside_is_kept_aside_too(filled, backup, clock, folder, monkeypatch):
    whole_way = into.into_place
    times = []

    def late(store, *more):
        times.append(1)
        if len(times) == 1:
            with open_store(folder) as other:
                writing.write_line(other, NIGHT, "reflection", "Just now.", clock)
        return whole_way(store, *more)

    monkeypatch.setattr(into, "into_place", late)
    came = bringing_back.bring_back(filled, backup, clock)
    assert len(times) == 2 and words(filled)[NIGHT, "memory"] == "The kettle sang."
    assert any("Just now." in row for row in dump_of(came.aside / FILE))


def not_a_database(folder):
    raise sqlite3.DatabaseError("file is not a database")


def broken(filled, folder):
    filled.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    filled.close()
    (folder / FILE).write_bytes(b"no database at all" * 1000)
    (folder / f"{FILE}-wal").write_bytes(b"a log of something else")
    with pytest.raises(NotAKeeper):
        open_store(folder)


def test_one_that_cannot_be_opened_is_kept_aside_byte_by_byte(filled, backup, clock, folder):
    broken(filled, folder)
    known_damage.note(folder, "It was found to be damaged.")
    came = bringing_back.bring_back_into(folder, backup, clock)
    assert not known_damage.noted(folder)
    assert (came.aside / FILE).read_bytes() == b"no database at all" * 1000
    assert (came.aside / f"{FILE}-wal").read_bytes() == b"a log of something else"
    with open_store(folder) as store:
        assert whole(store) and words(store)[NIGHT, "memory"] == "The kettle sang."
        assert store.row("PRAGMA journal_mode") == ("wal",)
    assert not list(folder.glob("*.new*"))


@pytest.mark.parametrize("opens", [True, False])
def test_a_log_that_is_left_behind_never_meets_another_file(filled, backup, clock, folder, monkeypatch, opens):
    if not opens:
        monkeypatch.setattr(into, "held_by_nobody_else", not_a_database)
    # A log that SQLite would take for its own: of this very keeper, not yet in its file.
    filled.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    filled.connection.execute("PRAGMA wal_autocheckpoint = 0")
    for number in range(40):
        writing.write_line(filled, NIGHT, "reflection", f"In the log {number}.", clock)
    log = (folder / f"{FILE}-wal").read_bytes()
    assert len(log) > 100_000
    filled.close()
    (folder / FILE).write_bytes(b"no database")
    (folder / f"{FILE}-wal").write_bytes(log)
    bringing_back.bring_back_into(folder, backup, clock)
    with open_store(folder) as store:
        assert whole(store) and (NIGHT, "reflection") not in words(store)


def test_where_the_keeper_is_gone_it_comes_from_another_disk(filled, backup, clock, folder, tmp_path):
    shutil.copytree(folder / "backups", tmp_path / "stick")
    filled.close()
    shutil.rmtree(folder)
    came = bringing_back.bring_back_into(folder, listed_in(tmp_path / "stick")[0], clock)
    assert (came.aside, came.lacking) == (None, 0)
    with open_store(folder) as store:
        assert whole(store) and words(store)[NIGHT, "memory"] == "The kettle sang."
        for photo in known.every(store):
            known.check(store, photo)


def test_without_room_nothing_is_changed(filled, backup, clock, folder, small_disk, tmp_path):
    place = small_disk.path / "keeper"
    filled.close()
    shutil.copytree(folder, place)
    before = (place / FILE).read_bytes()
    small_disk.fill()
    with open_store(place) as store, pytest.raises(CannotWrite):
        bringing_back.bring_back(store, listed(place)[0], clock)
    (place / FILE).write_bytes(before)
    small_disk.empty()
    with open_store(place) as store:
        assert words(store)[NIGHT, "memory"] == "The kettle was silent." and whole(store)

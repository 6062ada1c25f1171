"""What a photo is beside its file: turned, dated by something, cut off; and keepers from before that was known."""

import sqlite3
from datetime import datetime

import pytest
from sqlite_utils import Database
from whole_keeper import let_all_go

from keeper.errors import UnknownThing
from keeper.model import Photo
from keeper.store import create_store, open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos


@pytest.fixture
def photo(store):
    return photos.add(store, Photo("", "a" * 64, "jpg", 9, 300, 200, 6))


def test_a_turn_is_kept_beside_the_file_and_can_be_turned_back(store, photo):
    assert (photo.turns, photo.width, photo.height) == (0, 300, 200)
    for quarters, turns, size in ((1, 1, (200, 300)), (1, 2, (300, 200)), (1, 3, (200, 300)), (1, 0, (300, 200)),
                                  (-1, 3, (200, 300)), (5, 0, (300, 200))):  # fmt: skip
        turned = photos.turn(store, photo.id, quarters)
        assert (turned.turns, (turned.width, turned.height), turned.orientation) == (turns, size, 6)
        assert photos.by_id(store, photo.id) == turned
    assert turned == photo
    with pytest.raises(UnknownThing):
        photos.turn(store, "nobody", 1)


def test_what_is_known_of_its_date_comes_back(store):
    told = Photo("", "b" * 64, "jpg", 9, taken_local=datetime(2019, 6, 3, 12), dated_by="name", day_only=True, cut_off=True)
    kept = photos.add(store, told)
    assert (kept.taken_local, kept.dated_by, kept.day_only, kept.cut_off) == (told.taken_local, "name", True, True)
    assert photos.every(store) == (kept,)


def test_a_thumbnail_belongs_to_one_way_of_turning(store, photo):
    photo_files.keep_thumbnail(store.folder, photo.sha256, 320, b"as it was\xff\xd9", 0)
    photo_files.keep_thumbnail(store.folder, photo.sha256, 320, b"to the right\xff\xd9", 1)
    assert photo_files.kept_thumbnail(store.folder, photo.sha256, 320, 0) == b"as it was\xff\xd9"
    assert photo_files.kept_thumbnail(store.folder, photo.sha256, 320, 1) == b"to the right\xff\xd9"
    assert photo_files.kept_thumbnail(store.folder, photo.sha256, 320, 2) is None
    photos.drop(store, photo.id)
    let_all_go(store)
    assert not [file for file in (store.folder / "thumbnails").rglob("*") if file.is_file()]


def test_a_thumbnail_from_before_is_not_shown_and_goes(store, photo):
    before = store.folder / "thumbnails" / "aa" / f"{photo.sha256}-320.jpg"
    before.parent.mkdir(parents=True)
    before.write_bytes(b"on white\xff\xd9")
    assert photo_files.kept_thumbnail(store.folder, photo.sha256, 320) is None
    photo_files.keep_thumbnail(store.folder, photo.sha256, 320, b"on a ground\xff\xd9")
    assert not before.exists()


def test_a_keeper_of_an_earlier_schema_is_brought_up_to_date(folder):
    create_store(folder).close()
    (folder / FILE).unlink()
    with sqlite3.connect(folder / FILE) as connection:
        migrations.apply(Database(connection), stop_before="m005_photos")
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute("PRAGMA user_version = 2")
        connection.execute("INSERT INTO night (date, begun_at) VALUES ('2026-11-14', '2026-11-14T20:00:00.000000Z')")
        connection.execute(
            "INSERT INTO photo (id, sha256, ending, bytes, width, height, taken_local, name, caption, came_at) "
            "VALUES ('p', ?, 'jpg', 9, 300, 200, '2026-11-14T12:00:00', 'a.jpg', 'A harbour', '2026-11-14T20:00:00.000000Z')",
            ("a" * 64,),
        )
        connection.execute("INSERT INTO night_photo VALUES ('2026-11-14', 'p', 0)")
    with open_store(folder) as store:
        kept = photos.by_id(store, "p")
        assert (kept.turns, kept.dated_by, kept.day_only, kept.cut_off, kept.caption) == (0, "", False, False, "A harbour")
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        assert photos.turn(store, "p", 1).width == 200
    assert (folder / "backups" / "before-upgrade-from-2.db").exists()

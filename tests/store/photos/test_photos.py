"""Photos in the keeper's folder and in its file."""

import os
import shutil
import time
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from sample_pictures import quarters, save
from whole_keeper import let_all_go

from keeper.errors import CannotWrite, DamagedPhoto, UnknownThing, UnreadablePhoto
from keeper.model import MonthPage, Photo
from keeper.store import month_pages, nights, resting
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos

NIGHT, NEXT = date(2026, 11, 14), date(2026, 11, 15)


def place(store, path):
    """Copy a file into the keeper, as photos that are brought are; its SHA-256 and its bytes."""
    coming = photo_files.receive(store.folder, path)
    photo_files.settle(store.folder, coming, "jpg")
    photo_files.make_names_last(store.folder, [coming.sha256])
    return coming.sha256, coming.bytes


@pytest.fixture
def path(tmp_path):
    return save(tmp_path / "harbour.jpg", quarters(300, 200))


@pytest.fixture
def photo(store, path):
    sha256, size = place(store, path)
    taken = datetime(2026, 11, 14, 21, 5, 9)
    return photos.add(store, Photo("", sha256, "jpg", size, 300, 200, 6, taken, 345, 56.9, 24.1, path.name, "Riga"))


def another(store, number, **more):
    return photos.add(store, Photo("", f"{number:064x}", "jpg", 1, **more))


def files_in(store):
    return sorted(p.relative_to(store.folder).as_posix() for p in (store.folder / "photos").rglob("*") if p.is_file())


def test_a_file_is_copied_as_it_is(store, path, photo):
    file = photos.file_of(store, photo)
    assert file.read_bytes() == path.read_bytes()
    assert files_in(store) == [f"photos/{photo.sha256[:2]}/{photo.sha256}.jpg"]
    assert photo_files.sha256_of(path) == photo.sha256
    photos.check(store, photo)


def test_the_same_photo_twice_is_one(store, path, photo):
    assert place(store, path) == (photo.sha256, photo.bytes)
    assert photos.add(store, replace(photo, id="", caption="other")) == photo
    assert photos.count(store) == 1 and len(files_in(store)) == 1


def test_what_was_kept_comes_back(store, photo):
    assert photos.by_id(store, photo.id) == photo
    assert photos.by_sha256(store, photo.sha256) == photo
    assert photo.taken_local == datetime(2026, 11, 14, 21, 5, 9) and photo.taken_offset_minutes == 345
    assert photos.by_id(store, "nothing") is None
    assert photos.endings(store) == {photo.sha256: "jpg"}


def test_all_photos_the_latest_first(store):
    old = another(store, 1, taken_local=datetime(1999, 1, 1))
    undated = another(store, 2)
    new = another(store, 3, taken_local=datetime(2020, 1, 1))
    assert photos.every(store) == (new, old, undated)


def test_photos_of_a_night_keep_their_order(store):
    few = [another(store, number) for number in (3, 1, 2)]
    for one in few:
        photos.attach(store, NIGHT, one.id)
    photos.attach(store, NIGHT, few[0].id)
    assert photos.of_night(store, NIGHT) == tuple(few)
    assert nights.one(store, NIGHT).photo_count == 3
    photos.detach(store, NIGHT, few[1].id)
    photos.attach(store, NIGHT, few[1].id)
    assert photos.of_night(store, NIGHT) == (few[0], few[2], few[1])
    assert photos.nights_of(store, few[0].id) == (NIGHT,)


def test_the_photo_of_a_night_is_the_chosen_one_or_the_first(store):
    first, second = another(store, 1), another(store, 2)
    assert photos.photo_of_night(store, NIGHT) is None
    photos.set_photo_of_night(store, NIGHT, None)
    photos.attach(store, NIGHT, first.id)
    photos.set_photo_of_night(store, NIGHT, second.id)
    assert photos.photo_of_night(store, NIGHT) == second
    assert photos.of_night(store, NIGHT) == (first, second)
    photos.detach(store, NIGHT, second.id)
    assert photos.photo_of_night(store, NIGHT) == first
    photos.set_photo_of_night(store, NIGHT, second.id)
    photos.set_photo_of_night(store, NIGHT, None)
    assert photos.photo_of_night(store, NIGHT) == first


def test_photos_of_a_month_each_once(store):
    few = [another(store, number) for number in range(4)]
    for night, one in ((NEXT, 0), (NIGHT, 1), (date(2026, 11, 30), 0), (date(2026, 12, 1), 2), (date(2026, 10, 31), 3)):
        photos.attach(store, night, few[one].id)
    assert photos.of_month(store, NIGHT) == (few[1], few[0])


def test_captions(store, photo):
    photos.caption(store, photo.id, "The tide mill, \U0001f33b")
    assert photos.by_id(store, photo.id).caption == "The tide mill, \U0001f33b"


def test_an_unknown_photo_is_said(store):
    for work in (
        lambda: photos.attach(store, NIGHT, "nothing"),
        lambda: photos.set_photo_of_night(store, NIGHT, "nothing"),
        lambda: photos.caption(store, "nothing", "words"),
        lambda: photos.drop(store, "nothing"),
    ):
        with pytest.raises(UnknownThing):
            work()
    assert nights.ticks(store, NIGHT, NIGHT) == ()


def test_a_photo_taken_out_leaves_nothing(store, photo):
    photos.set_photo_of_night(store, NIGHT, photo.id)
    month_pages.keep(store, MonthPage(NIGHT, photo_id=photo.id))
    resting.rest(store, "photo", photo.id)
    assert photos.by_id(store, photo.id).resting
    photo_files.keep_thumbnail(store.folder, photo.sha256, 320, b"small\xff\xd9")
    photos.drop(store, photo.id)
    assert photos.every(store) == photos.of_night(store, NIGHT) == ()
    assert month_pages.one(store, NIGHT).photo_id is None
    assert files_in(store) != [], "it may come back"
    let_all_go(store)
    assert files_in(store) == [] and not photo_files.thumbnail_file(store.folder, photo.sha256, 320).exists()
    assert store.rows("PRAGMA foreign_key_check") == []


def test_a_photo_gone_or_damaged_is_said_and_mended_by_taking_it_in_again(store, path, photo):
    file = photos.file_of(store, photo)
    data = bytearray(file.read_bytes())
    data[len(data) // 2] ^= 1
    file.write_bytes(bytes(data))
    with pytest.raises(DamagedPhoto, match=r"harbour\.jpg. cannot be shown: its file .* was changed"):
        photos.check(store, photo)
    place(store, path)
    photos.check(store, photo)
    file.unlink()
    with pytest.raises(DamagedPhoto, match="its file is gone"):
        photos.check(store, photo)


def test_a_file_that_cannot_be_read_leaves_nothing(store, tmp_path):
    for path in (tmp_path / "gone.jpg", tmp_path):
        with pytest.raises(UnreadablePhoto):
            place(store, path)
    assert files_in(store) == []


@pytest.mark.skipif(os.name != "posix", reason="No limit on the size of files here.")
def test_a_disk_that_fills_half_way_leaves_nothing(store, tmp_path):
    import resource

    big = tmp_path / "big.jpg"
    big.write_bytes(os.urandom(3 << 20))
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    # The system then refuses the rest of the file, as a full disk does.
    resource.setrlimit(resource.RLIMIT_FSIZE, (2 << 20, before[1]))
    try:
        with pytest.raises(CannotWrite, match=r"cannot be kept in .*"):
            place(store, big)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert files_in(store) == []


def test_a_folder_that_may_not_be_written(store, path, unprivileged):
    (store.folder / "photos").chmod(0o500)
    unprivileged()
    with pytest.raises(CannotWrite):
        place(store, path)


def test_copies_broken_off_long_ago_are_swept_away(store):
    old, new = (store.folder / "photos" / f".coming-1-{which}" for which in "ab")
    for file in (old, new):
        file.write_bytes(b"half")
    os.utime(old, (time.time() - 90_000,) * 2)
    photo_files.sweep(store.folder)
    assert not old.exists() and new.exists()


def test_thumbnails_can_be_dropped_at_any_time(store, photo):
    folder, sha256 = store.folder, photo.sha256
    assert photo_files.kept_thumbnail(folder, sha256, 320) is None
    photo_files.keep_thumbnail(folder, sha256, 320, b"\xff\xd8small\xff\xd9")
    assert photo_files.kept_thumbnail(folder, sha256, 320) == b"\xff\xd8small\xff\xd9"
    assert photo_files.kept_thumbnail(folder, sha256, 640) is None
    photo_files.thumbnail_file(folder, sha256, 320).write_bytes(b"\xff\xd8cut")
    assert photo_files.kept_thumbnail(folder, sha256, 320) is None
    shutil.rmtree(folder / "thumbnails")
    assert photo_files.kept_thumbnail(folder, sha256, 320) is None
    photo_files.keep_thumbnail(folder, sha256, 320, b"\xff\xd8small\xff\xd9")
    assert photo_files.kept_thumbnail(folder, sha256, 320)


def test_a_thumbnail_that_cannot_be_kept_is_let_be(store, photo):
    (store.folder / "thumbnails").write_text("in the way")
    photo_files.keep_thumbnail(store.folder, photo.sha256, 320, b"small\xff\xd9")


def test_times_are_kept_in_utc(store):
    came = datetime(2026, 1, 1, 12, tzinfo=UTC)
    photos.add(store, Photo("", "0" * 64, "jpg", 1), came)
    assert store.row("SELECT came_at FROM photo")[0] == "2026-01-01T12:00:00.000000Z"

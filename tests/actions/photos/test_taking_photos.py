"""Taking photos in, one and many: what is guessed, said, left out and left behind."""

import os
import shutil
import subprocess
import sys
import tempfile
import textwrap
import time
from datetime import date
from pathlib import Path

import pytest
from sample_pictures import HEIC, REAL, exif, jpeg_bytes, laid_down, quarters, save, with_exif

from keeper.actions.photos import bringing as photo_bringing
from keeper.actions.photos import kept as photos
from keeper.actions.photos import many as many_photos
from keeper.earth import metres_between
from keeper.errors import CannotWrite, DamagedPhoto, Stopped, UnknownThing, UnreadablePhoto, UnreadableText
from keeper.model import Act, Goal, MonthPage, Place
from keeper.store import month_pages, nights, open_store
from keeper.store.photos import known as kept
from keeper.store.places import named as places
from keeper.town import Town

NIGHT = date(2026, 11, 14)
JURMALA = Town(459279, "J\u016brmala", "Jurmala", "", "LV", "Latvia", 56.968, 23.77038, "Europe/Riga", 50_000)
PLAIN = jpeg_bytes(quarters(120, 80))


def taken(path: Path, when: str = "", **more) -> Path:
    """A photo that carries this date, each a file of its own."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(with_exif(PLAIN, exif(when, **more)))
    return path


def left_behind(folder: Path) -> list[str]:
    return [path.name for path in (folder / "photos").rglob("*") if path.is_file()]


def test_a_photo_goes_to_the_night_of_its_own_date(store, clock, tmp_path):
    came = photos.take_in(store, taken(tmp_path / "a.jpg", "2026:11:10 18:20:00"), clock)
    assert (came.new, came.night, came.own_night, came.offer) == (True, date(2026, 11, 10), date(2026, 11, 10), None)
    assert came.sentence == "Added to 10 November 2026: it was taken at 18:20."
    assert photos.of_night(store, date(2026, 11, 10)) == (came.photo,)
    assert (came.photo.width, came.photo.height, came.photo.name) == (120, 80, "a.jpg")


@pytest.mark.parametrize(("rollover", "night"), [(4, date(2026, 11, 10)), (0, date(2026, 11, 11))])
def test_after_midnight_it_is_still_the_night_before(store, clock, tmp_path, rollover, night):
    came = photos.take_in(store, taken(tmp_path / "a.jpg", "2026:11:11 01:10:00"), clock, rollover=rollover)
    assert came.night == night
    assert ("the next morning, before the night ended" in came.sentence) is bool(rollover)


def test_a_photo_put_with_another_night_says_where_it_belongs(store, clock, tmp_path):
    came = photos.take_in(store, taken(tmp_path / "a.jpg", "2026:11:10 18:20:00"), clock, NIGHT)
    assert (came.night, came.own_night) == (NIGHT, date(2026, 11, 10))
    assert came.sentence == "Added to 14 November 2026; by its own date it belongs to 10 November 2026."
    assert photos.of_night(store, date(2026, 11, 10)) == ()


def test_a_photo_without_a_date_goes_to_no_night_unless_given(store, clock, tmp_path):
    came = photos.take_in(store, taken(tmp_path / "a.jpg", "0000:00:00 00:00:00"), clock)
    assert (came.night, came.sentence) == (None, "It belongs to no night yet: it carries no date of its own.")
    assert photos.every(store) == (came.photo,)
    again = photos.take_in(store, tmp_path / "a.jpg", clock, NIGHT)
    assert (again.new, again.photo) == (False, came.photo)
    assert again.sentence == (
        "This photo was in the keeper already. Added to 14 November 2026; it carries no date of its own."
    )


def test_a_date_that_lies_ahead_is_not_believed(store, clock, tmp_path):
    came = photos.take_in(store, taken(tmp_path / "a.jpg", "2036:01:01 12:00:00"), clock)
    assert (came.night, came.sentence) == (None, "It belongs to no night yet: its own date, 1 January 2036, lies ahead.")
    # A day ahead may be the other side of the date line.
    assert photos.take_in(store, taken(tmp_path / "b.jpg", "2026:11:15 12:00:00"), clock).night == date(2026, 11, 15)


def test_the_nearest_known_place_is_offered(store, clock, tmp_path):
    places.add(store, Place("", "Far", latitude=50.0, longitude=20.0))
    places.add(store, Place("", "Nowhere"))
    near = places.add(store, Place("", "Anna's", latitude=56.9, longitude=24.1))
    path = taken(tmp_path / "a.jpg", "2026:11:10 18:20:00", latitude=56.9496, longitude=24.1052)
    came = photos.take_in(store, path, clock, nearest_town=lambda *_: JURMALA)
    assert (came.offer.place, came.offer.known) == (near, True)
    assert came.offer.metres == pytest.approx(5523, abs=30)
    assert came.offer.metres == metres_between((56.9496, 24.1052), near.point)
    assert came.sentence.endswith("By its position it was taken 6 km from Anna's, a place you know.")
    assert nights.one(store, date(2026, 11, 10)).place is None
    photos.accept_place(store, came.night, came.offer, clock)
    night = nights.one(store, date(2026, 11, 10))
    assert (night.place, night.place_source) == (near, "photo")


def test_else_the_nearest_town(store, clock, tmp_path):
    places.add(store, Place("", "Far", latitude=57.5, longitude=24.1))
    path = taken(tmp_path / "a.jpg", "2026:11:10 18:20:00", latitude=56.97, longitude=23.77)
    came = photos.take_in(store, path, clock, nearest_town=lambda *_: JURMALA)
    assert not came.offer.known and came.offer.place.id == ""
    assert came.sentence.endswith("By its position it was taken at J\u016brmala, the nearest town.")
    place = photos.accept_place(store, came.night, came.offer, clock)
    assert (place.name, place.zone, place.geoname_id) == ("J\u016brmala", "Europe/Riga", 459279)
    assert photos.take_in(store, path, clock, nearest_town=lambda *_: JURMALA).offer.place == place


def test_far_out_no_place_is_offered(store, clock, tmp_path):
    path = taken(tmp_path / "a.jpg", latitude=-40.0, longitude=-140.0)
    came = photos.take_in(store, path, clock, nearest_town=lambda *_: JURMALA)
    assert came.offer is None and came.sentence.endswith("Its position is far from any place or town.")
    assert photos.take_in(store, path, clock).offer is None


def test_a_heic_comes_in(store, clock):
    came = photos.take_in(store, HEIC, clock, NIGHT)
    assert came.photo.ending == "heif"
    assert photos.thumbnail_of(store, came.photo).startswith(b"\xff\xd8")


@pytest.mark.parametrize("name", ["beach.jpg", "IllegalArgumentException.HeifReader.processBoxes.heif"])
def test_a_broken_photo_is_not_taken_in(store, clock, name):
    with pytest.raises(UnreadablePhoto, match=f"\u201c{name}\u201d is damaged or cut short"):
        photos.take_in(store, REAL / name, clock, NIGHT)
    assert photos.every(store) == () and left_behind(store.folder) == []


def test_when_it_cannot_be_written_down_the_file_goes_too(store, clock, tmp_path, monkeypatch):
    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(photo_bringing.photos, "add", full)
    with pytest.raises(CannotWrite):
        photos.take_in(store, taken(tmp_path / "a.jpg"), clock, NIGHT)
    assert left_behind(store.folder) == []


def test_names_with_odd_characters(store, clock, tmp_path):
    path = Path(os.fsdecode(os.fsencode(tmp_path) + b"/a\x1b\xff\nb.jpg"))
    try:
        taken(path, "2026:11:10 18:20:00")
    except OSError:
        pytest.skip("This file system takes no such names.")
    assert photos.take_in(store, path, clock).photo.name == "a\ufffd\nb.jpg"


def test_showing(store, clock, tmp_path):
    path = save(tmp_path / "a.jpg", laid_down(quarters(), 6), exif(orientation=6, latitude=56.9, longitude=24.1))
    photo = photos.take_in(store, path, clock, NIGHT).photo
    seen = photos.pixels_of(store, photo)
    assert (seen.width, seen.height, len(seen.rgb)) == (48, 32, 48 * 32 * 3)
    assert photos.pixels_of(store, photo, 24).width == 24
    assert b"Exif" not in photos.to_give_away(store, photo)
    assert kept.file_of(store, photo).read_bytes() == path.read_bytes()
    shutil.rmtree(store.folder / "thumbnails")
    small = photos.thumbnail_of(store, photo)
    assert photos.thumbnail_of(store, photo) == small


def test_a_damaged_photo_is_said_wherever_it_is_shown(store, clock, tmp_path):
    photo = photos.take_in(store, taken(tmp_path / "a.jpg"), clock, NIGHT).photo
    sound = photos.take_in(store, HEIC, clock, NIGHT).photo
    kept.file_of(store, photo).write_bytes(b"")
    for show in (photos.pixels_of, photos.to_give_away):
        with pytest.raises(DamagedPhoto, match="a\\.jpg\u201d cannot be shown"):
            show(store, photo)
    with pytest.raises(DamagedPhoto):
        photos.thumbnail_of(store, photo, 99)
    assert len(photos.damaged(store)) == 1
    with pytest.raises(Stopped):
        photos.damaged(store, lambda: True)
    assert photos.pixels_of(store, sound).width == 1440


def test_the_photo_of_a_month(store, clock, tmp_path):
    page = MonthPage(date(2026, 11, 1), "What was warm?", "Much.", None, (Goal("g", "Swim", "set"),))
    month_pages.keep(store, page)
    photo = photos.take_in(store, taken(tmp_path / "a.jpg", "2025:03:10 18:20:00"), clock).photo
    photos.photo_of_month(store, NIGHT, photo.id)
    now = month_pages.one(store, NIGHT)
    assert (now.photo_id, now.question, now.goals) == (photo.id, page.question, page.goals)
    with pytest.raises(UnknownThing):
        photos.photo_of_month(store, NIGHT, "nothing")
    photos.photo_of_month(store, NIGHT, None)
    assert month_pages.one(store, NIGHT) == page


def test_captions_rest_and_taking_out(store, clock, tmp_path):
    photo = photos.take_in(store, taken(tmp_path / "a.jpg"), clock, NIGHT).photo
    photos.write_caption(store, photo.id, " The quay ")
    with pytest.raises(UnreadableText):
        photos.write_caption(store, photo.id, "\0")
    photos.rest_photo(store, photo.id)
    now = photos.every(store)[0]
    assert (now.caption, now.resting) == ("The quay", True)
    photos.wake_photo(store, photo.id)
    photos.take_from(store, NIGHT, photo.id)
    photos.put_with(store, date(2026, 11, 1), photo.id, clock)
    photos.choose_for_night(store, date(2026, 11, 1), photo.id, clock)
    assert photos.photo_of_night(store, date(2026, 11, 1)).id == photo.id
    assert photos.of_month(store, NIGHT) == photos.of_night(store, date(2026, 11, 1))
    photos.take_out(store, photo.id)
    with pytest.raises(UnknownThing):
        photos.rest_photo(store, photo.id)


@pytest.fixture
def album(tmp_path):
    """A folder such as people have: sound photos, copies, and other things."""
    root = tmp_path / "album"
    for number in range(40):
        taken(root / f"{number % 3}" / f"p{number:02d}.jpg", f"2026:{1 + number % 10:02d}:05 12:00:{number:02d}")
    shutil.copy(root / "0" / "p00.jpg", root / "copy of p00.jpg")
    for number in range(2):
        taken(root / f"undated{number}.jpg", orientation=1 + number)
    taken(root / "ahead.jpg", "2099:01:01 12:00:00")
    (root / "empty.jpg").touch()
    (root / "words.txt").write_text("Dear diary")
    (root / "cut.jpg").write_bytes((root / "0" / "p00.jpg").read_bytes()[:900])
    (root / ".hidden").mkdir()
    taken(root / ".hidden" / "x.jpg", "2026:01:01 12:00:00")
    taken(root / "._p00.jpg", "2026:01:01 12:00:01")
    return root


def test_many_are_sorted_to_their_nights(store, clock, album):
    heard = []
    summary = photos.take_in_many(store, album, clock, progress=lambda share, words: heard.append((share, words)))
    assert (summary.taken, summary.nights, summary.already, summary.ended_early) == (40, 10, 1, "")
    assert {(left.path.name, left.why) for left in summary.left_out} == {
        ("undated0.jpg", "has no date"),
        ("undated1.jpg", "has no date"),
        ("ahead.jpg", "is dated ahead of today"),
        ("empty.jpg", "is empty: it has 0 bytes"),
        ("cut.jpg", "is damaged or cut short; only a part of it can be seen"),
        ("words.txt", "is not a picture the keeper can take: JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP"),
    }
    assert summary.sentence.startswith(
        "40 photos taken in, for 10 nights. 1 in the keeper already. 6 left out: has no date (2); "
    )
    assert len(photos.of_night(store, date(2026, 3, 5))) == 4
    assert heard[-1] == (1.0, "47 of 47") and [share for share, _ in heard] == sorted(share for share, _ in heard)
    assert len(left_behind(store.folder)) == 40
    assert photos.damaged(store) == ()


def test_nothing_is_taken_in_twice(store, clock, album):
    photos.take_in_many(store, [album / "0", album / "1" / "p01.jpg"], clock)
    first = photos.every(store)
    assert len(first) == 15
    photos.take_from(store, date(2026, 1, 5), kept.of_night(store, date(2026, 1, 5))[0].id)
    before = [kept.nights_of(store, photo.id) for photo in first]
    summary = photos.take_in_many(store, album, clock)
    assert (summary.taken, summary.already) == (25, 16)
    # What the person took from a night is not put back.
    assert [kept.nights_of(store, photo.id) for photo in first] == before
    assert photos.take_in_many(store, album, clock).taken == 0


def test_it_can_be_stopped_and_what_came_stays_whole(store, clock, album):
    heard = []
    summary = photos.take_in_many(
        store, album, clock, progress=lambda share, _: heard.append(share), stopped=lambda: len(heard) >= 12
    )
    assert summary.ended_early.startswith("Stopped before the end. The other ")
    assert 0 < summary.taken < 40
    assert len(photos.every(store)) == len(left_behind(store.folder)) == summary.taken
    assert photos.damaged(store) == ()
    assert photos.take_in_many(store, album, clock).taken == 40 - summary.taken


def test_progress_may_stop_it_too(store, clock, album):
    def stop(share, words):
        raise Stopped("Stopped.")

    assert photos.take_in_many(store, album, clock, progress=stop).ended_early.startswith("Stopped before the end.")


def test_a_full_disk_ends_it_and_leaves_nothing_half_taken_in(store, clock, album, monkeypatch):
    real, calls = photo_bringing.photo_files.settle, []

    def fills(*given):
        calls.append(given)
        if len(calls) > 10:
            photo_bringing.photo_files.discard(given[1])
            raise CannotWrite("The photo cannot be kept: no space left on device.")
        return real(*given)

    monkeypatch.setattr(photo_bringing.photo_files, "settle", fills)
    summary = photos.take_in_many(store, album, clock)
    assert "no space left" in summary.ended_early and "no space left" in summary.sentence
    assert summary.taken == len(photos.every(store)) == len(left_behind(store.folder)) <= 10


def test_rows_that_cannot_be_kept_take_their_files_with_them(store, clock, album, monkeypatch):
    monkeypatch.setattr(many_photos, "_AT_ONCE", 8)
    real, calls = kept.add, []

    def fills(*given):
        calls.append(given)
        if len(calls) > 12:
            raise CannotWrite("The keeper cannot be used: the disk is full.")
        return real(*given)

    monkeypatch.setattr(photo_bringing.photos, "add", fills)
    summary = photos.take_in_many(store, album, clock)
    told = "The keeper cannot be used: the disk is full. The other 32 of 47 were not taken in."
    assert (summary.taken, summary.ended_early) == (8, told)
    assert len(photos.every(store)) == len(left_behind(store.folder)) == 8


def test_what_was_not_foreseen_is_not_swallowed_and_leaves_all_whole(store, clock, album, monkeypatch):
    def broken(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(many_photos._Run, "_unwanted", broken)
    with pytest.raises(ZeroDivisionError):
        photos.take_in_many(store, album, clock)
    assert left_behind(store.folder) == []


def test_folders_that_are_gone_or_closed_are_left_out(store, clock, unprivileged):
    # Not the test's own folder, which is closed to others as a whole.
    with tempfile.TemporaryDirectory() as name:
        root, closed = Path(name), Path(name, "closed")
        root.chmod(0o755)
        taken(root / "a.jpg")
        closed.mkdir(mode=0)
        unprivileged()
        run = many_photos._Run(store, clock, 4, Act("Photos"))
        unseen = [root / "gone", closed / "within"]
        assert list(run.found([root, *unseen])) == [root / "a.jpg", *unseen]
        assert [(left.path, left.why) for left in run.left_out] == [(closed, "cannot be read: permission denied")]
        os.seteuid(os.getuid())


def test_the_keepers_own_folder_is_passed_by(store, clock, tmp_path):
    photos.take_in(store, taken(tmp_path / "a.jpg", "2026:11:10 18:20:00"), clock)
    assert photos.take_in_many(store, tmp_path, clock).already == 1
    assert photos.take_in_many(store, tmp_path / "gone", clock).left_out[0].why == "is not there"
    assert photos.take_in_many(store, [], clock).sentence == "0 photos taken in, for 0 nights."


def test_killed_in_the_midst_every_photo_kept_is_whole(folder, clock, tmp_path):
    for number in range(200):
        taken(tmp_path / "many" / f"{number}.jpg", f"2026:01:05 12:{number // 60:02d}:{number % 60:02d}", orientation=1)
    script = textwrap.dedent("""
        import sys
        from pathlib import Path
        from keeper.actions.photos import many as many_photos
        from keeper.actions.photos import kept as photos
        from keeper.actions.opening import open_or_begin
        from keeper.clock import Clock
        many_photos._AT_ONCE = 4
        with open_or_begin(Path(sys.argv[1])) as store:
            photos.take_in_many(store, Path(sys.argv[2]), Clock(), progress=lambda *_: print(".", flush=True))
    """)
    for _ in range(3):
        writer = subprocess.Popen([sys.executable, "-c", script, folder, tmp_path / "many"], stdout=subprocess.PIPE)
        for _ in range(40):
            writer.stdout.readline()
        time.sleep(0.02)
        writer.kill()
        writer.communicate()
        with open_store(folder) as store:
            assert photos.damaged(store) == ()
            assert store.row("PRAGMA integrity_check") == ("ok",)
    with open_store(folder) as store:
        photos.take_in_many(store, tmp_path / "many", clock)
        assert len(photos.every(store)) == 200 and photos.damaged(store) == ()


def test_memory_does_not_grow_with_the_number(store, clock, tmp_path):
    resource = pytest.importorskip("resource")
    large = jpeg_bytes(quarters(2400, 1800))
    for number in range(70):
        path = tmp_path / "many" / f"{number}.jpg"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(with_exif(large, exif(f"2026:01:05 12:{number // 60:02d}:{number % 60:02d}")))
    files = sorted((tmp_path / "many").iterdir())
    photos.take_in_many(store, files[:20], clock)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert photos.take_in_many(store, files[20:], clock).taken == 50
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 24_000


def test_nothing_heavy_is_loaded_before_a_photo_is_read():
    heavy = "{'PIL', 'pi_heif', 'concurrent.futures', 'sqlite_utils'}"
    script = f"import sys, keeper.actions.photos.kept; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"

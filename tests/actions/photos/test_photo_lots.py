"""Many photos at once: looked at by night, taken in, taken back and done again; linked folders, full disks."""

import os
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest
from PIL import Image
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.photos import kept as photos
from keeper.actions.photos.looking import look_through, take_in_looked
from keeper.actions.photos.offers import say_places
from keeper.store import nights
from keeper.store.photos import known as kept
from keeper.store.places import named as places
from keeper.town import Town

PLAIN = jpeg_bytes(quarters(120, 80))
RIGA = {"latitude": 56.9496, "longitude": 24.1052}
ONE, TWO = date(2026, 11, 1), date(2026, 11, 2)


def taken(path: Path, when: str, **more) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(with_exif(PLAIN, exif(when, more=sum(path.name.encode()), **more)))
    return path


@pytest.fixture
def card(tmp_path):
    """Three photos of two nights, two of them with a position."""
    root = tmp_path / "card"
    taken(root / "a.jpg", "2026:11:01 12:00:00", **RIGA)
    taken(root / "b.jpg", "2026:11:01 13:00:00", **RIGA)
    taken(root / "c.jpg", "2026:11:02 12:00:00")
    return root


def riga(latitude, longitude) -> Town:
    return Town(456172, "Riga", "", "LV", "Latvia", "Rīga", 56.946, 24.106, 615000, "Europe/Riga")


def names(store, night) -> list[str]:
    return [photo.name for photo in photos.of_night(store, night)]


# looked at first


def test_each_night_is_told_before_anything_is_taken_in(store, clock, card):
    quarters().save(card / "2026-11-02 harbour.jpg")
    (card / "words.txt").write_text("words")
    looked = look_through(store, [card], clock, 4)
    assert [(one.night, [file.name for file in one.files], one.guessed) for one in looked.nights] == [
        (ONE, ["a.jpg", "b.jpg"], 0), (TWO, ["2026-11-02 harbour.jpg", "c.jpg"], 1),
    ]  # fmt: skip
    assert [left.path.name for left in looked.left_out] == ["words.txt"]
    assert kept.count(store) == 0 and not any(file.is_file() for file in (store.folder / "photos").rglob("*"))


def test_what_is_kept_already_is_known_by_its_bytes(store, clock, card, tmp_path):
    photos.take_in(store, card / "a.jpg", clock)
    shutil.copy(card / "a.jpg", card / "copy.jpg")
    looked = look_through(store, [card], clock, 4)
    assert (looked.already, [len(one.files) for one in looked.nights]) == (2, [1, 1])


def test_the_place_of_a_night_is_offered_unless_it_was_said(store, clock, card):
    known = places.add(store, kept_place())
    assert [one.offer and one.offer.place.id for one in look_through(store, [card], clock, 4).nights] == [known.id, None]
    writing.set_place(store, ONE, "Visby", clock)
    assert [one.offer for one in look_through(store, [card], clock, 4).nights] == [None, None]


def kept_place():
    from keeper.model import Place

    return Place("", "Riga", "", "LV", 56.95, 24.1, "Europe/Riga")


# taken back


def test_all_that_came_at_once_is_one_act(store, clock, card, monkeypatch):
    before = photos.take_in(store, taken(card.parent / "before.jpg", "2026:11:01 09:00:00"), clock).photo
    monkeypatch.setattr("keeper.actions.photos.many._AT_ONCE", 1)
    done = photos.take_in_many(store, card, clock)
    writing.write_line(store, ONE, "memory", "In between.", clock)
    assert undoing.turn(store, done.act).sentence == "Took back: The photos of \u201ccard\u201d."
    assert (names(store, ONE), names(store, TWO)) == (["before.jpg"], [])
    assert kept.count(store) == 1 and undoing.redo(store).done.number == done.act
    assert (names(store, ONE), names(store, TWO)) == (["before.jpg", "a.jpg", "b.jpg"], ["c.jpg"])
    assert before.id in [photo.id for photo in photos.of_night(store, ONE)]


def test_the_places_noted_with_it_go_too_but_not_what_was_said_since(store, clock, card):
    taken(card / "c.jpg", "2026:11:02 12:00:00", **RIGA)
    writing.set_place(store, date(2026, 10, 31), "Visby", clock)
    nights.carry_place(store, ONE, places.named(store, "Visby").id, "2026-11-14T20:00:00.000000Z")
    carried = nights.one(store, ONE)
    looked = look_through(store, [card], clock, 4, riga)
    done, said = take_in_looked(store, looked, looked.nights, True, clock, 4)
    assert said == 2
    assert [nights.one(store, night).place.name for night in (ONE, TWO)] == ["Riga", "Riga"]
    assert len([place for place in places.every(store) if place.name == "Riga"]) == 1
    writing.set_place(store, TWO, "Visby", clock)
    undoing.turn(store, done.act)
    assert nights.one(store, ONE).place == carried.place and carried.place.name == "Visby"
    assert nights.one(store, ONE).place_source == "carried" and kept.count(store) == 0
    assert nights.one(store, TWO).place_source == "said"
    undoing.redo(store)
    assert [nights.one(store, night).place.name for night in (ONE, TWO)] == ["Riga", "Visby"]


def test_no_place_is_noted_of_a_night_to_which_nothing_came(store, clock, card):
    looked = look_through(store, [card], clock, 4, riga)
    (card / "a.jpg").unlink(), (card / "b.jpg").unlink()
    assert take_in_looked(store, looked, looked.nights, True, clock, 4)[1] == 0
    assert nights.one(store, ONE).place is None


def test_what_was_said_of_a_night_stays(store, clock, card):
    offer = look_through(store, [card], clock, 4, riga).nights[0].offer
    writing.set_place(store, ONE, "Visby", clock)
    assert say_places(store, {ONE: offer}, clock) == 0
    assert nights.one(store, ONE).place.name == "Visby"


def test_files_stay_as_long_as_an_act_can_bring_them_back(store, clock, card):
    from keeper.store.history.letting_go import let_go_old
    from keeper.store.tidying import let_go_old as tidied

    done = photos.take_in_many(store, card, clock)
    a, b, c = kept.every(store)[::-1]
    photos.take_out(store, a.id)
    undoing.undo(store), undoing.redo(store)
    assert kept.file_of(store, a).exists()
    undoing.undo(store), undoing.turn(store, done.act)
    assert kept.count(store) == 0 and all(kept.file_of(store, one).exists() for one in (a, b, c))
    undoing.redo(store)
    photos.take_out(store, b.id)
    assert list(let_go_old(store, most=1)) == []
    tidied(store)
    assert kept.file_of(store, b).exists()
    from datetime import timedelta

    assert list(let_go_old(store, timedelta(-1))) == [(b.sha256, "jpg")]
    assert photos.damaged(store) == () and {photo.id for photo in kept.every(store)} == {a.id, c.id}


def test_what_was_taken_back_can_be_brought_again(store, clock, card, tmp_path):
    photos.take_in_many(store, card, clock)
    undoing.undo(store)
    moved = card.rename(tmp_path / "moved")
    assert sum(len(one.files) for one in look_through(store, [moved], clock, 4).nights) == 3
    again = photos.take_in_many(store, moved, clock)
    assert (again.taken, again.already) == (3, 0)
    assert (names(store, ONE), names(store, TWO)) == (["a.jpg", "b.jpg"], ["c.jpg"])
    assert photos.damaged(store) == ()


def test_what_an_earlier_version_took_back_can_be_brought_again(store, clock, card):
    photos.take_in_many(store, card, clock)
    with store.writing() as connection:
        connection.execute("INSERT INTO lot (came_at, taken_back_at) VALUES ('x', 'y')")
        connection.execute("INSERT INTO lot_photo (lot, photo_id, night, path) SELECT 1, id, '2026-11-01', '' FROM photo")
        connection.execute("DELETE FROM night_photo")
    assert sum(len(one.files) for one in look_through(store, [card], clock, 4).nights) == 3
    assert photos.take_in_many(store, card, clock).taken == 3
    assert (names(store, ONE), names(store, TWO)) == (["a.jpg", "b.jpg"], ["c.jpg"])


def test_what_is_stopped_can_be_taken_back_as_far_as_it_came(store, clock, card):
    heard = []
    done = photos.take_in_many(store, card, clock, progress=lambda *told: heard.append(told), stopped=lambda: bool(heard), workers=1)
    assert 0 < done.taken == len(kept.every(store))
    undoing.turn(store, done.act)
    assert names(store, ONE) + names(store, TWO) == []


def test_names_that_are_no_text_come_too(store, clock, card):
    odd = Path(os.fsdecode(os.fsencode(card) + b"/\xff\xfe.jpg"))
    shutil.copy(card / "a.jpg", odd)
    assert photos.take_in_many(store, odd, clock).taken == 1
    assert undoing.undo(store).sentence == "Took back: The photos of \u201c\ufffd\ufffd.jpg\u201d."


# folders that are linked


def test_a_linked_folder_is_followed_once(store, clock, card, tmp_path):
    elsewhere = taken(tmp_path / "elsewhere" / "d.jpg", "2026:11:03 12:00:00").parent
    (card / "link").symlink_to(elsewhere)
    (card / "same").symlink_to(elsewhere)
    (card / "loop").symlink_to(card)
    (card / "keeper").symlink_to(store.folder)
    done = photos.take_in_many(store, card, clock)
    assert (done.taken, done.already, done.left_out) == (4, 0, ())
    assert names(store, date(2026, 11, 3)) == ["d.jpg"]


def test_a_link_that_leads_nowhere_is_named(store, clock, card):
    (card / "gone").symlink_to(card.parent / "nowhere")
    done = photos.take_in_many(store, card, clock)
    assert [(left.path.name, left.why) for left in done.left_out] == [("gone", "is not there")]


# a disk that fills


def test_what_is_told_of_a_full_disk_is_what_happened(store, clock, tmp_path, monkeypatch):
    from keeper.actions.photos import many as many_photos
    from keeper.store.photos import files as photo_files

    monkeypatch.setattr(many_photos, "_AT_ONCE", 8)
    for number in range(40):
        taken(tmp_path / "many" / f"{number:02d}.jpg", f"2026:10:{1 + number % 28:02d} 12:00:{number:02d}")
    real, written = photo_files.force, []

    def fills(file: Path) -> None:
        written.append(file)
        if len(written) > 25:
            raise OSError(28, "No space left on device")
        real(file)

    monkeypatch.setattr(photo_files, "force", fills)
    done = photos.take_in_many(store, tmp_path / "many", clock)
    assert done.taken == kept.count(store) == 25
    assert "Nothing was taken in" not in done.sentence
    assert done.sentence.startswith("25 photos taken in, for 25 nights. The photo cannot be kept in ")
    assert done.sentence.endswith("no space left on device. The other 15 of 40 were not taken in.")
    undoing.turn(store, done.act)
    assert sum(len(names(store, date(2026, 10, day))) for day in range(1, 29)) == 0


@pytest.fixture
def small_disk(tmp_path):
    """A disk of three megabytes, where one may be mounted."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mounted = shutil.which("mount") and os.geteuid() == 0 and not subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", folder], capture_output=True
    ).returncode  # fmt: skip
    if not mounted:
        pytest.skip("Nobody but root may mount a disk.")
    yield folder
    subprocess.run(["umount", "-l", folder])


def test_a_disk_that_is_really_full(small_disk, clock, tmp_path, monkeypatch):
    from keeper.actions.photos import many as many_photos
    from keeper.store import create_store

    monkeypatch.setattr(many_photos, "_AT_ONCE", 4)
    for number in range(24):
        noise = jpeg_bytes(Image.effect_noise((640, 480), 90).convert("RGB"), 95)
        path = tmp_path / "many" / f"{number:02d}.jpg"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(with_exif(noise, exif(f"2026:10:{1 + number:02d} 12:00:00")))
    with create_store(small_disk / "keeper") as store:
        done = photos.take_in_many(store, tmp_path / "many", clock)
        assert 0 < done.taken < 24 and done.taken == kept.count(store)
        assert f"The other {24 - done.taken} of 24 were not taken in." in done.sentence
        there = [file for file in (store.folder / "photos").rglob("*") if file.is_file()]
        assert len(there) == done.taken and photos.damaged(store) == ()
        undoing.turn(store, done.act)
        assert kept.count(store) == 0


def test_where_nothing_could_be_kept_there_is_no_act(store, clock, card, monkeypatch):
    from keeper.errors import CannotWrite

    def full(*_):
        raise CannotWrite("The keeper cannot be used: the disk is full.")

    monkeypatch.setattr(kept, "attach", full)
    done = photos.take_in_many(store, card, clock)
    assert (done.taken, done.act, undoing.undo(store)) == (0, None, None)
    assert done.sentence.endswith("None of 3 was taken in.")


def test_what_came_cut_short_and_is_taken_after_all_is_part_of_the_same_act(store, clock, card):
    whole = (card / "a.jpg").read_bytes()
    (card / "a.jpg").write_bytes(whole[: len(whole) * 2 // 3])
    done = photos.take_in_many(store, card, clock)
    more = photos.take_in_many(store, done.cut_off(), clock, cut_off=True, goes_on=done.act)
    assert (done.taken, more.taken, more.act) == (2, 1, done.act)
    undoing.undo(store)
    assert kept.count(store) == 0 and undoing.undo(store) is None

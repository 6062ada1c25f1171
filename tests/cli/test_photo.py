"""Taking photos in from the command line."""

import signal
from datetime import date

import pytest
from PIL import Image
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.actions import opening
from keeper.actions.photos import kept as photos
from keeper.cli import taking
from keeper.cli.command import DONE, MISUSED, WRONG

NIGHT = date(2026, 11, 14)
PLAIN = jpeg_bytes(quarters(120, 80))


pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def kept(folder):
    """The photos that the keeper has of a night."""

    def of(night: date) -> list[str]:
        with opening.open_kept(folder) as store:
            return [photo.name for photo in photos.of_night(store, night)]

    return of


@pytest.fixture
def taken(tmp_path):
    """Makes a photo of a name that carries a date."""

    def make(name: str, when: str = ""):
        path = tmp_path / "card" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(with_exif(PLAIN, exif(when)))
        return path

    return make


def test_a_photo_goes_to_the_night_of_its_own_date(run, kept, taken):
    status, told, complaint = run("photo", taken("a.jpg", "2026:11:10 18:20:00"))
    assert (status, complaint) == (DONE, "")
    assert told == "“a.jpg”: Added to 10 November 2026: it was taken at 18:20.\n"
    assert kept(date(2026, 11, 10)) == ["a.jpg"]


def test_a_night_may_be_named(run, kept, taken):
    status, told, _ = run("photo", taken("a.jpg", "2026:11:10 18:20:00"), taken("b.jpg", "2026:11:14 9:00:00"),
                          "--night", "tonight")  # fmt: skip
    assert (status, kept(NIGHT)) == (DONE, ["a.jpg", "b.jpg"])
    assert "by its own date it belongs to 10 November 2026." in told


def test_what_is_no_picture_is_told_and_the_rest_taken_in(run, kept, taken, tmp_path):
    (tmp_path / "empty.jpg").touch()
    (tmp_path / "words.png").write_text("not a picture")
    cut = tmp_path / "cut.jpg"
    cut.write_bytes(PLAIN[: len(PLAIN) // 2])
    status, _, complaint = run("photo", tmp_path / "empty.jpg", tmp_path / "words.png", cut,
                               taken("a\u202egpj.jpg", "2026:11:10 18:20:00"))  # fmt: skip
    assert (status, len(kept(date(2026, 11, 10)))) == (WRONG, 1)
    assert complaint == (
        "“empty.jpg” is empty: it has 0 bytes.\n"
        "“words.png” is not a picture the keeper can take: JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP.\n"
        "“cut.jpg” is damaged or cut short; only a part of it can be seen. Say --anyway to take what there is of it.\n"
    )


def test_one_bad_name_does_not_stop_the_others(run, kept, taken, tmp_path):
    a, c = taken("a.jpg", "2026:11:10 18:20:00"), taken("c.jpg", "2026:11:10 18:30:00")
    status, told, complaint = run("photo", a, tmp_path / "bad.jpg", c)
    assert (status, kept(date(2026, 11, 10))) == (WRONG, ["a.jpg", "c.jpg"])
    assert complaint == "“bad.jpg” is not there.\n"
    assert told.count("Added to 10 November 2026") == 2


def test_a_bad_name_beside_a_folder(run, kept, taken, tmp_path):
    folder = taken("a.jpg", "2026:11:10 18:20:00").parent
    assert run("photo", tmp_path / "gone", folder)[0] == WRONG
    assert kept(date(2026, 11, 10)) == ["a.jpg"]


def test_a_linked_folder_is_gone_through_too(run, kept, taken, tmp_path):
    elsewhere = taken("../elsewhere/b.jpg", "2026:11:10 18:20:00").parent
    folder = taken("a.jpg", "2026:11:10 18:10:00").parent
    (folder / "link").symlink_to(elsewhere)
    assert run("photo", folder)[:2] == (DONE, "2 photos taken in, for 1 night.\n")


def test_a_picture_cut_short_is_refused_then_taken_when_that_is_said(run, kept, tmp_path):
    noise = jpeg_bytes(Image.effect_noise((240, 160), 60).convert("RGB"))
    (tmp_path / "2026-11-10.jpg").write_bytes(noise[: len(noise) * 6 // 10])
    status, _, complaint = run("photo", tmp_path / "2026-11-10.jpg")
    assert (status, complaint) == (
        WRONG,
        "“2026-11-10.jpg” is damaged or cut short; only a part of it can be seen. "
        "Say --anyway to take what there is of it.\n",
    )
    assert run("photo", "--anyway", tmp_path / "2026-11-10.jpg")[0] == DONE
    assert kept(date(2026, 11, 10)) == ["2026-11-10.jpg"]


def test_a_disk_that_fills_half_way_is_told_as_it_is(run, kept, taken, monkeypatch):
    from keeper.store.photos import files as photo_files

    files = [taken(f"{n}.jpg", f"2026:11:10 18:2{n}:00") for n in range(5)]
    real, written = photo_files.force, []

    def fills(file):
        written.append(file)
        if len(written) > 2:
            raise OSError(28, "No space left on device")
        real(file)

    monkeypatch.setattr(photo_files, "force", fills)
    status, told, complaint = run("photo", *files)
    assert (status, kept(date(2026, 11, 10)), told.count("Added to")) == (WRONG, ["0.jpg", "1.jpg"], 2)
    assert complaint.endswith("no space left on device. 3 of 5 were not taken in.\n")
    assert "Nothing was taken in" not in complaint
    assert run("photo", files[2])[2].endswith("no space left on device. Nothing was taken in.\n")


def test_a_folder_is_sorted_to_its_nights(run, kept, taken):
    taken("a.jpg", "2026:11:10 18:20:00")
    taken("deep/b.jpg", "2026:11:11 18:20:00")
    none = taken("c.jpg")
    status, told, complaint = run("photo", none.parent)
    assert (status, told) == (DONE, "2 photos taken in, for 2 nights. 1 left out: has no date (1).\n")
    assert complaint == "“c.jpg” in “card” has no date.\n"
    assert (kept(date(2026, 11, 10)), kept(date(2026, 11, 11))) == (["a.jpg"], ["b.jpg"])
    assert run("photo", none.parent)[1].startswith("0 photos taken in, for 0 nights. 2 in the keeper already.")


def test_a_folder_is_taken_in_though_a_file_was_none(run, kept, taken, tmp_path):
    (tmp_path / "empty.jpg").touch()
    folder = taken("a.jpg", "2026:11:10 18:20:00").parent
    assert run("photo", tmp_path / "empty.jpg", folder)[0] == WRONG
    assert kept(date(2026, 11, 10)) == ["a.jpg"]


def test_a_night_is_not_named_for_a_folder(run, taken, folder):
    status, _, complaint = run("photo", taken("a.jpg").parent, "--night", "tonight")
    assert status == MISUSED
    assert "--night is for files." in complaint
    assert not folder.exists()


def test_what_is_not_there_or_still_to_come_begins_no_keeper(run, taken, folder):
    assert run("photo", "nowhere.jpg")[::2] == (WRONG, "\u201cnowhere.jpg\u201d is not there.\n")
    status, _, complaint = run("photo", taken("a.jpg"), "--night", "2027-01-01")
    assert (status, "still to come" in complaint) == (WRONG, True)
    assert not folder.exists()


def test_an_interrupt_keeps_what_has_come_and_says_so(run, taken, folder, monkeypatch):
    for number in range(40):
        taken(f"{number:02}.jpg", f"2026:10:{number % 28 + 1:02} 12:00:{number:02}")
    begun = taking.taken_in_of

    def interrupted(named, folders, progress, stopped, cut_off):
        def heard(share, words):
            if share > 0.2:
                signal.raise_signal(signal.SIGINT)

        return begun(named, folders, heard, stopped, cut_off)

    monkeypatch.setattr(taking, "taken_in_of", interrupted)
    status, told, _ = run("photo", taken("a.jpg").parent)
    assert status == WRONG
    assert "Stopped before the end. The other" in told
    with opening.open_kept(folder) as store:
        assert 0 < len(photos.every(store)) < 40


def test_a_night_of_photos_alone_is_not_said_to_be_empty(run, tmp_path):
    photo = tmp_path / "quay.jpg"
    photo.write_bytes(PLAIN)
    assert run("--begin", "photo", photo, "--night", "yesterday")[0] == DONE
    assert run("show", "yesterday") == (DONE, "Friday 13 November 2026\nPhotos      1\n", "")


def test_a_night_with_a_place_alone_is_told_so(run):
    assert run("--begin", "at", "Riga", "--from", "yesterday", "--to", "yesterday")[0] == DONE
    assert run("show", "yesterday") == (DONE, "Friday 13 November 2026, Riga\nNothing else is kept of this night.\n", "")

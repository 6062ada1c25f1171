"""Which night a photo goes to: from what its date is known, and by which clocks."""

from datetime import date, datetime

import pytest
from PIL import Image
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.actions.photos import kept as photos
from keeper.actions.photos.offers import own_night
from keeper.model import Photo
from keeper.study.taken import taken_there

TOKYO = {"latitude": 35.6895, "longitude": 139.6917}
LISBON = {"latitude": 38.7167, "longitude": -9.1333}


def photo(taken: str, offset: int | None, where: dict, **more) -> Photo:
    return Photo("", "0" * 64, "jpg", 1, taken_local=datetime.fromisoformat(taken), taken_offset_minutes=offset, **where, **more)


@pytest.mark.parametrize(
    ("taken", "offset", "where", "there", "night"),
    [
        # A camera on Riga's time in Tokyo: 23:30 there was already 05:30.
        ("2026-11-09T23:30", 120, TOKYO, "2026-11-10T06:30", "2026-11-10"),
        ("2026-11-09T20:30", 120, TOKYO, "2026-11-10T03:30", "2026-11-09"),
        # Westward: a morning in Riga is still the night before in Lisbon.
        ("2026-11-10T05:30", 120, LISBON, "2026-11-10T03:30", "2026-11-09"),
        ("2026-11-09T23:30", 540, TOKYO, "2026-11-09T23:30", "2026-11-09"),
        # In summer the same place has another offset.
        ("2026-07-09T04:30", 60, LISBON, "2026-07-09T04:30", "2026-07-09"),
        ("2026-07-09T03:30", 0, LISBON, "2026-07-09T04:30", "2026-07-09"),
        ("2026-11-09T23:30", None, TOKYO, "2026-11-09T23:30", "2026-11-09"),
        ("2026-11-09T23:30", 120, {}, "2026-11-09T23:30", "2026-11-09"),
    ],
)
def test_a_position_and_another_zones_offset_tell_the_clocks_of_where_it_was(clock, taken, offset, where, there, night):
    one = photo(taken, offset, where)
    assert taken_there(one) == datetime.fromisoformat(there)
    assert own_night(one, 4, clock) == date.fromisoformat(night)


def test_a_day_alone_is_that_day_wherever_it_was(clock):
    one = photo("2026-11-09T12:00", 840, LISBON, day_only=True)
    assert own_night(one, 4, clock) == date(2026, 11, 9)
    assert taken_there(Photo("", "0" * 64, "jpg", 1)) is None


def test_it_is_taken_in_so_and_said_so(store, clock, tmp_path):
    path = tmp_path / "a.jpg"
    path.write_bytes(with_exif(jpeg_bytes(quarters()), exif("2026:11:09 23:30:00", "+02:00", **TOKYO)))
    came = photos.take_in(store, path, clock)
    assert came.night == date(2026, 11, 10)
    assert came.sentence.startswith("Added to 10 November 2026: it was taken at 6:30 there (23:30 by its own clock).")


def test_many_go_to_the_same_night_as_one(store, clock, tmp_path):
    path = tmp_path / "card" / "a.jpg"
    path.parent.mkdir()
    path.write_bytes(with_exif(jpeg_bytes(quarters()), exif("2026:11:09 23:30:00", "+02:00", **TOKYO)))
    assert photos.take_in_many(store, path.parent, clock).nights == 1
    assert len(photos.of_night(store, date(2026, 11, 10))) == 1


@pytest.mark.parametrize(
    ("name", "sentence", "day_only"),
    [
        ("IMG_20261110_182000.jpg", "Added to 10 November 2026: it was taken at 18:20, by its name: a guess.", False),
        ("2026-11-10 harbour.jpg", "Added to 10 November 2026: taken that day, by its name: a guess.", True),
        ("IMG-20261110-WA0003.jpg", "Added to 10 November 2026: taken that day, by its name: a guess.", True),
    ],
)
def test_a_name_that_cannot_be_mistaken_is_a_guess_and_said_to_be(store, clock, tmp_path, name, sentence, day_only):
    quarters().save(tmp_path / name)
    came = photos.take_in(store, tmp_path / name, clock)
    assert (came.sentence, came.photo.dated_by, came.photo.day_only) == (sentence, "name", day_only)
    assert photos.take_in(store, tmp_path / name, clock, date(2026, 11, 12)).sentence.endswith(
        "Added to 12 November 2026; by its name, a guess, it belongs to 10 November 2026."
    )


def test_when_it_became_a_file_is_said_too(store, clock, tmp_path):
    tags = Image.Exif()
    tags.get_ifd(0x8769)[0x9004] = "2026:11:10 18:20:00"
    quarters().save(tmp_path / "scan.jpg", exif=tags)
    came = photos.take_in(store, tmp_path / "scan.jpg", clock)
    assert came.sentence == "Added to 10 November 2026: it was taken at 18:20, when it was made into a file."


def test_when_it_was_last_saved_is_no_date(store, clock, tmp_path):
    tags = Image.Exif()
    tags[0x0132] = "2026:11:10 18:20:00"
    quarters().save(tmp_path / "edited.jpg", exif=tags)
    assert photos.take_in(store, tmp_path / "edited.jpg", clock).night is None


def test_a_guess_that_lies_ahead_is_not_believed(store, clock, tmp_path):
    quarters().save(tmp_path / "IMG_20361110_182000.jpg")
    assert photos.take_in(store, tmp_path / "IMG_20361110_182000.jpg", clock).night is None

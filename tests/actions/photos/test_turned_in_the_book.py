"""A photo turned by the person is turned in the book, on the month's page to print, and in a copy that is given away."""

from datetime import date
from io import BytesIO

import pytest
from PIL import Image
from sample_pictures import CORNERS, jpeg_bytes, quarters

from keeper.actions import writing
from keeper.actions.paper import making as book
from keeper.actions.paper.contents import book_of, sheet_of
from keeper.actions.paper.making import BookParts
from keeper.actions.photos import kept as photos

NIGHT = date(2026, 2, 2)


@pytest.fixture
def turned(store, clock, tmp_path):
    writing.write_line(store, NIGHT, "memory", "The harbour master whistled in fifths.", clock)
    (tmp_path / "a.jpg").write_bytes(jpeg_bytes(quarters(900, 600), 95))
    photo = photos.take_in(store, tmp_path / "a.jpg", clock, NIGHT).photo
    return photos.turn(store, photo.id, 1)


def first_corner(picture) -> tuple[int, int]:
    """Which corner of the file is seen at the left above."""
    with Image.open(picture) as image:
        seen = image.convert("RGB").getpixel((image.width // 8, image.height // 8))
    return min(CORNERS, key=lambda at: sum(abs(a - b) for a, b in zip(CORNERS[at], seen, strict=True)))


def test_the_book_has_it_upright(store, turned, clock, tmp_path):
    made = book_of(store, 2026, BookParts())
    assert (made.photos[0].width, made.photos[0].height) == (600, 900)
    (tmp_path / "book").mkdir()
    proof = book.proof_book(store, 2026, BookParts(themes=False), tmp_path / "book", clock)
    laid = proof.laid.photos[turned.id]
    assert laid["height"] > laid["width"]
    assert first_corner(tmp_path / "book" / laid["file"]) == (0, 1)


@pytest.mark.parametrize("small", [False, True])
def test_the_month_to_print_has_it_upright(store, turned, clock, tmp_path, small):
    sheet = sheet_of(store, NIGHT, BookParts(lines="chosen", answers=False), small)
    assert [(photo.width, photo.height) for photo in sheet.photos] == [(600, 900)]
    assert book.make_month_sheet(
        store, NIGHT, tmp_path / "m.pdf", clock, BookParts(lines="chosen", answers=False, themes=False), small_photo=small
    ).left_out == ()


def test_a_copy_that_is_given_away_is_as_it_is_seen(store, turned):
    assert first_corner(BytesIO(photos.to_give_away(store, turned))) == (0, 1)
    assert first_corner(BytesIO(photos.thumbnail_of(store, turned))) == (0, 1)
    back = photos.turn(store, turned.id, -1)
    assert first_corner(BytesIO(photos.to_give_away(store, back))) == (0, 0)
    assert first_corner(BytesIO(photos.thumbnail_of(store, back))) == (0, 0)


def test_one_cut_short_is_in_the_book_too(store, clock, tmp_path):
    noise = jpeg_bytes(Image.effect_noise((900, 600), 60).convert("RGB"))
    (tmp_path / "cut.jpg").write_bytes(noise[: len(noise) // 2])
    writing.write_line(store, NIGHT, "memory", "Half a ferry.", clock)
    photos.take_in(store, tmp_path / "cut.jpg", clock, NIGHT, cut_off=True)
    assert book.make_book(store, 2026, BookParts(themes=False), tmp_path / "b.pdf", clock).left_out == ()

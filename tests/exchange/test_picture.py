"""Pictures read by their content, turned rightly; hostile ones refused with a sentence."""

import os
import shutil
import struct
from datetime import datetime
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from sample_pictures import (
    CORNERS,
    FORMATS,
    HEIC,
    HEIGHT,
    REAL,
    WIDTH,
    exif,
    jpeg_bytes,
    laid_down,
    png,
    png_chunk,
    quarters,
    save,
    segments,
    with_exif,
)

from keeper.errors import UnreadablePhoto
from keeper.exchange import picture, picture_file
from keeper.exchange.picture import PictureFacts, read_picture

# The library under ours warns of what is broken on purpose.
pytestmark = pytest.mark.filterwarnings("ignore:::PIL")

MEDIA = {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp", "tif": "image/tiff"}
RIGA = {"latitude": 56.9496, "longitude": 24.1052}


def looks_right(image: Image.Image) -> bool:
    """Whether the four quarters are where they belong."""
    wide, high = image.size
    for (right, down), colour in CORNERS.items():
        seen = image.getpixel((wide // 4 + right * wide // 2, high // 4 + down * high // 2))
        if any(abs(a - b) > 12 for a, b in zip(seen, colour, strict=True)):
            return False
    return image.mode == "RGB"


@pytest.mark.parametrize("ending", FORMATS)
def test_all_is_read_of_each_kind(tmp_path, ending):
    notes = exif("2024:06:21 23:05:09", "+05:45", 6, **RIGA)
    path = save(tmp_path / f"a.{ending}", laid_down(quarters(), 6), notes)
    facts = read_picture(path)
    assert (facts.latitude, facts.longitude) == pytest.approx((56.9496, 24.1052), abs=1e-6)
    assert facts == PictureFacts(
        MEDIA[ending], path.stat().st_size, WIDTH, HEIGHT, 6, datetime(2024, 6, 21, 23, 5, 9), 345,
        facts.latitude, facts.longitude,
    )  # fmt: skip
    assert facts.ending == ending


@pytest.mark.parametrize("ending", FORMATS)
@pytest.mark.parametrize("orientation", range(1, 9))
def test_it_is_turned_rightly(tmp_path, ending, orientation):
    path = save(tmp_path / f"a.{ending}", laid_down(quarters(), orientation), exif(orientation=orientation))
    facts = read_picture(path)
    assert (facts.width, facts.height, facts.orientation) == (WIDTH, HEIGHT, orientation)
    assert picture.picture(path).size == (WIDTH, HEIGHT)
    assert looks_right(picture.picture(path))
    assert looks_right(picture.picture(path, 24))
    assert looks_right(Image.open(BytesIO(picture.thumbnail(path, 32))))
    assert looks_right(Image.open(BytesIO(picture.without_whereabouts(path))))


def test_a_real_heic_is_read(tmp_path):
    facts = read_picture(HEIC)
    assert facts == PictureFacts("image/heif", 41389, 1440, 960)
    assert Image.open(BytesIO(picture.thumbnail(HEIC, 320))).size == (320, 213)


@pytest.mark.parametrize("ending", [*FORMATS, "heic"])
def test_the_kind_is_told_by_content_not_by_ending(tmp_path, ending):
    right = HEIC if ending == "heic" else save(tmp_path / f"a.{ending}")
    for wrong in ("jpg", "png", "webp", "tif", "heic", "txt"):
        path = tmp_path / f"wrong.{wrong}"
        shutil.copyfile(right, path)
        assert read_picture(path) == read_picture(right)


@pytest.mark.parametrize("side", [16, 64, 320, 5000])
def test_a_thumbnail_is_never_larger_than_asked_nor_than_the_picture(tmp_path, side):
    path = save(tmp_path / "a.jpg", quarters(800, 600))
    small = Image.open(BytesIO(picture.thumbnail(path, side)))
    assert small.format == "JPEG"
    assert max(small.size) == min(side, 800)


@pytest.mark.parametrize(
    ("mode", "colour", "seen"),
    [
        ("1", 1, (255, 255, 255)),
        ("L", 128, (128, 128, 128)),
        ("LA", (0, 128), (127, 127, 127)),
        ("RGBA", (200, 0, 0, 0), (255, 255, 255)),
        ("RGBA", (200, 0, 0, 255), (200, 0, 0)),
        ("I;16", 32768, (127, 127, 127)),
        ("P", 0, (0, 0, 0)),
    ],
)
def test_every_mode_of_png_becomes_what_is_seen_on_paper(tmp_path, mode, colour, seen):
    Image.new(mode, (40, 30), colour).save(tmp_path / "a.png")
    for image in (picture.picture(tmp_path / "a.png"), picture.picture(tmp_path / "a.png", 20)):
        assert image.mode == "RGB"
        assert image.getpixel((5, 5)) == pytest.approx(seen, abs=2)


def test_a_clear_colour_of_a_palette_is_paper(tmp_path):
    four = quarters().quantize(4)
    four.save(tmp_path / "a.png", transparency=four.getpixel((0, 0)))
    seen = picture.picture(tmp_path / "a.png", 24)
    assert seen.getpixel((3, 3)) == (255, 255, 255)
    assert seen.getpixel((20, 3)) == pytest.approx(CORNERS[1, 0], abs=3)


@pytest.mark.parametrize("mode", ["CMYK", "L"])
def test_other_modes_of_jpeg(tmp_path, mode):
    quarters().convert(mode).save(tmp_path / "a.jpg", quality=95)
    assert picture.picture(tmp_path / "a.jpg", 24).mode == "RGB"
    assert read_picture(tmp_path / "a.jpg").width == WIDTH


def test_a_broken_profile_leaves_the_numbers_as_they_are(tmp_path):
    path = save(tmp_path / "a.jpg", icc_profile=b"no profile" * 50)
    assert looks_right(picture.picture(path))


def test_what_leaves_the_keeper_carries_nothing(tmp_path):
    notes = exif("2024:06:21 23:05:09", "+03:00", 6, **RIGA)
    path = save(tmp_path / "a.jpg", laid_down(quarters(), 6), notes, comment=b"56.9496 N", xmp=b"<x>GPSLatitude</x>")
    copy = picture.without_whereabouts(path)
    assert set(segments(copy)) <= {0xE0, 0xDB, 0xC0, 0xC2, 0xC4}
    assert not any(word in copy for word in (b"Exif", b"GPS", b"56.9496", b"http", b"ICC_PROFILE"))
    (tmp_path / "copy.jpg").write_bytes(copy)
    facts = read_picture(tmp_path / "copy.jpg")
    assert (facts.taken_local, facts.latitude, facts.orientation) == (None, None, 1)


@pytest.mark.parametrize("path", sorted(REAL.glob("*.[jh]*")), ids=lambda path: path.name)
def test_real_files_lose_their_whereabouts_too(path):
    try:
        copy = picture.without_whereabouts(path)
    except UnreadablePhoto:
        return
    assert 0xE1 not in segments(copy) and 0xFE not in segments(copy)


def refused(path: Path) -> str:
    """The sentence with which a file is refused everywhere."""
    with pytest.raises(UnreadablePhoto) as problem:
        read_picture(path)
    for read in (lambda: picture.thumbnail(path, 64), lambda: picture.without_whereabouts(path)):
        with pytest.raises(UnreadablePhoto):
            read()
    sentence = str(problem.value)
    assert sentence.startswith("\u201c") and sentence.endswith(".") and "\n" not in sentence
    return sentence


def test_what_is_no_picture_is_refused(tmp_path):
    (tmp_path / "empty.jpg").touch()
    (tmp_path / "text.jpg").write_text("Dear diary")
    (tmp_path / "film.mp4").write_bytes(b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom")
    (tmp_path / "letter.bmp").write_text("BM stands for a name here, and this is a letter to them.")
    (tmp_path / "folder.jpg").mkdir()
    assert refused(tmp_path / "empty.jpg") == "\u201cempty.jpg\u201d is empty: it has 0 bytes."
    assert refused(tmp_path / "folder.jpg") == "\u201cfolder.jpg\u201d is a folder, not a picture."
    assert refused(tmp_path / "gone.jpg") == "\u201cgone.jpg\u201d is not there."
    for name in ("text.jpg", "film.mp4", "letter.bmp"):
        assert "not a picture the keeper can take: JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP" in refused(tmp_path / name)


@pytest.mark.parametrize("name", ["a\nb\x1b[2J.jpg", "\u202egpj.exe.jpg", "x" * 200 + ".jpg", " .jpg", "\U0001f33b\u5199.jpg"])
def test_odd_names_are_taken_and_play_no_tricks_in_sentences(tmp_path, name):
    path = tmp_path / name
    path.write_bytes(b"not a picture")
    assert not set(refused(path)) & set("\n\x1b\u202e")
    assert len(refused(path)) < 200
    save(tmp_path / "a.jpg").replace(path)
    assert read_picture(path).width == WIDTH


@pytest.mark.skipif(os.name != "posix", reason="Names are bytes only here.")
def test_a_name_that_is_no_text(tmp_path):
    path = Path(os.fsdecode(os.fsencode(tmp_path) + b"/\xff\xfe.jpg"))
    try:
        path.write_bytes(b"not a picture")
    except OSError:
        pytest.skip("This file system takes no such names.")
    refused(path).encode("utf-8")
    refused(Path("a\0b.jpg"))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="No pipes with names here.")
def test_a_pipe_does_not_make_it_wait(tmp_path):
    os.mkfifo(tmp_path / "pipe.jpg")
    assert "is not a file" in refused(tmp_path / "pipe.jpg")


def test_a_file_that_may_not_be_read(tmp_path, unprivileged):
    path = save(tmp_path / "a.jpg")
    path.chmod(0)
    unprivileged()
    assert "cannot be read" in refused(path)


def _whole(ending: str) -> bytes:
    if ending == "heic":
        return HEIC.read_bytes()
    out = BytesIO()
    Image.effect_noise((160, 120), 60).convert("RGB").save(out, FORMATS[ending])
    return out.getvalue()


WHOLE = {ending: _whole(ending) for ending in (*FORMATS, "heic")}


@pytest.mark.parametrize("ending", WHOLE)
@settings(max_examples=15)
@given(share=st.floats(0.01, 0.93))
def test_a_file_cut_short_is_refused(tmp_path, ending, share):
    path = tmp_path / "cut"
    path.write_bytes(WHOLE[ending][: int(len(WHOLE[ending]) * share)])
    with pytest.raises(UnreadablePhoto):
        read_picture(path)


@pytest.mark.parametrize("ending", WHOLE)
@settings(max_examples=25)
@given(data=st.data())
def test_broken_bytes_are_read_or_refused_and_nothing_else(tmp_path, ending, data):
    broken = bytearray(WHOLE[ending])
    for _ in range(data.draw(st.integers(1, 8))):
        reach = data.draw(st.sampled_from([64, 1024, len(broken)])) - 1
        broken[data.draw(st.integers(0, reach))] = data.draw(st.integers(0, 255))
    path = tmp_path / "broken"
    path.write_bytes(bytes(broken))
    try:
        facts = read_picture(path)
    except UnreadablePhoto:
        return
    assert facts.width > 0 and facts.height > 0


def test_the_lengths_of_heic_boxes(tmp_path):
    path = tmp_path / "a"
    for boxes, sound in (
        (b"\0\0\0\x0cfree1234", True),
        (b"\0\0\0\x0cfree123", False),
        (b"\0\0\0\x01mdat\0\0\0\0\0\0\0\x12ab", True),
        (b"\0\0\0\x01mdat\0\0\0\0\0\0\0\x13ab", False),
        (b"\0\0\0\0mdat and so on", True),
        (b"\0\0\0\x07free", False),
        (b"\0\0\0\x08free\0\0", False),
    ):
        path.write_bytes(boxes)
        assert picture_file.boxes_are_whole(path) is sound


def test_bombs_are_refused_before_they_are_unpacked(tmp_path):
    (tmp_path / "bomb.png").write_bytes(png(60_000, 60_000))
    (tmp_path / "large.png").write_bytes(png(12_000, 11_000))
    jpeg = jpeg_bytes(quarters())
    at = jpeg.index(b"\xff\xc0") + 5
    (tmp_path / "bomb.jpg").write_bytes(jpeg[:at] + struct.pack(">HH", 65_000, 65_000) + jpeg[at + 4 :])
    for name in ("bomb.png", "large.png", "bomb.jpg"):
        assert "pixels" in refused(tmp_path / name)


def test_profiles_that_unpack_without_end_are_refused(tmp_path):
    import zlib

    bomb = b"name\0\0" + zlib.compress(b"\0" * (80 << 20))
    (tmp_path / "a.png").write_bytes(png(8, 8, png_chunk(b"iCCP", bomb)))
    refused(tmp_path / "a.png")


def test_huge_exif(tmp_path):
    out = BytesIO()
    quarters().save(out, "PNG")
    whole = out.getvalue()
    notes = exif("2024:06:21 23:05:09", more=17 << 20)
    (tmp_path / "huge.png").write_bytes(whole[:33] + png_chunk(b"eXIf", notes) + whole[33:])
    assert "more Exif notes" in refused(tmp_path / "huge.png")
    # As much as JPEG can hold is no trouble.
    (tmp_path / "full.jpg").write_bytes(with_exif(jpeg_bytes(quarters()), exif("2024:06:21 23:05:09", more=65_000)))
    assert read_picture(tmp_path / "full.jpg").taken_local == datetime(2024, 6, 21, 23, 5, 9)


def test_broken_exif_does_not_spoil_the_picture(tmp_path):
    notes = exif("2024:06:21 23:05:09", "+03:00", 6, **RIGA)
    for broken in (notes[:20], notes[:60], b"II*\0\xff\xff\xff\xff", b"", b"\0" * 40, notes.replace(b"\x69\x87", b"\x01\x00")):
        (tmp_path / "a.jpg").write_bytes(with_exif(jpeg_bytes(quarters()), broken))
        facts = read_picture(tmp_path / "a.jpg")
        assert {facts.width, facts.height} == {WIDTH, HEIGHT}


@pytest.mark.parametrize(
    ("latitude", "longitude"),
    [([(0, 0)] * 3, [(0, 0)] * 3), ([(95, 1), (0, 1), (0, 1)], [(24, 1), (0, 1), (0, 1)]), ([(4294967295, 1)] * 3, [(1, 0)] * 3)],
)
def test_senseless_positions_are_none(tmp_path, latitude, longitude):
    notes = exif("0000:00:00 00:00:00", "   :  ", latitude=latitude, longitude=longitude, references="NE")
    facts = read_picture(save(tmp_path / "a.jpg", notes=notes))
    assert (facts.latitude, facts.longitude, facts.taken_local, facts.taken_offset_minutes) == (None,) * 4


def test_raw_files_are_not_taken_for_their_small_preview(tmp_path):
    quarters().save(tmp_path / "a.nef", "TIFF", tiffinfo={254: 1})
    assert "raw file" in refused(tmp_path / "a.nef")


def test_a_picture_of_several_is_its_first(tmp_path):
    quarters().save(tmp_path / "a.png", save_all=True, append_images=[Image.new("RGB", (WIDTH, HEIGHT))])
    quarters().save(tmp_path / "a.jpg", "MPO", save_all=True, append_images=[Image.new("RGB", (8, 8))], quality=95)
    for name in ("a.png", "a.jpg"):
        assert looks_right(picture.picture(tmp_path / name))

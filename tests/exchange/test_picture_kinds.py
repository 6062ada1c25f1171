"""What is taken beside the usual: GIF, BMP, AVIF; clear pictures on a ground; large ones two at a time."""

import threading
import time
from concurrent.futures import ThreadPoolExecutor
from io import BytesIO

import pytest
from PIL import Image, ImageDraw
from sample_pictures import CORNERS, HEIC, HEIGHT, WIDTH, exif, laid_down, quarters

from keeper.errors import CutOffPhoto, UnreadablePhoto
from keeper.exchange import ground, picture, picture_file
from keeper.exchange.picture import read_picture, read_with_thumbnail
from keeper.exchange.picture_kinds import ENDINGS, KINDS

SAVED = {"gif": ("GIF", "image/gif"), "bmp": ("BMP", "image/bmp"), "avif": ("AVIF", "image/avif")}


def near(seen, colour, by: int = 24) -> bool:
    return all(abs(a - b) <= by for a, b in zip(seen, colour, strict=True))


@pytest.mark.parametrize("ending", SAVED)
def test_gif_bmp_and_avif_are_read_and_shown_rightly(tmp_path, ending):
    decoder, media = SAVED[ending]
    path = tmp_path / f"a.{ending}"
    quarters().save(path, decoder)
    facts = read_picture(path)
    assert (facts.media_type, facts.ending, facts.width, facts.height) == (media, ending, WIDTH, HEIGHT)
    for image in (picture.picture(path), picture.picture(path, 24), Image.open(BytesIO(picture.without_whereabouts(path)))):
        wide, high = image.size
        for (right, down), colour in CORNERS.items():
            assert near(image.getpixel((wide // 4 + right * wide // 2, high // 4 + down * high // 2)), colour)


def test_avif_tells_its_date_and_is_turned(tmp_path):
    notes = b"Exif\0\0" + exif("2024:06:21 23:05:09", "+03:00", 6)
    laid_down(quarters(), 6).save(tmp_path / "a.avif", exif=notes, quality=95)
    facts = read_picture(tmp_path / "a.avif")
    assert (facts.width, facts.height, facts.taken_offset_minutes) == (WIDTH, HEIGHT, 180)
    assert near(picture.picture(tmp_path / "a.avif").getpixel((5, 5)), CORNERS[0, 0])


def test_of_a_gif_that_moves_the_first_picture_is_taken(tmp_path):
    others = [Image.new("RGB", (WIDTH, HEIGHT), colour) for colour in ("black", "white")]
    quarters().save(tmp_path / "a.gif", save_all=True, append_images=others, duration=100, loop=0)
    assert near(picture.picture(tmp_path / "a.gif").getpixel((5, 5)), CORNERS[0, 0])


@pytest.mark.parametrize("ending", SAVED)
@pytest.mark.parametrize("share", [0.1, 0.5, 0.8])
def test_these_are_refused_when_cut_short(tmp_path, ending, share):
    out = BytesIO()
    Image.effect_noise((160, 120), 60).convert("RGB").save(out, SAVED[ending][0])
    (tmp_path / "cut").write_bytes(out.getvalue()[: int(len(out.getvalue()) * share)])
    with pytest.raises(UnreadablePhoto):
        read_picture(tmp_path / "cut")


def test_the_one_list_has_every_kind_once():
    assert len(ENDINGS) == len(set(ENDINGS))
    assert {kind.decoder for kind in KINDS.values()} == {"JPEG", "PNG", "WEBP", "HEIF", "AVIF", "TIFF", "GIF", "BMP"}


# cut short


def cut(tmp_path, decoder: str, share: float = 0.6, **more):
    out = BytesIO()
    Image.effect_noise((240, 160), 60).convert("RGB").save(out, decoder, **more)
    path = tmp_path / f"cut.{decoder.lower()}"
    path.write_bytes(out.getvalue()[: int(len(out.getvalue()) * share)])
    return path


@pytest.mark.parametrize(
    ("decoder", "more"),
    [("JPEG", {}), ("JPEG", {"progressive": True}), ("PNG", {}), ("TIFF", {}), ("GIF", {}), ("BMP", {})],
)
def test_what_there_is_of_a_picture_cut_short_can_be_had(tmp_path, decoder, more):
    path = cut(tmp_path, decoder, **more)
    with pytest.raises(CutOffPhoto, match="is damaged or cut short; only a part of it can be seen"):
        read_picture(path)
    with pytest.raises(UnreadablePhoto):
        picture.picture(path)
    facts, small = read_with_thumbnail(path, 120, cut_off=True)
    assert (facts.width, facts.height, facts.cut_off) == (240, 160, True)
    seen = picture.picture(path, cut_off=True)
    assert seen.size == (240, 160)
    # The rows of a BMP begin below.
    there = seen.crop((0, 120, 240, 160) if decoder == "BMP" else (0, 0, 240, 40)).convert("L")
    assert there.getextrema()[1] - there.getextrema()[0] > 80, "noise, as it was"
    assert Image.open(BytesIO(small)).size == (120, 80)


def test_whole_pictures_are_none_the_worse_for_it(tmp_path):
    quarters().save(tmp_path / "a.jpg")
    facts, _ = read_with_thumbnail(tmp_path / "a.jpg", 24, cut_off=True)
    assert not facts.cut_off


@pytest.mark.parametrize("make", [
    lambda path: cut(path, "WEBP"), lambda path: cut(path, "AVIF"), lambda path: cut(path, "JPEG", 0.01),
    lambda path: cut(path, "PNG", 0.0005), lambda path: cut(path, "TIFF", 0.6, compression="tiff_lzw"),
])  # fmt: skip
def test_where_nothing_can_be_seen_nothing_is_offered(tmp_path, make):
    path = make(tmp_path)
    for cut_off in (False, True):
        with pytest.raises(UnreadablePhoto) as problem:
            read_with_thumbnail(path, 64, cut_off=cut_off)
        assert not isinstance(problem.value, CutOffPhoto)


def test_one_cut_short_does_not_change_how_others_are_read(tmp_path):
    read_with_thumbnail(cut(tmp_path, "JPEG"), 64, cut_off=True)
    with pytest.raises(CutOffPhoto):
        read_picture(cut(tmp_path, "PNG"))


def test_heic_cut_short_is_offered_only_as_far_as_its_decoder_goes(tmp_path):
    whole = HEIC.read_bytes()
    (tmp_path / "a.heic").write_bytes(whole[: int(len(whole) * 0.97)])
    with pytest.raises(UnreadablePhoto):
        read_picture(tmp_path / "a.heic")


# turned by the person


@pytest.mark.parametrize(("turns", "first"), [(0, (0, 0)), (1, (0, 1)), (2, (1, 1)), (3, (1, 0)), (4, (0, 0)), (-1, (1, 0))])
def test_quarters_to_the_right(tmp_path, turns, first):
    path = tmp_path / "a.png"
    quarters().save(path)
    seen = picture.picture(path, turns=turns)
    assert seen.size == ((HEIGHT, WIDTH) if turns % 2 else (WIDTH, HEIGHT))
    assert near(seen.getpixel((3, 3)), CORNERS[first])
    for data in (picture.thumbnail(path, 32, turns), picture.without_whereabouts(path, 32, turns)):
        assert near(Image.open(BytesIO(data)).convert("RGB").getpixel((3, 3)), CORNERS[first], 40)


# on a ground


def words(ink: tuple[int, int, int], side: int = 300, mode: str = "RGBA") -> Image.Image:
    """A clear picture with strokes like letters."""
    image = Image.new("RGBA", (side, side // 2), (0, 0, 0, 0))
    draw = ImageDraw.Draw(image)
    for at in range(10, side - 20, 24):
        draw.line([(at, 20), (at + 12, side // 2 - 20)], fill=(*ink, 255), width=5)
    return image.convert(mode)


def contrast(one: int, other: int) -> float:
    return ground._contrast(ground._luminance(one), ground._luminance(other))


@pytest.mark.parametrize("ink", [(255, 255, 255), (250, 245, 230), (0, 0, 0), (128, 128, 128), (30, 60, 160), (255, 240, 120)])
@pytest.mark.parametrize("side", [60, 300, 900])
def test_what_is_drawn_on_nothing_is_seen(tmp_path, ink, side):
    words(ink).save(tmp_path / "a.png")
    grey = picture.picture(tmp_path / "a.png", side).convert("L")
    under, drawn = grey.getpixel((0, 0)), round(0.299 * ink[0] + 0.587 * ink[1] + 0.114 * ink[2])
    assert contrast(under, drawn) >= 3
    low, high = grey.getextrema()
    assert contrast(low, high) >= 2.5


def test_dark_words_stay_on_white_and_white_ones_go_on_dark(tmp_path):
    for ink, under in (((0, 0, 0), ground.WHITE), ((30, 60, 160), ground.WHITE), ((255, 255, 255), ground.DARK)):
        words(ink).save(tmp_path / "a.png")
        for side in (64, 150, None):
            assert picture.picture(tmp_path / "a.png", side).getpixel((0, 0)) == under


def test_black_and_white_words_together_are_both_seen(tmp_path):
    both = Image.new("RGBA", (300, 300), (0, 0, 0, 0))
    both.alpha_composite(words((255, 255, 255)), (0, 0))
    both.alpha_composite(words((0, 0, 0)), (0, 150))
    both.save(tmp_path / "a.png")
    assert picture.picture(tmp_path / "a.png").getpixel((0, 0)) == ground.GREY


def test_white_within_what_is_drawn_needs_no_other_ground(tmp_path):
    image = Image.new("RGBA", (200, 200), (0, 0, 0, 0))
    draw = ImageDraw.Draw(image)
    draw.ellipse([20, 20, 180, 180], fill=(20, 20, 20, 255))
    draw.ellipse([40, 40, 160, 160], fill=(255, 255, 255, 255))
    image.save(tmp_path / "a.png")
    assert picture.picture(tmp_path / "a.png").getpixel((0, 0)) == ground.WHITE


@pytest.mark.parametrize("kind", ["webp", "gif", "png of a palette", "greys"])
def test_of_every_kind_that_can_be_clear(tmp_path, kind):
    image = words((255, 255, 255))
    path = tmp_path / ("a." + ("png" if " " in kind or kind == "greys" else kind))
    if kind == "greys":
        image.convert("LA").save(path)
    elif kind == "webp":
        image.save(path, lossless=True)
    else:
        image.quantize(8).save(path) if " " in kind else image.save(path)
    assert picture.picture(path, 200).getpixel((0, 0)) == ground.DARK


# large ones


def test_no_more_than_two_large_pictures_are_unpacked_at_once(tmp_path, monkeypatch):
    monkeypatch.setattr(picture_file, "LARGE", WIDTH * HEIGHT - 1)
    counted, most, lock = [0], [0], threading.Lock()
    real = picture._small

    def slowly(image, side):
        with lock:
            counted[0] += 1
            most[0] = max(most[0], counted[0])
        time.sleep(0.05)
        with lock:
            counted[0] -= 1
        return real(image, side)

    monkeypatch.setattr(picture, "_small", slowly)
    for number in range(8):
        quarters().save(tmp_path / f"{number}.png")
    files = sorted(tmp_path.iterdir())
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(read_picture, files))
        assert most == [picture_file.LARGE_AT_ONCE]
        list(pool.map(lambda path: picture.picture(path, 20), files))
        assert most == [2]
        monkeypatch.setattr(picture_file, "LARGE", WIDTH * HEIGHT)
        list(pool.map(read_picture, files))
    assert most[0] > 2, "small ones do not wait"


def test_a_large_picture_that_is_broken_lets_the_next_one_in(tmp_path, monkeypatch):
    monkeypatch.setattr(picture_file, "LARGE", 100)
    path = cut(tmp_path, "WEBP", 0.9)
    for _ in range(5):
        with pytest.raises(UnreadablePhoto):
            read_picture(path)
    quarters().save(tmp_path / "a.png")
    assert read_picture(tmp_path / "a.png").width == WIDTH

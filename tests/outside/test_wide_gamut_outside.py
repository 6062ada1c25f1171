"""Wide-gamut photos in sRGB, against the matrices of W3C CSS Color 4 (section 18, sample code)."""

from io import BytesIO

import pytest
from PIL import Image
from sample_pictures import wide_gamut_profile

from keeper.exchange import picture

# Linear Display P3 to linear sRGB: the product of the two published matrices.
P3_TO_SRGB = (
    (1.2249401762805598, -0.2249401762805598, 0.0),
    (-0.0420569547096881, 1.0420569547096881, 0.0),
    (-0.0196375545903344, -0.0786360455506319, 1.0982736001409663),
)


def linear(value: float) -> float:
    """sRGB's and Display P3's curve (IEC 61966-2-1), both 0 to 1."""
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def curved(value: float) -> float:
    return 12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055


def in_srgb(colour: tuple[int, int, int]) -> list[float]:
    """A colour of Display P3, both in 0 to 255, clipped to what sRGB has."""
    light = [linear(part / 255) for part in colour]
    mixed = [sum(a * b for a, b in zip(row, light, strict=True)) for row in P3_TO_SRGB]
    return [255 * curved(min(max(part, 0.0), 1.0)) for part in mixed]


@pytest.mark.parametrize(
    "colour", [(200, 100, 80), (90, 160, 110), (60, 70, 150), (128, 128, 128), (255, 255, 255), (0, 0, 0), (240, 40, 40)]
)
@pytest.mark.parametrize("side", [None, 16])
def test_a_wide_gamut_colour_becomes_its_srgb(tmp_path, colour, side):
    Image.new("RGB", (32, 32), colour).save(tmp_path / "a.png", icc_profile=wide_gamut_profile())
    seen = picture.picture(tmp_path / "a.png", side)
    assert seen.getpixel((5, 5)) == pytest.approx(in_srgb(colour), abs=1.6)
    assert "icc_profile" not in seen.info


def test_copies_and_thumbnails_are_srgb_too(tmp_path):
    Image.new("RGB", (64, 64), (200, 100, 80)).save(tmp_path / "a.png", icc_profile=wide_gamut_profile())
    for jpeg in (picture.thumbnail(tmp_path / "a.png", 32), picture.without_whereabouts(tmp_path / "a.png")):
        assert Image.open(BytesIO(jpeg)).getpixel((8, 8)) == pytest.approx(in_srgb((200, 100, 80)), abs=3)

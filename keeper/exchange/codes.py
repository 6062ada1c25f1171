"""Small square codes (QR, ISO/IEC 18004) in a picture, read by a library."""

from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.errors import MissingLibrary
from keeper.exchange.picture_file import opened

if TYPE_CHECKING:
    from PIL.Image import Image

LONGEST = 3000
"""Pixels: a scanned page at 300 to the inch is not much larger, and a larger picture is made so small."""

_SMALL = 1500
"""What is grainy is clearer when it is made so small."""

_CORNER, _TWICE = 0.35, 2
"""How much of each side is looked at again in the corners, made larger and sharper: there the codes of pages are."""


def codes_in(path: Path) -> tuple[str, ...]:
    """The texts of the codes in a picture, however it is turned; none where there are none.

    What is blurred is looked at again, in the corners. Raises UnreadablePhoto
    for what is not a sound picture, MissingLibrary.
    """
    reader = _reader()
    with opened(path) as image:
        if image.format == "JPEG":
            image.draft("L", (LONGEST, LONGEST))
        grey = image.convert("L")
        grey.thumbnail((LONGEST, LONGEST))
        for tried in _ways_to_look(grey):
            found = reader.read_barcodes(tried, formats=reader.BarcodeFormat.QRCode)
            if found:
                return tuple(one.text for one in found)
    return ()


def _ways_to_look(grey: "Image") -> Iterator["Image"]:
    from PIL.Image import Resampling
    from PIL.ImageFilter import UnsharpMask

    yield grey
    if max(grey.size) > _SMALL:
        small = grey.copy()
        small.thumbnail((_SMALL, _SMALL))
        yield small
    wide, high = (round(side * _CORNER) for side in grey.size)
    for left, top in product((0, grey.width - wide), (0, grey.height - high)):
        corner = grey.crop((left, top, left + wide, top + high))
        larger = corner.resize((wide * _TWICE, high * _TWICE), Resampling.BICUBIC)
        yield larger.filter(UnsharpMask(4, 300, 0))


def _reader():
    try:
        import zxingcpp
    except ImportError as error:
        raise MissingLibrary("The library zxing-cpp, which reads the codes of printed pages, is not installed.") from error
    return zxingcpp

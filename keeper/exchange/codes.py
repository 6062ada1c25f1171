"""Small square codes (QR, ISO/IEC 18004) in a picture, read by a library."""

from pathlib import Path

from keeper.errors import MissingLibrary
from keeper.exchange.picture_file import opened

LONGEST = 3000
"""Pixels: a scanned page at 300 to the inch is not much larger, and a larger picture is made so small."""

_SIDES = (LONGEST, 1500)
"""Tried one after another: what is blurred, or grainy, is clearer when it is small."""


def codes_in(path: Path) -> tuple[str, ...]:
    """The texts of the codes in a picture, however it is turned; none where there are none.

    Raises UnreadablePhoto for what is not a sound picture, MissingLibrary.
    """
    reader = _reader()
    with opened(path) as image:
        if image.format == "JPEG":
            image.draft("L", (LONGEST, LONGEST))
        grey = image.convert("L")
        for side in _SIDES:
            grey.thumbnail((side, side))
            found = reader.read_barcodes(grey, formats=reader.BarcodeFormat.QRCode)
            if found:
                return tuple(one.text for one in found)
    return ()


def _reader():
    try:
        import zxingcpp
    except ImportError as error:
        raise MissingLibrary("The library zxing-cpp, which reads the codes of printed pages, is not installed.") from error
    return zxingcpp

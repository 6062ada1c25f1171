"""A picture's file without what it says of where it was taken; the picture itself stays as it is, bit for bit.

JPEG (ITU-T T.81, annex B) loses all notes but colour profiles, PNG (third
edition, 11.3) its texts and Exif, and both whatever lies behind their end:
films and second pictures may lie there, with notes of their own. Of kinds in
which notes may lie anywhere there is no such file.
"""

import struct
from collections.abc import Iterator
from datetime import datetime

_SOI, _EOI, _SOS = 0xD8, 0xD9, 0xDA
_STANDING_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})
_APP0, _APP2, _APP14, _COM = 0xE0, 0xE2, 0xEE, 0xFE
_PNG = b"\x89PNG\r\n\x1a\n"
_SEEN = frozenset((
    b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"sBIT", b"cICP", b"mDCV", b"cLLI", b"bKGD", b"tRNS", b"pHYs", b"acTL", b"fcTL", b"fdAT",
))  # fmt: skip
"""Chunks that need not be there and yet change what is seen; all others of those go."""


def unplaced(data: bytes, kind: str, orientation: int = 1, taken: datetime | None = None) -> bytes | None:
    """The file without its notes, but for how its rows lie and when it was taken; None where that cannot be had.

    ``kind`` is the media type, ``orientation`` Exif's (1 to 8).
    """
    try:
        if kind == "image/jpeg":
            return b"".join(_jpeg(data, _exif(orientation, taken)))
        if kind == "image/png" and orientation == 1:
            return b"".join(_png(data))
    except (IndexError, struct.error):
        return None
    return None


def _exif(orientation: int, taken: datetime | None) -> bytes:
    from PIL import Image

    tags = Image.Exif()
    tags[0x0112] = orientation
    if taken:
        tags.get_ifd(0x8769)[0x9003] = f"{taken:%Y:%m:%d %H:%M:%S}"
    told = tags.tobytes()
    told = told if told.startswith(b"Exif\0\0") else b"Exif\0\0" + told
    return b"\xff\xe1" + struct.pack(">H", len(told) + 2) + told


def _jpeg(data: bytes, notes: bytes) -> Iterator[bytes]:
    if data[:2] != bytes((0xFF, _SOI)):
        raise IndexError
    at, told = 2, False
    yield data[:2]
    while True:
        if data[at] != 0xFF:
            raise IndexError
        while data[at + 1] == 0xFF:
            at += 1
        marker = data[at + 1]
        if marker == _EOI:
            yield data[at : at + 2]
            return
        end = at + 2 if marker in _STANDING_ALONE else at + 2 + struct.unpack_from(">H", data, at + 2)[0]
        if not told and marker != _APP0:
            told = True
            yield notes
        if _stays(marker, data[at + 4 : at + 16]):
            yield data[at:end]
        at = end
        if marker == _SOS:
            end = _scan_end(data, at)
            yield data[at:end]
            at = end


def _stays(marker: int, start: bytes) -> bool:
    if marker == _APP2:
        # MPF, which lies there too, points at second pictures.
        return start.startswith(b"ICC_PROFILE\0")
    return marker in (_APP0, _APP14) or not (_APP0 <= marker <= 0xEF or marker == _COM)


def _scan_end(data: bytes, at: int) -> int:
    """Where the data of a scan ends: at the next marker that is no restart."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0:
            raise IndexError
        follows = data[at + 1]
        if follows and not 0xD0 <= follows <= 0xD7 and follows != 0xFF:
            return at
        at += 1 if follows == 0xFF else 2


def _png(data: bytes) -> Iterator[bytes]:
    if not data.startswith(_PNG):
        raise IndexError
    at = len(_PNG)
    yield _PNG
    while True:
        (length,), name = struct.unpack_from(">I", data, at), data[at + 4 : at + 8]
        end = at + 12 + length
        if len(data) < end:
            raise IndexError
        if name in _SEEN or name[:1].isupper():
            yield data[at:end]
        if name == b"IEND":
            return
        at = end

"""Pictures for tests, sound and hostile, with Exif written here and not by the library under test."""

import struct
import zlib
from fractions import Fraction
from io import BytesIO
from pathlib import Path

from PIL import Image

REAL = Path(__file__).parents[1] / "data" / "photos"
HEIC = REAL / "cheers_1440x960.heic"
FORMATS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP", "tif": "TIFF"}

WIDTH, HEIGHT = 48, 32
CORNERS = {(0, 0): (230, 30, 30), (1, 0): (30, 200, 30), (0, 1): (30, 30, 230), (1, 1): (230, 230, 30)}
"""The colour of each quarter of ``quarters()``, by right and down."""


def quarters(width: int = WIDTH, height: int = HEIGHT) -> Image.Image:
    """A picture of four colours, as it is to be seen."""
    image = Image.new("RGB", (width, height))
    for (right, down), colour in CORNERS.items():
        left, top = right * width // 2, down * height // 2
        image.paste(colour, (left, top, left + width // 2, top + height // 2))
    return image


def laid_down(image: Image.Image, orientation: int) -> Image.Image:
    """The rows a camera writes of a picture: Exif 2.32, table of Orientation, read backwards.

    Each entry says where the file's row 0 and column 0 lie in what is seen.
    """
    wide, high = image.size
    seen_at = {
        1: lambda row, column: (column, row),
        2: lambda row, column: (wide - 1 - column, row),
        3: lambda row, column: (wide - 1 - column, high - 1 - row),
        4: lambda row, column: (column, high - 1 - row),
        5: lambda row, column: (row, column),
        6: lambda row, column: (wide - 1 - row, column),
        7: lambda row, column: (wide - 1 - row, high - 1 - column),
        8: lambda row, column: (row, high - 1 - column),
    }[orientation]
    size = (high, wide) if orientation >= 5 else (wide, high)
    rows = Image.new(image.mode, size)
    for row in range(size[1]):
        for column in range(size[0]):
            rows.putpixel((column, row), image.getpixel(seen_at(row, column)))
    return rows


def degrees(value: float) -> list[tuple[int, int]]:
    """Degrees, minutes and seconds as Exif's rationals."""
    exact = abs(Fraction(value).limit_denominator(1_000_000))
    whole = int(exact)
    minutes = int((exact - whole) * 60)
    seconds = ((exact - whole) * 60 - minutes) * 60
    return [(whole, 1), (minutes, 1), (round(seconds * 10_000), 10_000)]


def exif(
    taken: str = "",
    offset: str = "",
    orientation: int = 0,
    latitude: float | list | None = None,
    longitude: float | list | None = None,
    references: str = "",
    more: int = 0,
) -> bytes:
    """Exif as TIFF 6.0, little-endian, without the leading 'Exif'.

    Coordinates are degrees, or lists of rationals as they are; ``references``
    are two letters. ``more`` bytes of a maker's note follow.
    """
    about = [(0x9003, 2, _ascii(taken))] if taken else []
    about += [(0x9011, 2, _ascii(offset))] if offset else []
    about += [(0x927C, 7, b"\0" * more)] if more else []
    first = [(0x0112, 3, struct.pack("<H", orientation))] if orientation else []
    where = _gps(latitude, longitude, references) if latitude is not None else []
    return _tiff(first, about, where)


def _gps(latitude: float | list, longitude: float | list, references: str) -> list[tuple[int, int, bytes]]:
    north = references or ("S" if latitude < 0 else "N") + ("W" if longitude < 0 else "E")
    parts = [(1, 2, _ascii(north[0])), (3, 2, _ascii(north[1]))]
    for tag, value in ((2, latitude), (4, longitude)):
        rationals = value if isinstance(value, list) else degrees(value)
        parts.append((tag, 5, b"".join(struct.pack("<II", *one) for one in rationals)))
    return sorted(parts)


def _ascii(text: str) -> bytes:
    return text.encode("ascii", "replace") + b"\0"


_SIZES = {2: 1, 3: 2, 4: 4, 5: 8, 7: 1}


def _tiff(first: list, about: list, where: list) -> bytes:
    # Pointers have a fixed length, so the first directory's size is known
    # before the others are placed.
    pointers = [(tag, 4, b"\0\0\0\0") for tag, entries in ((0x8769, about), (0x8825, where)) if entries]
    at = 8 + len(_directory(first + pointers, 8))
    placed = []
    for tag, entries in ((0x8769, about), (0x8825, where)):
        if entries:
            placed.append((tag, at, _directory(entries, at)))
            at += len(placed[-1][2])
    told = first + [(tag, 4, struct.pack("<I", where_at)) for tag, where_at, _ in placed]
    return b"II*\0" + struct.pack("<I", 8) + _directory(told, 8) + b"".join(part for *_, part in placed)


def _directory(entries: list[tuple[int, int, bytes]], at: int) -> bytes:
    head, rest = struct.pack("<H", len(entries)), b""
    beyond = at + 2 + 12 * len(entries) + 4
    for tag, kind, data in entries:
        count = len(data) // _SIZES[kind]
        if len(data) > 4:
            place = struct.pack("<I", beyond + len(rest))
            rest += data + b"\0" * (len(data) % 2)
        else:
            place = data.ljust(4, b"\0")
        head += struct.pack("<HHI", tag, kind, count) + place
    return head + b"\0\0\0\0" + rest


def save(path: Path, image: Image.Image | None = None, notes: bytes = b"", **more) -> Path:
    """Write a picture in the format of its ending, with Exif as ``exif()`` gives it."""
    image = image or quarters()
    kind = FORMATS[path.suffix.lstrip(".")]
    if kind == "TIFF":
        return _save_tiff(path, image, notes, **more)
    if notes:
        more["exif"] = b"Exif\0\0" + notes
    if kind == "JPEG":
        more = {"quality": 95, "subsampling": 0, **more}
    image.save(path, kind, **({"lossless": True} if kind == "WEBP" else {}), **more)
    return path


def _save_tiff(path: Path, image: Image.Image, notes: bytes, **more) -> Path:
    tags = Image.Exif()
    if notes:
        tags.load(b"Exif\0\0" + notes)
    image.save(path, "TIFF", exif=tags, **more)
    return path


def jpeg_bytes(image: Image.Image, quality: int = 90) -> bytes:
    """A JPEG without Exif; ``with_exif`` puts some in."""
    out = BytesIO()
    image.save(out, "JPEG", quality=quality)
    return out.getvalue()


def with_exif(jpeg: bytes, notes: bytes) -> bytes:
    """The same JPEG with Exif after its first mark: quick, and each a different file."""
    body = b"Exif\0\0" + notes
    return jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + jpeg[2:]


def png_chunk(kind: bytes, data: bytes) -> bytes:
    """A chunk of a PNG (W3C PNG, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(width: int, height: int, *chunks: bytes) -> bytes:
    """A PNG that claims a size, whatever it holds."""
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    tail = (png_chunk(b"IDAT", zlib.compress(b"\0" * 64)), png_chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join((png_chunk(b"IHDR", header), *chunks, *tail))


def segments(jpeg: bytes) -> list[int]:
    """The marks of a JPEG before its picture data (ITU-T T.81, B.1)."""
    marks, at = [], 2
    while jpeg[at] == 0xFF and jpeg[at + 1] != 0xDA:
        marks.append(jpeg[at + 1])
        at += 2 + struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
    return marks


def wide_gamut_profile() -> bytes:
    """An ICC profile (ICC.1:2010) of the Display P3 colours, with sRGB's curve."""
    fixed = lambda *values: b"".join(struct.pack(">i", round(value * 65536)) for value in values)  # noqa: E731
    xyz = lambda *values: b"XYZ \0\0\0\0" + fixed(*values)  # noqa: E731
    text = "Wide".encode("utf-16-be")
    words = b"mluc\0\0\0\0" + struct.pack(">II2s2sII", 1, 12, b"en", b"US", len(text), 28) + text
    curve = b"para\0\0\0\0" + struct.pack(">HH", 3, 0) + fixed(2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)
    tags = {
        b"desc": words, b"cprt": words, b"wtpt": xyz(0.9642, 1.0, 0.8249),
        b"rXYZ": xyz(0.51512, 0.24120, -0.00105), b"gXYZ": xyz(0.29198, 0.69225, 0.04189),
        b"bXYZ": xyz(0.15710, 0.06657, 0.78407), b"rTRC": curve, b"gTRC": curve, b"bTRC": curve,
    }  # fmt: skip
    table, body, at = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for name, data in tags.items():
        padded = data + b"\0" * (-len(data) % 4)
        table += struct.pack(">4sII", name, at + len(body), len(data))
        body += padded
    head = struct.pack(">I4sI4s4s4s", at + len(body), b"\0\0\0\0", 0x04200000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H", 2026, 1, 1, 0, 0, 0) + b"acsp" + b"\0" * 28 + fixed(0.9642, 1.0, 0.8249)
    return head.ljust(128, b"\0") + table + body

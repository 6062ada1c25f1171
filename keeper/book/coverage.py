"""Which letters the book's typefaces have: the "cmap" tables of OpenType (ISO/IEC 14496-22)."""

import struct
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

Letters = frozenset[int]


@lru_cache(maxsize=1)
def faces(folder: Path) -> tuple[Letters, ...]:
    """The code points of each typeface below a folder; some 15 milliseconds the first time."""
    return tuple(frozenset(letters_of(file.read_bytes())) for file in sorted(folder.rglob("*.ttf")))


def letters_of(font: bytes) -> set[int]:
    """The code points for which a TrueType font has a glyph."""
    start = _table(font, b"cmap")
    count = struct.unpack_from(">H", font, start + 2)[0]
    best: tuple[int, int] = (0, 0)
    for number in range(count):
        offset = start + struct.unpack_from(">I", font, start + 8 + 8 * number)[0]
        form = struct.unpack_from(">H", font, offset)[0]
        # Form 12 has all of Unicode, form 4 only its first plane.
        if form in (4, 12) and form > best[0]:
            best = (form, offset)
    form, offset = best
    return set(_segmented(font, offset) if form == 12 else _short(font, offset) if form == 4 else ())


def _table(font: bytes, name: bytes) -> int:
    for number in range(struct.unpack_from(">H", font, 4)[0]):
        tag, _, offset, _ = struct.unpack_from(">4sIII", font, 12 + 16 * number)
        if tag == name:
            return offset
    raise ValueError(f"no table {name!r}")


def _segmented(font: bytes, offset: int) -> Iterable[int]:
    groups = struct.unpack_from(">I", font, offset + 12)[0]
    for first, last, glyph in struct.iter_unpack(">III", font[offset + 16 : offset + 16 + 12 * groups]):
        # Glyph 0 stands for none.
        yield from range(first + (glyph == 0), last + 1)


def _short(font: bytes, offset: int) -> Iterable[int]:
    twice = struct.unpack_from(">H", font, offset + 6)[0]
    ends = struct.unpack_from(f">{twice // 2}H", font, offset + 14)
    starts, deltas, ranges = (
        struct.unpack_from(f">{twice // 2}H", font, offset + 16 + twice * column) for column in (1, 2, 3)
    )
    for at, (first, last, delta, way) in enumerate(zip(starts, ends, deltas, ranges, strict=True)):
        for letter in range(first, min(last, 0xFFFE) + 1):
            glyph = letter + delta
            if way:
                place = offset + 16 + 3 * twice + 2 * at + way + 2 * (letter - first)
                told = struct.unpack_from(">H", font, place)[0]
                glyph = told + delta if told else 0
            if glyph & 0xFFFF:
                yield letter

"""Looking over a packed file (ZIP) before a library opens it: bombs, and XML that wants things from elsewhere."""

import re
import zlib
from collections.abc import Iterator
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from keeper.errors import UnreadableFile, shown_name

MOST_PARTS, LARGEST = 2000, 150_000_000
"""So many parts, and so many bytes unpacked, may a spreadsheet have."""

_AT_ONCE = 1 << 16
_WANTS_MORE = re.compile(rb"<\x00?!\x00?(?:D\x00?O\x00?C\x00?T\x00?Y\x00?P\x00?E|E\x00?N\x00?T\x00?I\x00?T\x00?Y)", re.IGNORECASE)


def look_over(path: Path) -> frozenset[str]:
    """The names of its parts. Raises UnreadableFile for what no spreadsheet has, and OSError.

    Each part is unpacked once, in pieces that are thrown away: what a part
    says of its size need not be true.
    """
    try:
        with ZipFile(path) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > LARGEST:
                raise _too_large(path)
            _unpack(path, parts)
            return frozenset(part.filename for part in parts)
    except (BadZipFile, zlib.error, ValueError, EOFError, NotImplementedError, RuntimeError) as error:
        raise UnreadableFile(f"{shown_name(path)} is broken: it cannot be unpacked.") from error


def _unpack(path: Path, parts: list[ZipInfo]) -> None:
    all_of_it = 0
    for part in parts:
        before = b""
        for piece in _pieces(path, part):
            all_of_it += len(piece)
            if all_of_it > LARGEST:
                raise _too_large(path)
            # What is looked for may lie across two pieces.
            if _WANTS_MORE.search(before + piece):
                raise UnreadableFile(f"{shown_name(path)} has parts that would be fetched from elsewhere. It was not read.")
            before = piece[-32:]


def _pieces(path: Path, part: ZipInfo) -> Iterator[bytes]:
    if part.flag_bits & 1:
        raise UnreadableFile(f"{shown_name(path)} is locked by a password. Save it without one to read it.")
    if part.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
        raise UnreadableFile(f"{shown_name(path)} is packed in a way that spreadsheets are not.")
    with path.open("rb") as file:
        file.seek(part.header_offset)
        head = file.read(30)
        file.seek(int.from_bytes(head[26:28], "little") + int.from_bytes(head[28:30], "little"), 1)
        left, inflate = part.compress_size, zlib.decompressobj(-15)
        while left > 0 and (packed := file.read(min(_AT_ONCE, left))):
            left -= len(packed)
            if part.compress_type == ZIP_STORED:
                yield packed
                continue
            while packed and not inflate.eof:
                yield inflate.decompress(packed, _AT_ONCE * 4)
                packed = inflate.unconsumed_tail


def _too_large(path: Path) -> UnreadableFile:
    return UnreadableFile(f"{shown_name(path)} is far larger unpacked than a spreadsheet of a person is. It was not read.")

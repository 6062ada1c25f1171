"""The sum that stands with a line, by which it is known that it is what was written.

A disk may change bytes without a word; SQLite's own checks look at how a file
is built, not at what stands in it.
"""

from zlib import crc32


def line_sum(line_id: str, night: str, kind: str, text: str, written_at: str, offset_minutes: int, zone: str) -> int:
    """The CRC-32 (as zlib has it) of a line's columns as the file spells them, 0 to 2**32 - 1.

    Without its number, which follows from night and kind, so that an earlier
    wording has the sum of the line that it was. Raises UnicodeEncodeError.
    """
    # No column holds the sign between them.
    return crc32(f"{line_id}\x1f{night}\x1f{kind}\x1f{text}\x1f{written_at}\x1f{offset_minutes}\x1f{zone}".encode())

"""The pages of a file as its bytes have them, with its log laid over them, without asking SQLite.

Source: "Database File Format" (sqlite.org), 1.3 the header, 1.5 the list of
free pages, 4 the log. Nothing here trusts what it reads.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from keeper.store.file.log import frames_of, pages_in

MAGIC = b"SQLite format 3\0"
USUAL_SIZE = 4096
"""Bytes in a page of a file that does not say how many: what SQLite takes by itself."""

HEADER = 100
"""Bytes of the file's header, at the beginning of its first page."""


@dataclass(frozen=True)
class Pages:
    """What the bytes of a file hold, by pages; the first is number 1.

    ``older`` are pages as they were before the log changed them, where what
    the log has of them is damaged; ``hidden`` those where it is sound: there
    stands what was, or what came there by mistake. ``free`` are those that the file says are
    not in use, none where its list of them does not add up. ``size`` is in
    bytes, ``usable`` what of it SQLite uses. ``expected`` is how many pages the
    file says it has, 0 where it does not say.
    """

    size: int
    usable: int
    pages: dict[int, bytes]
    older: tuple[tuple[int, bytes], ...]
    hidden: tuple[tuple[int, bytes], ...]
    free: frozenset[int]
    expected: int

    def images(self) -> Iterator[tuple[int, bytes, bool]]:
        """Every page with its number, and whether it is the one in force."""
        yield from ((number, page, True) for number, page in self.pages.items())
        yield from ((number, page, False) for number, page in self.older)


def read_pages(file: Path, log: Path | None = None) -> Pages:
    """The pages of a file, and of its log if it has one. Raises OSError."""
    data = file.read_bytes()
    return pages_of(data, log.read_bytes() if log and log.exists() else b"")


def pages_of(data: bytes, log: bytes = b"") -> Pages:
    """The pages of these bytes."""
    size = _size(data, log)
    pages = {at // size + 1: data[at : at + size].ljust(size, b"\0") for at in range(0, len(data), size)}
    expected, frames = _big(data, 28), frames_of(log, size)
    if frames:
        changed, before, expected_now = pages_in(frames, pages)
        hidden = [(number, pages[number]) for number, page in changed.items() if pages.get(number, page) != page]
        pages |= changed
        expected = expected_now or expected
    else:
        before, hidden = [], []
    reserved = data[20] if len(data) > 20 and data.startswith(MAGIC) and data[20] <= 32 else 0
    return Pages(size, size - reserved, pages, tuple(before), tuple(hidden), _free(pages), expected)


def _size(data: bytes, log: bytes) -> int:
    said = int.from_bytes(data[16:18], "big") if data.startswith(MAGIC) else 0
    for size in (65536 if said == 1 else said, _big(log, 8)):
        if 512 <= size <= 65536 and not size & (size - 1):
            return size
    return USUAL_SIZE


def _free(pages: dict[int, bytes]) -> frozenset[int]:
    first = pages.get(1, b"")
    trunk, count, found = _big(first, 32), _big(first, 36), set()
    while trunk in pages and trunk not in found:
        page = pages[trunk]
        there = _big(page, 4)
        if there > len(page) // 4 - 2:
            return frozenset()
        found |= {trunk, *(_big(page, 8 + 4 * n) for n in range(there))}
        trunk = _big(page, 0)
    # A list that does not add up is damaged, and would have whole pages taken for free ones.
    return frozenset(found) if trunk == 0 and len(found) == count and found <= pages.keys() else frozenset()


def _big(data: bytes, at: int) -> int:
    return int.from_bytes(data[at : at + 4], "big") if len(data) >= at + 4 else 0

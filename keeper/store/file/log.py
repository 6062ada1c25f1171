"""The log beside a file (WAL): its frames, and which of them were in force.

Source: "Database File Format", 4.1 and 4.2: 32 bytes of header, then frames of
24 bytes and a page; each carries the sum of all before it, so that with the
sum of the one before each can be proved alone, even behind a broken one.
"""

import struct
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

PAGE_SIZE = 4096
"""Bytes in a page of a keeper's file."""

_MASK = 0xFFFFFFFF
_MAGIC = 0x377F0682


@dataclass(frozen=True)
class Logged:
    """A page in the log. ``commit`` is how many pages the file had after it, 0 within a transaction."""

    page: int
    commit: int
    data: bytes
    sound: bool


def frames_of(log: bytes, size: int) -> list[Logged]:
    """The frames that belong together, in their order; those of an earlier round of the log are left out."""
    step = 24 + size
    starts = range(32, len(log) - step + 1, step)
    if not starts:
        return []
    salts, big = _salts(log, starts)
    found, before = [], struct.unpack(">2I", log[24:32])
    for at in starts:
        page, commit, _, _, *told = struct.unpack(">6I", log[at : at + 24])
        if log[at + 8 : at + 16] == salts and page:
            data = log[at + 24 : at + step]
            sound = _sum(log[at : at + 8] + data, before, big) == tuple(told)
            found.append(Logged(page, commit, data, sound))
        before = tuple(told)
    return found


def pages_in(frames: list[Logged], pages: dict[int, bytes]) -> tuple[dict[int, bytes], list[tuple[int, bytes]], int]:
    """The pages that the log changed; those as they were before, where it is broken; how many there are in all."""
    ends = [n for n, frame in enumerate(frames) if frame.commit]
    if not ends:
        return {}, [], 0
    changed: dict[int, bytes] = {}
    before: list[tuple[int, bytes]] = []
    for frame in frames[: ends[-1] + 1]:
        if not frame.sound and (older := changed.get(frame.page, pages.get(frame.page))):
            before.append((frame.page, older))
        changed[frame.page] = frame.data
    sound_ends = [frames[n].commit for n in ends if frames[n].sound]
    return changed, before, sound_ends[-1] if sound_ends else 0


def is_cut_off(log: bytes, size: int) -> bool:
    """Whether SQLite would pass over a transaction that was ended: there is an end of one behind what is broken.

    What a power cut left half done has none, as a rule. Frames are written one
    after another, so whoever is killed leaves at most the last one half
    written, and nobody was told that its transaction was kept.
    """
    frames = frames_of(log, size)
    # With a torn header SQLite takes none.
    behind = next((n + 1 for n, frame in enumerate(frames) if not frame.sound), len(frames)) if _has_header(log) else 0
    return any(frame.commit for frame in frames[behind:])


def log_of(file: Path) -> Path:
    """Where the log of a file lies, if there is one."""
    return file.with_name(f"{file.name}-wal")


def _has_header(log: bytes) -> bool:
    if len(log) < 32:
        return True
    magic = int.from_bytes(log[:4], "big")
    return magic & ~1 == _MAGIC and _sum(log[:24], (0, 0), bool(magic & 1)) == struct.unpack(">2I", log[24:32])


def _salts(log: bytes, starts: range) -> tuple[bytes, bool]:
    """What all frames of this round of the log have, and whether its sums take the high byte first."""
    if _has_header(log):
        return log[16:24], bool(log[3] & 1)
    # Where the header is torn, most frames have them too.
    seen = Counter(log[at + 8 : at + 16] for at in starts)
    del seen[bytes(8)]
    return max(seen, key=seen.get, default=b""), sys.byteorder == "big"


def _sum(data: bytes, before: tuple[int, ...], big: bool) -> tuple[int, int]:
    one, two = before
    words = struct.unpack(f"{'>' if big else '<'}{len(data) // 4}I", data)
    for left, right in zip(words[::2], words[1::2], strict=True):
        one = (one + left + two) & _MASK
        two = (two + right + one) & _MASK
    return one, two

"""Identifiers that two keepers can never both have given."""

import os
import time


def new_id() -> str:
    """A UUID version 7 (RFC 9562, section 5.7), as 36 characters.

    Begins with the time in milliseconds, so ids sort roughly by birth.
    """
    return shaped(time.time_ns() // 1_000_000, os.urandom(10))


def shaped(milliseconds: int, chance: bytes) -> str:
    """The UUID version 7 of a time and ten random bytes."""
    bits = (milliseconds & (1 << 48) - 1) << 80 | int.from_bytes(chance, "big")
    bits = bits & ~(0xF << 76) | 7 << 76
    bits = bits & ~(0x3 << 62) | 2 << 62
    text = f"{bits:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))

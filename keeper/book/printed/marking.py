"""The small mark by which a scanned page finds its month: a QR code (ISO/IEC 18004), nothing personal in it."""

import re
from dataclasses import dataclass
from datetime import date

VERSION = 1

_SAID = re.compile(r"KD(\d{1,3})/(\d{4})-(\d{2})/(\d{1,3})")


@dataclass(frozen=True, slots=True)
class PageMark:
    """Which month a page is of, and which of its sheets (from 1)."""

    month: date
    sheet: int


def spelt(mark: PageMark) -> str:
    """What stands in the code, such as KD1/2027-05/2: the version of this spelling, the month, the sheet."""
    return f"KD{VERSION}/{mark.month:%Y-%m}/{mark.sheet}"


def read(text: str) -> PageMark | None:
    """What a code's text says; None for any other code, and for one of a later version."""
    found = _SAID.fullmatch(text)
    if not found or int(found[1]) != VERSION:
        return None
    try:
        return PageMark(date(int(found[2]), int(found[3]), 1), int(found[4]))
    except ValueError:
        return None


def modules(mark: PageMark) -> list[list[int]]:
    """The code as rows of 1 (dark) and 0, without the white round it; a quarter of it may be lost."""
    import segno

    made = segno.make_qr(spelt(mark), version=1, error="q", boost_error=False)
    return [list(row) for row in made.matrix]

"""The month of a page that was printed here, written on and scanned."""

import tempfile
from datetime import date
from pathlib import Path

from keeper.book.printed import marking
from keeper.book.printed.marking import PageMark
from keeper.errors import KeeperError
from keeper.exchange.codes import codes_in

__all__ = ["PageMark", "mark_of", "month_of"]


def month_of(picture: bytes | Path) -> date | None:
    """The first day of the month that a page in a picture is of, by the small code on it; None where it has none of ours."""
    mark = mark_of(picture)
    return mark.month if mark else None


def mark_of(picture: bytes | Path) -> PageMark | None:
    """The month and the sheet by the code of a page.

    None for a picture without one, for any other code, and for what is not a
    picture. Of two pages in one picture that are of different months, none is told.
    """
    try:
        found = [mark for text in _codes(picture) if (mark := marking.read(text))]
    except KeeperError:
        return None
    return found[0] if len({mark.month for mark in found}) == 1 else None


def _codes(picture: bytes | Path) -> tuple[str, ...]:
    if isinstance(picture, Path):
        return codes_in(picture)
    with tempfile.TemporaryDirectory() as passing:
        file = Path(passing) / "picture"
        file.write_bytes(picture)
        return codes_in(file)

"""Where the parts of a book end: none with a page of a line or two."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from keeper.book.pages import Data

TRIED = (0.97, 0.94, 0.91, 0.88, 0.85, 1.04, 1.08, 1.13, 1.19, 1.26, 1.35)
"""How many times as far apart the rows of a part are set; tighter first, since that saves a page."""

LEAST_ROWS = 5
"""So many rows stand on the last page of a part at least."""

_ROW = 0.469
"""Millimetres from row to row for each point of the letters' size, as the templates set it."""

Fits = dict[str, float]


@dataclass(frozen=True, slots=True)
class PartSet:
    """A part as it was set: its first and last page, and how far down the last it goes, in millimetres."""

    key: str
    first: int
    last: int
    down: float


def parts_of(told: Iterable[Mapping]) -> list[PartSet]:
    """The parts from what the template tells of where each begins and ends."""
    ends = {(one["part"], one["end"]): one for one in told}
    keys = [key for key, end in ends if end == "first"]
    return [
        PartSet(key, ends[key, "first"]["page"], ends[key, "last"]["page"], ends[key, "last"]["y"])
        for key in keys
    ]


def is_scant(part: PartSet, size: Data) -> bool:
    """Whether a part goes over to a page of which it needs a few rows only."""
    # The last row is as high as its letters, without the room below.
    return part.last > part.first and part.down - size["top"] < (LEAST_ROWS - 0.6) * _ROW * size["text"]


def fit_pages(size: Data, write: Callable[[Fits], None], told: Callable[[], Iterable[Mapping]]) -> Fits:
    """Set parts that end with a scant page tighter, or else wider, until none does; returns how.

    ``write`` puts down how far apart the rows of each part are set, ``told``
    sets the book and says where its parts are. A part that no distance mends
    stays as it was.
    """
    scant = {part.key for part in parts_of(told()) if is_scant(part, size)}
    fits: Fits = {}
    for factor in TRIED:
        if not scant:
            break
        write({**fits, **dict.fromkeys(scant, factor)})
        still = {part.key for part in parts_of(told()) if part.key in scant and is_scant(part, size)}
        fits |= dict.fromkeys(scant - still, factor)
        scant = still
    if scant:
        write(fits)
    return fits

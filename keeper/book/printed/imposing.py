"""Which page goes where on the sheets of a printer: pure arithmetic."""

from collections.abc import Sequence
from dataclasses import dataclass

from keeper.review.printed.leaves import PAGE_SIZES, BadPaper

_TRIFLE = 1.01
"""Two A5 pages are 296 mm wide, the A4 sheet 297: nothing needs to be cut off."""

_EDGE = 3.0
"""Millimetres from the edge of a sheet within which no home printer prints; a page that is as large as the sheet may."""


@dataclass(frozen=True, slots=True)
class PageSpot:
    """A page by its number (from 1; 0 stays empty), and where its upper left corner is, in millimetres."""

    page: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Imposed:
    """Sides of sheets, in the order in which they are printed, so wide and high; ``cut``: the pages are cut out of them."""

    width: float
    height: float
    sides: tuple[tuple[PageSpot, ...], ...]
    cut: bool = False


def booklet_sides(pages: int) -> list[tuple[int, int]]:
    """The left and right page of each side of the sheets of a booklet that are folded into one another, fronts and backs in turn.

    Pages beyond the last are 0. As commonly done (saddle stitch): of 8 pages
    the first sheet has 8 and 1, on its back 2 and 7; the second 6 and 3, 4 and 5.
    """
    whole = -(-pages // 4) * 4
    found: list[tuple[int, int]] = []
    for sheet in range(whole // 4):
        low, high = 2 * sheet + 1, whole - 2 * sheet
        found += [(high, low), (low + 1, high - 1)]
    return [tuple(number if number <= pages else 0 for number in side) for side in found]


def in_order(sides: Sequence, how: str) -> list:
    """Sides, fronts and backs in turn, in the order in which they are printed: one of ``leaves.SIDES``."""
    if how not in ("by hand", "by hand, last first"):
        return list(sides)
    fronts, backs = list(sides[0::2]), list(sides[1::2])
    return fronts + (backs[::-1] if how.endswith("last first") else backs)


def imposed(pages: int, size: tuple[float, float], paper: str, sides: str, booklet: bool) -> Imposed:
    """Pages of a size, in millimetres, upon sheets.

    As many as have room stand on a sheet of ``paper``; a booklet has two side
    by side. On backs the columns are the other way round, so that each page
    has its own behind it. Raises BadPaper where a sheet is too small.
    """
    sheet = _sheet(size, paper, booklet)
    across, down = (2, 1) if booklet else _room(size, sheet)
    left, top = (sheet[0] - across * size[0]) / 2, (sheet[1] - down * size[1]) / 2
    places = [(left + column * size[0], top + row * size[1]) for row in range(down) for column in range(across)]
    numbers = booklet_sides(pages) if booklet else _filled(pages, across, down, two_sided=sides != "one")
    made = [tuple(PageSpot(number, *at) for number, at in zip(side, places, strict=True) if number) for side in numbers]
    spare = max(whole - side * many for whole, side, many in zip(sheet, size, (across, down), strict=True))
    cut = spare > _TRIFLE or across * down > 1 + booklet
    return Imposed(*sheet, tuple(in_order(made, "both" if sides == "one" else sides)), cut)


def _sheet(size: tuple[float, float], paper: str, booklet: bool) -> tuple[float, float]:
    wide = (size[0] * 2, size[1]) if booklet else size
    if paper == "same":
        return wide
    sheet = PAGE_SIZES[paper]
    ways = [way for way in (sheet, sheet[::-1]) if wide[0] <= way[0] + 0.51 and wide[1] <= way[1] + 0.51]
    if not ways:
        raise BadPaper(f"Sheets of {paper.upper() if len(paper) == 2 else paper} are too small for {'this booklet' if booklet else 'this page'}.")
    # Lying the way on which more pages have room; standing, where both do.
    best = max(ways, key=lambda way: _many(_room(size, way)))
    return (max(best[0], wide[0]), max(best[1], wide[1]))


def _many(room: tuple[int, int]) -> int:
    return room[0] * room[1]


def _room(size: tuple[float, float], sheet: tuple[float, float]) -> tuple[int, int]:
    found = []
    for side, whole in zip(size, sheet, strict=True):
        within = int((whole - 2 * _EDGE + 1e-6) // side)
        found.append(max(within, 1))
    # Halves of a sheet fill it to the edge, as they do when it is cut.
    halves = tuple(round(whole / side) if abs(round(whole / side) * side - whole) < _TRIFLE else many
                   for side, whole, many in zip(size, sheet, found, strict=True))  # fmt: skip
    return halves[0], halves[1]


def _filled(pages: int, across: int, down: int, two_sided: bool) -> list[list[int]]:
    many = across * down
    step = many * (2 if two_sided else 1)
    sides = []
    for first in range(0, pages, step):
        numbers = [number if number <= pages else 0 for number in range(first + 1, first + step + 1)]
        if not two_sided:
            sides.append(numbers)
            continue
        sides.append(numbers[0::2])
        sides.append(_turned(numbers[1::2], across))
    return sides


def _turned(back: Sequence[int], across: int) -> list[int]:
    rows = [list(back[at : at + across])[::-1] for at in range(0, len(back), across)]
    return [number for row in rows for number in row]

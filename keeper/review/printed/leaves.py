"""The paper of a page to print, in millimetres."""

import re
from dataclasses import dataclass

from keeper.errors import KeeperError

MM_PER_INCH = 25.4

PAGE_SIZES = {
    "a5": (148.0, 210.0),
    "a6": (105.0, 148.0),
    "a4": (210.0, 297.0),
    "half-letter": (139.7, 215.9),
    "letter": (215.9, 279.4),
    "a7": (74.0, 105.0),
}
"""Width and height of pages. A sizes: ISO 216:2007, table 1; letter: 8.5 x 11 in, ANSI/ASME Y14.1, size A; half of it folded."""

PAPERS = ("same", "a4", "letter")
"""What lies in the printer: sheets as large as the page (or the open booklet), or one of these."""

SIDES = ("one", "both", "by hand", "by hand, last first")
"""One side; both, the printer turning the sheet; all fronts and then the backs, in their order or the last first."""

GROUNDS = ("ruled", "dots")
"""What one writes on: rules, or dots 5 mm apart."""

SMALLEST, LARGEST = 50.0, 600.0
"""Millimetres of a side, at least and at most."""

MOST_HOLES = 40.0

_SIZE = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*(?:mm|cm|in|\")?\s*(?:[x\u00d7*]|by)\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|in|\")?\s*", re.IGNORECASE)
_UNITS = {"": 1.0, "mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, '"': MM_PER_INCH}


class BadPaper(KeeperError):
    """A page that cannot be printed so: its size, its margin, or what is to be on it."""


@dataclass(frozen=True, slots=True)
class PaperLeaf:
    """A page: ``width`` and ``height``, and ``holes``, the margin kept free at the side where it is held.

    ``ground`` is one of GROUNDS. ``facing``: that side is the left of odd
    pages and the right of even ones, else always the left.
    """

    width: float = 148.0
    height: float = 210.0
    holes: float = 12.0
    ground: str = "ruled"
    facing: bool = False

    @property
    def margin(self) -> float:
        """What is left free at the other sides."""
        return round(min(max(min(self.width, self.height) * 0.06, 5.0), 12.0), 1)

    @property
    def inside(self) -> float:
        """What is left free where the page is held."""
        return max(self.holes, self.margin)

    @property
    def inner(self) -> float:
        """How wide what stands on it can be."""
        return self.width - self.inside - self.margin


def page_size(typed: str) -> tuple[float, float]:
    """Width and height in millimetres of a size by its name, or such as "120 x 170", "12 x 17 cm" or "5.5 x 8.5 in".

    Raises BadPaper for what is no size, or one that is too small or too large.
    """
    named = PAGE_SIZES.get("-".join(typed.casefold().split()))
    found = _SIZE.fullmatch(typed)
    if named:
        return named
    if not found:
        raise BadPaper(f"\u201c{typed[:40]}\u201d is not a size of page. Write one as A5, or as 120 x 170 (in millimetres).")
    unit = _UNITS[(found[3] or "").casefold()]
    sides = tuple(round(float(side.replace(",", ".")) * unit, 2) for side in found.groups()[:2])
    if not all(SMALLEST <= side <= LARGEST for side in sides):
        raise BadPaper(f"The sides of a page are {SMALLEST:g} to {LARGEST:g} mm long; these are {sides[0]:g} and {sides[1]:g}.")
    return sides


def leaf(size: str, holes: float = 12.0, ground: str = "ruled", facing: bool = False) -> PaperLeaf:
    """A page of a size as ``page_size`` takes it. Raises BadPaper."""
    width, height = page_size(size)
    if not 0 <= holes <= min(MOST_HOLES, width / 3):
        raise BadPaper(f"The margin for holes can be 0 to {min(MOST_HOLES, width / 3):.0f} mm on this page, not {holes:g}.")
    return PaperLeaf(width, height, holes, ground, facing)

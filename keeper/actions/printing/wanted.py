"""Pages to print as a person asks for them."""

from dataclasses import dataclass, field
from datetime import date

from keeper.review.printed.leaves import GROUNDS, PAGE_SIZES, PAPERS, SIDES, BadPaper, PaperLeaf, leaf
from keeper.review.printed.pages import MonthParts

__all__ = ["GROUNDS", "PAGE_SIZES", "PAPERS", "SIDES", "WHAT", "BadPaper", "MonthParts", "PagesWanted"]

WHAT = ("month", "filled", "year", "nights", "cards", "ruler")
"""A month to fill in, a month as it was kept, a year to tick, a page for each night, cards of a date, a test print."""

USUAL_SIZE = {"cards": "a7"}
"""Of what the page is not A5 unless another is asked for."""


@dataclass(frozen=True, slots=True)
class PagesWanted:
    """What is to be printed, and on what.

    ``first`` and ``last`` are the nights meant: those of a month, of a year, or
    any span. ``size`` is as ``leaves.page_size`` takes it, "" the usual one of
    ``what``; ``holes`` millimetres. ``paper`` is one of PAPERS, ``sides`` of
    SIDES; a ``booklet`` is folded of sheets with two pages on each side.
    ``ticked`` stands at the head of a year. What rests is brought in only with
    ``resting``; places are told only where ``parts.places``.
    """

    what: str
    first: date
    last: date
    size: str = ""
    holes: float = 12.0
    ground: str = "ruled"
    paper: str = "same"
    sides: str = "one"
    booklet: bool = False
    parts: MonthParts = field(default=MonthParts())
    ticked: str = ""
    resting: bool = False

    @property
    def leaf(self) -> PaperLeaf:
        """The page. Raises BadPaper."""
        facing = self.booklet or self.sides != "one"
        return leaf(self.size or USUAL_SIZE.get(self.what, "a5"), self.holes, self.ground, facing)

    @property
    def as_set(self) -> bool:
        """Whether the pages are printed as they are set: each on a sheet of its own, in their order."""
        return self.paper == "same" and not self.booklet and self.sides in ("one", "both")

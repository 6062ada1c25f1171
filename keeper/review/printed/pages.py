"""What each kind of page to print holds."""

from dataclasses import dataclass
from datetime import date

from keeper.model import Goal
from keeper.review.book import BookPhoto
from keeper.review.printed.leaves import PaperLeaf


@dataclass(frozen=True, slots=True)
class TrackerColumn:
    """A reading as a column: its name, and for each night of the month what was noted, "" for nothing."""

    name: str
    values: tuple[str, ...] = ()
    body: bool = False


@dataclass(frozen=True, slots=True)
class NightRow:
    """A night in its row: its lines, each with the word of its kind, and where it was spent ("" where that is not told)."""

    date: date
    lines: tuple[tuple[str, str], ...] = ()
    place: str = ""


@dataclass(frozen=True, slots=True)
class MonthParts:
    """What a month's pages have room for.

    ``places`` is a column for where one was; filled, it tells the places, so
    it is asked for. ``marks`` are the small codes by which a scanned page finds
    its month.
    """

    question: bool = True
    goals: bool = True
    photo: bool = True
    readings: bool = True
    words: bool = True
    places: bool = False
    marks: bool = True


@dataclass(frozen=True, slots=True)
class PrintedMonth:
    """A month to fill in, or as it was kept (``filled``); ``rows`` are all its nights."""

    month: date
    leaf: PaperLeaf
    ink: str
    language: str
    rows: tuple[NightRow, ...]
    parts: MonthParts = MonthParts()
    columns: tuple[TrackerColumn, ...] = ()
    filled: bool = False
    question: str = ""
    words: str = ""
    goals: tuple[Goal, ...] = ()
    photo: BookPhoto | None = None

    @property
    def photos(self) -> tuple[BookPhoto, ...]:
        """The month's photo, if it is printed."""
        return (self.photo,) if self.photo else ()


@dataclass(frozen=True, slots=True)
class PrintedYear:
    """A year's calendar to tick; ``ticked`` is what for, or "", ``week_begins`` the day of the week (0: Monday) that stands out."""

    year: int
    leaf: PaperLeaf
    ink: str
    language: str
    ticked: str = ""
    week_begins: int = 0
    photos: tuple[BookPhoto, ...] = ()


@dataclass(frozen=True, slots=True)
class AskedOf:
    """Something that a night asks for: a kind, and what stands small below its name."""

    title: str
    prompt: str = ""


@dataclass(frozen=True, slots=True)
class PrintedNights:
    """A page for each of some nights, with what each asks for, and the names of readings in force."""

    nights: tuple[tuple[date, tuple[AskedOf, ...], tuple[str, ...]], ...]
    leaf: PaperLeaf
    ink: str
    language: str
    photos: tuple[BookPhoto, ...] = ()


@dataclass(frozen=True, slots=True)
class PrintedCards:
    """A small card for each earlier night; ``night`` is the date they belong to."""

    night: date
    cards: tuple[NightRow, ...]
    leaf: PaperLeaf
    ink: str
    language: str
    photos: tuple[BookPhoto, ...] = ()


@dataclass(frozen=True, slots=True)
class RulerPage:
    """A page to try the printer with: rulers, the photo's frame, rules and dots; ``pages`` of them, numbered."""

    leaf: PaperLeaf
    ink: str
    language: str = "en"
    pages: int = 4
    photos: tuple[BookPhoto, ...] = ()


Printed = PrintedMonth | PrintedYear | PrintedNights | PrintedCards | RulerPage

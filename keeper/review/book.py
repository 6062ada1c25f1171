"""What a book of a year, or the sheet of a month, holds."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from keeper.model import Goal

SIZES = ("a5", "a4", "half-letter")
"""The sizes of page a book can have."""

LINES = ("all", "chosen")
"""Which lines a book can hold."""

Spot = tuple[float, float]
"""A point of the map in millimetres, to the right and downwards."""


@dataclass(frozen=True, slots=True)
class BookParts:
    """What the person wants in the book.

    ``lines`` is one of LINES, ``size`` one of SIZES. ``month_pages`` are the
    question, goals, words and places of each month; ``answers`` those answers
    to the month's question that are not among the lines. ``notebook`` brings the
    scans kept with a month, each on a page of its own after its nights,
    ``resting`` what rests, ``later_words`` what was said of lines on later
    nights. ``title`` "" is the year, ``name`` whose book it is.
    """

    photos: bool = True
    map: bool = True
    themes: bool = True
    lines: str = "all"
    answers: bool = True
    readings: bool = True
    index: bool = True
    month_pages: bool = True
    notebook: bool = False
    resting: bool = False
    later_words: bool = False
    size: str = "a5"
    title: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class BookPhoto:
    """A photo by its id, its shape in pixels, and what is written below it."""

    id: str
    width: int = 4
    height: int = 3
    caption: str = ""


@dataclass(frozen=True, slots=True)
class BookLater:
    """A later word under a line; ``head`` says how long after, and when."""

    head: str
    text: str
    language: str = ""


@dataclass(frozen=True, slots=True)
class BookLine:
    """A line as it is set; ``language`` (ISO 639-1, or "") is for parting words, ``head`` stands beside it, ``later`` below."""

    night: date
    kind: str
    text: str
    language: str = ""
    head: str = ""
    later: tuple[BookLater, ...] = ()


@dataclass(frozen=True, slots=True)
class BookNight:
    """A night with its lines. ``place`` is told where it is another than the night's before."""

    date: date
    lines: tuple[BookLine, ...]
    place: str = ""


@dataclass(frozen=True, slots=True)
class BookPlace:
    """How many nights of a month were spent at a place."""

    name: str
    nights: int


@dataclass(frozen=True, slots=True)
class BookTheme:
    """A theme of a month, and on how many of its nights it came up; a night may have several."""

    name: str
    nights: int


@dataclass(frozen=True, slots=True)
class BookStrip:
    """A tracker's month on a scale that is the same in every month, as on the month's page.

    ``values`` has one for each day of the month, None where nothing was noted;
    a mark's are 1.0 and 0.0. ``how`` is "line", "stick" or "mark". ``in_force``
    are the days on which it could be noted (None: all), ``began`` and
    ``ended`` the day on which it did, or 0. ``beside`` are other readings on
    the same axis, ``crossed`` where they cross and ``told`` that in words.
    ``body``: it is of the body or the mood.
    """

    name: str
    unit: str
    form: str
    low: float
    high: float
    values: tuple[float | None, ...]
    how: str = "line"
    in_force: range | None = None
    began: int = 0
    ended: int = 0
    beside: tuple["BookStrip", ...] = ()
    crossed: tuple[tuple[float, float], ...] = ()
    told: str = ""
    body: bool = False

    @property
    def lines(self) -> tuple["BookStrip", ...]:
        """All that is drawn on its axis."""
        return (self, *self.beside)


@dataclass(frozen=True, slots=True)
class BookMonth:
    """One month; ``month`` is its first day, ``kept`` how many of its nights have a line."""

    month: date
    kept: int
    photo: BookPhoto | None = None
    question: str = ""
    answers: tuple[BookLine, ...] = ()
    words: str = ""
    goals: tuple[Goal, ...] = ()
    places: tuple[BookPlace, ...] = ()
    themes: tuple[BookTheme, ...] = ()
    nights: tuple[BookNight, ...] = ()
    readings: tuple[BookStrip, ...] = ()
    notebook: tuple[BookPhoto, ...] = ()


@dataclass(frozen=True, slots=True)
class MapWay:
    """A journey on the map, made so many times, as lines of points.

    ``unsure`` when each time there were nights on the way of which nothing is
    known.
    """

    lines: tuple[tuple[Spot, ...], ...]
    times: int
    unsure: bool = False


@dataclass(frozen=True, slots=True)
class MapSpot:
    """A place on the map: its spot and radius, and where its name is set.

    ``box`` is the name's left, top, width and height, ``align`` the side of the
    box (left, right, center) at which the name stands. ``leader`` is a thin line
    from the spot to a name that stands further off, or nothing. Where a name has
    no room at all, ``number`` (from 1) stands in its place, and the name below
    the map; else it is 0.
    """

    at: Spot
    name: str
    nights: int
    radius: float
    box: tuple[float, float, float, float]
    align: str = "left"
    leader: tuple[Spot, ...] = ()
    number: int = 0


@dataclass(frozen=True, slots=True)
class BookMap:
    """The year's map, so many millimetres wide and high; ``land`` are closed lines."""

    width: float
    height: float
    land: tuple[tuple[Spot, ...], ...]
    ways: tuple[MapWay, ...]
    spots: tuple[MapSpot, ...]


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """A place or a name, and the spans of nights to look up; both ends are nights or months of the book."""

    name: str
    detail: str
    spans: tuple[tuple[date, date], ...]


@dataclass(frozen=True, slots=True)
class BookClosing:
    """One of the questions at the year's end, and its answer."""

    question: str
    answer: str


@dataclass(frozen=True, slots=True)
class Book:
    """A year as a book. ``kilometres`` is None where no journey has a length.

    ``ink`` is ``#rrggbb``; ``language`` that of most lines (ISO 639-1).
    """

    year: int
    title: str
    name: str
    size: str
    ink: str
    language: str
    months: tuple[BookMonth, ...]
    nights: int
    lines: int
    kilometres: float | None = None
    map: BookMap | None = None
    places: tuple[IndexEntry, ...] = ()
    people: tuple[IndexEntry, ...] = ()
    closing: tuple[BookClosing, ...] = ()

    @property
    def photos(self) -> tuple[BookPhoto, ...]:
        """The photos and pages of a notebook, in the order of the months."""
        return tuple(one for month in self.months for one in (month.photo, *month.notebook) if one)

    @property
    def notebook(self) -> frozenset[str]:
        """The ids of those that are pages of a notebook."""
        return frozenset(one.id for month in self.months for one in month.notebook)


@dataclass(frozen=True, slots=True)
class MonthSheet:
    """One month on a single page. ``small_photo`` sets the photo at 50 x 76 mm."""

    month: BookMonth
    size: str
    ink: str
    language: str
    small_photo: bool = False

    @property
    def photos(self) -> tuple[BookPhoto, ...]:
        """The month's photo, if it has one."""
        return (self.month.photo,) if self.month.photo else ()


def set_nights(months: Sequence[BookMonth]) -> frozenset[date]:
    """The nights that have lines in the book."""
    return frozenset(night.date for month in months for night in month.nights)

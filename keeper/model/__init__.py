"""The nouns, as plain frozen dataclasses that pass between the rooms.

Dates are nights (``datetime.date``); moments are aware ``datetime`` in UTC.
"""

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, timezone
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from keeper.model.later import LaterWord

KINDS = ("gratitude", "memory", "reflection")
"""The kinds of line that a keeper begins with, in the order in which they are written; the person may have others."""

QUESTION_KIND = "reflection"
"""The kind that answers the month's question, whatever the person calls it."""

MOST_KINDS = 8
"""How many kinds of line a night may ask for."""

_KIND_NAMES = {"gratitude": "Gratitude", "memory": "Memory", "reflection": "Reflection"}

FORMS = ("scale", "hours", "count", "amount", "mark")
"""The forms of a tracker."""


@dataclass(frozen=True)
class Moment:
    """An instant, with the clock that the person saw.

    ``utc`` is aware and in UTC; ``offset_minutes`` is local time minus UTC;
    ``zone`` is the IANA name, or "" when the system would not tell.
    """

    utc: datetime
    offset_minutes: int
    zone: str

    def here(self) -> datetime:
        """The instant as the clock showed it where it was lived."""
        return self.utc.astimezone(timezone(timedelta(minutes=self.offset_minutes)))


@dataclass(frozen=True)
class Act:
    """One thing a person did, as they would say it.

    ``told`` ends the sentence "Took back: ...", for example "Lübeck for the
    night of 3 June 2026". ``page``, ``night`` and ``thing`` are where it is
    seen: a page of the window by its name, its night, the id of one of its
    things.
    """

    told: str
    page: str = "night"
    night: date | None = None
    thing: str = ""


def kind_title(key: str, name: str) -> str:
    """What stands over a kind: the person's ``name`` for it as written, or else the program's."""
    return name or _KIND_NAMES.get(key, "Line")


def kind_in_sentence(key: str, name: str) -> str:
    """A kind in the midst of a sentence: \u201ca dream\u201d, or the gratitude."""
    return f"\u201c{name}\u201d" if name else f"the {_KIND_NAMES.get(key, 'line').lower()}"


@dataclass(frozen=True)
class LineKind:
    """A kind of line.

    ``number`` (0 to 63) is its own for ever. ``name`` is the person's, or "" for
    one of the three that a keeper begins with and that bears the program's;
    ``prompt`` stands in its empty field, "" for the program's or none.
    ``began`` and ``ended`` are the first and last night that ask for it, None
    for no such bound. Lines of one that is not ``in_themes`` belong to no theme.
    """

    key: str
    number: int
    name: str = ""
    prompt: str = ""
    position: int = 0
    in_themes: bool = True
    began: date | None = None
    ended: date | None = None

    @property
    def title(self) -> str:
        """What stands over it."""
        return kind_title(self.key, self.name)

    @property
    def in_sentence(self) -> str:
        """How it is told of."""
        return kind_in_sentence(self.key, self.name)

    def asked_on(self, night: date) -> bool:
        """Whether it is in force on a night."""
        return (self.began is None or self.began <= night) and (self.ended is None or night <= self.ended)


@dataclass(frozen=True)
class Line:
    """A sentence or a few, of one kind, belonging to one night.

    ``kind`` is a kind's key, ``kind_name`` the person's name for it, or "".
    ``later`` are the later words under it, oldest first.
    """

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    resting: bool = False
    kind_name: str = field(default="", compare=False)
    later: "tuple[LaterWord, ...]" = field(default=(), compare=False)

    @property
    def kind_title(self) -> str:
        """What stands over it."""
        return kind_title(self.kind, self.kind_name)

    @property
    def kind_in_sentence(self) -> str:
        """How its kind is told of."""
        return kind_in_sentence(self.kind, self.kind_name)


@dataclass(frozen=True)
class Draft:
    """Words being typed that are not yet a line."""

    night: date
    kind: str
    text: str
    typed_at: datetime


@dataclass(frozen=True)
class Place:
    """A named point; coordinates in degrees (WGS 84), or None if not known.

    ``mark`` is the number of its tint and shape, given at its first night and
    its own from then on. A place that is ``on_the_way`` (a ferry, a night
    train) moves, and so has no ``point``.
    """

    id: str
    name: str
    region: str = ""
    country: str = ""
    latitude: float | None = None
    longitude: float | None = None
    zone: str = ""
    geoname_id: int | None = None
    resting: bool = False
    mark: int | None = field(default=None, compare=False)
    on_the_way: bool = False

    @property
    def point(self) -> tuple[float, float] | None:
        """Latitude and longitude in degrees; None if not known, or on the way."""
        return None if self.latitude is None or self.on_the_way else (self.latitude, self.longitude)


@dataclass(frozen=True)
class Night:
    """What is kept of one civil day.

    ``place_source`` says how the place came: ``said``, ``carried`` or
    ``photo``.
    """

    date: date
    lines: tuple[Line, ...] = ()
    place: Place | None = None
    place_source: str = ""
    photo_count: int = 0

    def line(self, kind: str) -> Line | None:
        """The night's line of this kind, or None."""
        return next((line for line in self.lines if line.kind == kind), None)


_LATER = {
    "Tracker": "readings",
    "Reading": "readings",
    "Goal": "months",
    "MonthPage": "months",
    "YearChoice": "years",
    "YearAnswer": "years",
    "YearPage": "years",
    "Photo": "photos",
    "LaterWord": "later",
    "Person": "found",
    "DayToRemember": "people",
    "Found": "found",
    "PlaceMerge": "places",
    "PlacePage": "places",
    "ActDone": "acts",
    "Wording": "wordings",
    "Tick": "ticks",
    "Resting": "resting",
    "Trying": "trying",
}
"""Nouns that nobody needs before one can type, and the module that has each: making a dataclass takes a while."""


def __getattr__(name: str) -> type:
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"keeper.model.{_LATER[name]}"), name)

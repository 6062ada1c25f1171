"""The nouns, as plain frozen dataclasses that pass between the rooms.

Dates are nights (``datetime.date``); moments are aware ``datetime`` in UTC.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, timezone

KINDS = ("gratitude", "memory", "reflection")
"""The kinds of a line, in the order in which they are written."""

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


@dataclass(frozen=True)
class Line:
    """A sentence or a few, of one kind, belonging to one night."""

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    resting: bool = False


@dataclass(frozen=True)
class Wording:
    """An earlier wording of a line, and when it was replaced."""

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    replaced_at: datetime


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
class PlaceMerge:
    """One place that became part of another, ``into_id``, until it is taken apart.

    ``gone`` is what was kept of it, by name; ``gave`` what the remaining place
    was without until this one gave it.
    """

    id: str
    into_id: str
    gone: Mapping[str, object]
    gave: Mapping[str, object]
    on: date

    @property
    def name(self) -> str:
        """What the place was called."""
        return self.gone["name"]


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


@dataclass(frozen=True)
class Tick:
    """How much one night holds; what the ribbon draws."""

    night: date
    lines: int
    photos: int
    place_id: str | None
    place_name: str


@dataclass(frozen=True)
class Tracker:
    """Something noted each day, of one of the FORMS.

    ``better`` is ``higher``, ``lower`` or ``neither``.
    """

    id: str
    name: str
    form: str
    low: float | None
    high: float | None
    unit: str
    better: str
    began: date
    ended: date | None = None


@dataclass(frozen=True)
class Reading:
    """A tracker's value on a night; a mark is 1.0 or 0.0."""

    night: date
    tracker_id: str
    value: float


@dataclass(frozen=True)
class Goal:
    """A month's goal; outcome is set, done, carried on or let go.

    ``carried_from`` is the id of the goal of the month before that was carried
    on into this one; "" for one that the person set.
    """

    id: str
    text: str
    outcome: str
    word: str = ""
    carried_from: str = ""


@dataclass(frozen=True)
class MonthPage:
    """What the person decided of a month; ``month`` is its first day."""

    month: date
    question: str = ""
    words: str = ""
    photo_id: str | None = None
    goals: tuple[Goal, ...] = ()


@dataclass(frozen=True)
class YearChoice:
    """A photo or a line that the person looked at, sitting down with a year.

    ``month`` is 1 to 12, or 0 for the lines that stand for the whole year;
    ``what`` is ``photo`` or ``line``, ``ref`` its id. ``decision`` is ``kept``
    (as it was proposed), ``changed`` (the person's own pick) or ``dropped``
    (not to be shown).
    """

    month: int
    what: str
    ref: str
    decision: str = "kept"


@dataclass(frozen=True)
class YearAnswer:
    """A closing question of a year as it was asked, and the person's answer."""

    question: str
    answer: str


@dataclass(frozen=True)
class YearPage:
    """What the person decided of a year.

    ``state`` is "" (never sat down with), ``begun`` or ``closed``. ``at`` is
    where the sitting is taken up again: a month, or 13 for the closing
    questions. ``settled`` are the months gone through. ``questions`` are the
    person's own closing questions in their order; None: those of the program.
    """

    year: int
    state: str = ""
    at: int = 1
    settled: frozenset[int] = frozenset()
    choices: tuple[YearChoice, ...] = ()
    answers: tuple[YearAnswer, ...] = ()
    questions: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Photo:
    """An image file kept by its SHA-256, and what it says of when and where.

    ``bytes`` is the file's length. ``width`` and ``height`` are pixels of the
    picture as it is seen, turned as the person wants it; ``orientation`` is
    Exif's, 1 to 8, which says how the file's own rows lie, and ``turns`` are
    the quarters to the right (0 to 3) that the person turned it beyond that.
    ``taken_local`` is the camera's clock, without a zone;
    ``taken_offset_minutes`` is that clock minus UTC, if the camera told.
    ``dated_by`` says from what that is known: "" from when the camera says it
    was taken, "digitized" from when it became a file, "notes" from XMP,
    "name" guessed from the file's name; ``day_only`` that no hour is told
    (then it is noon). Coordinates are degrees (WGS 84). ``name`` is what the
    file was called when it came. One that is ``cut_off`` was taken in though
    its end is missing.
    """

    id: str
    sha256: str
    ending: str
    bytes: int
    width: int | None = None
    height: int | None = None
    orientation: int = 1
    taken_local: datetime | None = None
    taken_offset_minutes: int | None = None
    latitude: float | None = None
    longitude: float | None = None
    name: str = ""
    caption: str = ""
    resting: bool = False
    turns: int = 0
    dated_by: str = ""
    day_only: bool = False
    cut_off: bool = False


@dataclass(frozen=True)
class Person:
    """Someone whose name the person marked.

    ``name`` may hold several spellings, with commas between: those are
    ``names``, the first of which heads an index.
    """

    id: str
    name: str
    resting: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """The spellings, each once."""
        return tuple(dict.fromkeys(" ".join(one.split()) for one in self.name.split(",") if one.strip()))


@dataclass(frozen=True)
class Found:
    """A line that answers a search, with the place of its night.

    One that has not every word sought is but ``near``: ``met`` are those of
    its words that were met, as the index spells them.
    """

    line: Line
    place_name: str
    near: bool = False
    met: tuple[str, ...] = ()

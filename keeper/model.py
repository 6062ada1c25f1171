"""The nouns, as plain frozen dataclasses that pass between the rooms.

Dates are nights (``datetime.date``); moments are aware ``datetime`` in UTC.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, timezone

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
class ActDone:
    """An act as it was noted: when (aware, UTC), and whether in the window or by the command line.

    One that is ``undone`` may be ``overtaken``: something was done since, and
    it is no longer the next to be done again.
    """

    number: int
    act: Act
    at: datetime
    done_from: str
    undone: bool = False
    overtaken: bool = False


@dataclass(frozen=True)
class Line:
    """A sentence or a few, of one kind, belonging to one night.

    ``kind`` is a kind's key, ``kind_name`` the person's name for it, or "".
    """

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    resting: bool = False
    kind_name: str = field(default="", compare=False)

    @property
    def kind_title(self) -> str:
        """What stands over it."""
        return kind_title(self.kind, self.kind_name)

    @property
    def kind_in_sentence(self) -> str:
        """How its kind is told of."""
        return kind_in_sentence(self.kind, self.kind_name)


@dataclass(frozen=True)
class Wording:
    """An earlier wording of a line, and when it was replaced; ``kind_name`` as a line has it."""

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    replaced_at: datetime
    kind_name: str = field(default="", compare=False)

    @property
    def kind_title(self) -> str:
        """What stood over it."""
        return kind_title(self.kind, self.kind_name)


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

    ``better`` is ``higher``, ``lower`` or ``neither``. A scale goes from
    ``low`` to ``high`` by ``step``; of the other forms these are the ends of
    its axis, or None. ``key`` is the letter that goes to it, or "". One that is
    of the ``body`` comes with cautions. Those with the same ``axis`` are drawn
    on one; it is "" for one that stands alone.
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
    step: float = 1.0
    key: str = ""
    body: bool = False
    axis: str = ""

    def in_force(self, night: date) -> bool:
        """Whether it is noted on this night: neither before its beginning nor after its end."""
        return self.began <= night <= (self.ended or night)


@dataclass(frozen=True)
class Reading:
    """A tracker's value on a night, as it was noted; a mark is 1.0 or 0.0, hours are hours.

    ``first`` and ``until`` are the local times, such as "23:30", of hours that
    were noted as two times. ``unit`` is the one it was noted in, ``low`` and
    ``high`` the ends of the scale it was noted on, where these are not what
    its tracker has now: ``study.readings.measure`` sets it beside the others.
    """

    night: date
    tracker_id: str
    value: float
    first: str = ""
    until: str = ""
    unit: str = ""
    low: float | None = None
    high: float | None = None


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

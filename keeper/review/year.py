"""A year, as its page and the book show it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from keeper.model import Line, Photo, Tracker, YearAnswer
from keeper.review.places import PlacesView, Travels
from keeper.study.readings.spread import Spread

LINES_OF_A_MONTH = 5
"""How many lines a month keeps at most."""

LINES_OF_THE_YEAR = 12
"""How many lines stand for a year at most."""


@dataclass(frozen=True, slots=True)
class YearMonth:
    """What stands for one month: its photo and up to LINES_OF_A_MONTH lines, oldest first.

    ``nights`` counts those kept. ``words`` are the month page's own.
    ``settled`` when the person went through it in the sitting; until then
    photo and lines are proposals.
    """

    month: date
    nights: int
    photo: Photo | None = None
    lines: tuple[Line, ...] = ()
    words: str = ""
    settled: bool = False

    @property
    def holds_something(self) -> bool:
        """Whether anything was kept in this month."""
        return bool(self.nights or self.photo)


@dataclass(frozen=True, slots=True)
class ThemeFlow:
    """A theme through the months: on what share of the nights kept in each it came up.

    ``nights`` is how many nights of the year that is.
    """

    number: int
    name: str
    nights: int
    shares: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class YearReadings:
    """How a tracker's nights were in each month of a year, January first, and in the year before.

    ``weeks`` are the same by week: those of ISO 8601, as much of the first and
    the last as lies in the year. ``low`` and ``high`` are the ends of its
    scale, those of the month's page.
    """

    tracker: Tracker
    months: tuple[Spread, ...]
    before: tuple[Spread, ...]
    low: float
    high: float
    weeks: tuple[Spread, ...] = ()
    weeks_before: tuple[Spread, ...] = ()


@dataclass(frozen=True, slots=True)
class Counts:
    """What a year holds, told plainly; resting things are counted, since a number brings nothing up."""

    nights: int = 0
    lines: int = 0
    words: int = 0
    photos: int = 0


@dataclass(frozen=True, slots=True)
class MovedWord:
    """A word told apart from the year before, and on how many nights it came up in each."""

    word: str
    nights: int
    before: int


@dataclass(frozen=True, slots=True)
class YearReview:
    """All of a year. ``months`` are twelve, January first.

    ``years`` are the first and the last with a line, or None. ``lines`` stand
    for the whole year, oldest first; ``own_lines`` says that the person had a
    hand in them. ``state`` is the sitting's: "", ``begun`` or ``closed``.
    ``brief``: proposed lines and moved words are still to come. Nothing that
    rests is in it, but for the counts.
    """

    year: int
    years: tuple[int, int] | None
    counts: Counts
    before: Counts
    months: tuple[YearMonth, ...]
    lines: tuple[Line, ...]
    own_lines: bool
    flow: tuple[ThemeFlow, ...]
    places: PlacesView
    travels: Travels
    readings: tuple[YearReadings, ...]
    rose: tuple[MovedWord, ...]
    fell: tuple[MovedWord, ...]
    state: str = ""
    answers: tuple[YearAnswer, ...] = ()
    brief: bool = False

    @property
    def shown_months(self) -> tuple[YearMonth, ...]:
        """The months from the first to the last that hold something."""
        full = [one.month.month for one in self.months if one.holds_something]
        return self.months[min(full) - 1 : max(full)] if full else ()

    @property
    def settled(self) -> tuple[YearMonth, ...]:
        """The months gone through in the sitting."""
        return tuple(one for one in self.months if one.settled)


@dataclass(frozen=True, slots=True)
class MonthStep:
    """A month as the sitting shows it: what stands for it, and what could instead.

    ``photos`` and ``others`` are all that is awake, oldest first; ``place_names``
    say where the nights were spent. ``before`` and ``after`` are the months of
    the sitting next to it, 0 and 13 at its ends; ``steps`` are all of them.
    ``words_rest``: the month page's words are held back.
    """

    shown: YearMonth
    photos: tuple[Photo, ...]
    others: tuple[Line, ...]
    place_names: Mapping[date, str]
    steps: tuple[int, ...]
    photo_dropped: bool = False
    question: str = ""
    words_rest: bool = False

    @property
    def before(self) -> int:
        """The month before in the sitting, or 0."""
        return max((step for step in self.steps if step < self.shown.month.month), default=0)

    @property
    def after(self) -> int:
        """The month after in the sitting, or 13 for the closing questions."""
        return min((step for step in self.steps if step > self.shown.month.month), default=13)


@dataclass(frozen=True, slots=True)
class Closing:
    """The closing questions of a year, each with its answer or "".

    ``rests`` counts those of which question or answer names who rests: they are
    not among ``answers``. ``own``: the questions are the person's own.
    """

    year: int
    answers: tuple[YearAnswer, ...]
    steps: Sequence[int]
    state: str
    rests: int = 0
    own: bool = False

    @property
    def before(self) -> int:
        """The last month of the sitting, or 0."""
        return max(self.steps, default=0)

"""What keeps coming back: what the page of threads and a theme's own page show."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.days import first_of_month, next_month
from keeper.model import Line, Photo
from keeper.store.themes.found import KeptTheme
from keeper.study.trend import Trend, trend

CENTRAL = 3
"""How many central lines stand for a theme."""

STRONGEST = 3
"""How many of its strongest months are told of a theme."""

_SURE, _FAIRLY = 0.7, 0.4

TOO_LITTLE_IN_COMMON = "These lines have too few words in common to tell what keeps coming back."
_A_YEAR = timedelta(days=365)
_LEAST_KEPT = 30


@dataclass(frozen=True, slots=True)
class Course:
    """How often a theme came up in each month, first month to last.

    ``nights`` are those of each month on which it came up, ``kept`` those with
    any line at all.
    """

    first_month: date
    nights: tuple[int, ...]
    kept: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """How a theme's share of the nights kept changed; only made when a test tells the two spans apart.

    ``word`` is "growing" or "fading"; ``days`` is how long each of the spans
    is, the later one ending with the last night kept.
    """

    word: str
    before: float
    after: float
    days: int


@dataclass(frozen=True, slots=True)
class Thread:
    """A theme at a glance. ``share`` is that of the nights kept on which it came up; ``sure`` is 0 to 1.

    ``words`` belong to it, heaviest first; ``begun``: by the person.
    Where it is someone's thread, ``number`` is the person's id, and ``words`` are their other spellings.
    """

    number: int | str
    name: str
    named: bool
    pinned: bool
    sure: float
    lines: int
    nights: int
    share: float
    first: date
    last: date
    course: Course
    words: tuple[str, ...]
    change: Change | None = None
    central: tuple[Line, ...] = ()
    begun: bool = False


@dataclass(frozen=True, slots=True)
class ThemesView:
    """All themes, largest first.

    ``looked``: whether themes were ever looked for. ``enough``: whether there
    were lines enough. ``due`` is what has to be done, or "". ``undo`` is the
    last decision, in words. ``kept`` are lines in all, ``loose`` those without
    a theme. ``older``: whether an earlier version of the program found them,
    in another way.
    """

    looked: bool
    enough: bool
    sure: float
    threads: tuple[Thread, ...]
    loose: int
    kept: int
    due: str = ""
    undo: str = ""
    left_out: tuple[str, ...] = ()
    older: bool = False


@dataclass(frozen=True, slots=True)
class ThemeView:
    """A theme's own page, but for its lines. ``strongest`` are months with their number of nights, most first.

    ``parts``: what lies within it, as number, name and number of lines.
    """

    thread: Thread
    places: tuple[tuple[str, int], ...]
    strongest: tuple[tuple[date, int], ...]
    photos: tuple[tuple[Photo, date], ...]
    nights: frozenset[date]
    undo: str = ""
    parts: tuple[tuple[int, str, int], ...] = ()


def standing_out(sure: float) -> str:
    """How far themes stand out from chance, from how sure they are as a whole."""
    return "clearly more than chance" if sure >= _SURE else "more than chance" if sure >= _FAIRLY else "only just more than chance"


class Calendar:
    """The nights kept, for counting those of a theme among them; may be asked again and again."""

    def __init__(self, kept: Sequence[date]) -> None:
        self.kept = kept
        self.months = _months(kept)
        counted = Counter(_ordinal(night) for night in kept)
        self.of_month = tuple(counted[_ordinal(month)] for month in self.months)

    def course(self, nights: Iterable[date]) -> Course:
        """In how many nights of each month these are."""
        counted = Counter(_ordinal(night) for night in nights)
        return Course(self.months[0], tuple(counted[_ordinal(month)] for month in self.months), self.of_month)

    def change(self, nights: Sequence[date], among: int) -> Change | None:
        """Whether the theme of these nights (each once, oldest first) grows or fades; None when that cannot be told.

        Compares the last year with the one before; of a keeper younger than two
        years, its later half with its earlier.
        """
        if not self.kept:
            return None
        last = self.kept[-1] + timedelta(days=1)
        span = min(_A_YEAR, (last - self.kept[0]) / 2)
        middle, begin = last - span, last - 2 * span
        kept, with_it = (_counts(days, begin, middle, last) for days in (self.kept, nights))
        if min(kept) < _LEAST_KEPT:
            return None
        found: Trend = trend(with_it[0], kept[0], with_it[1], kept[1], among=max(1, among))
        return Change(found.word, found.before, found.after, span.days) if found.word else None


def _counts(days: Sequence[date], begin: date, middle: date, last: date) -> tuple[int, int]:
    at = [bisect_left(days, edge) for edge in (begin, middle, last)]
    return at[1] - at[0], at[2] - at[1]


def _months(kept: Sequence[date]) -> tuple[date, ...]:
    months = [first_of_month(kept[0])] if kept else []
    while months and months[-1] < first_of_month(kept[-1]):
        months.append(next_month(months[-1]))
    return tuple(months)


def _ordinal(day: date) -> int:
    return day.year * 12 + day.month


def thread(
    theme: KeptTheme, line_nights: Sequence[date], calendar: Calendar, among: int, central: Iterable[Line] = ()
) -> Thread:
    """A theme at a glance, from the night of each of its lines, oldest first.

    ``among`` is how many themes are looked at together.
    """
    nights = sorted(set(line_nights))
    return Thread(
        number=theme.number, name=theme.name, named=theme.named, pinned=theme.pinned, sure=theme.sure,
        lines=len(line_nights), nights=len(nights), share=len(nights) / max(1, len(calendar.kept)),
        first=nights[0], last=nights[-1], course=calendar.course(nights),
        words=tuple(word for word, _ in theme.terms), change=calendar.change(nights, among),
        central=tuple(central),
    )  # fmt: skip


def strongest(course: Course) -> tuple[tuple[date, int], ...]:
    """The months with most nights of a theme, of equal ones the latest; only such as have more than one."""
    month, found = course.first_month, []
    for nights in course.nights:
        found.append((month, nights))
        month = next_month(month)
    found.sort(key=lambda pair: (-pair[1], -pair[0].toordinal()))
    return tuple(pair for pair in found[:STRONGEST] if pair[1] > 1)

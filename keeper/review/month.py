"""A month's page: what it shows, as frozen dataclasses, and how it is put together."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from keeper.model import QUESTION_KIND, Line, MonthPage, Night, Photo, Place
from keeper.review.month_series import Series
from keeper.study.awake import Awake
from keeper.study.firsts import First

STANDING = 2
"""Lines that stand for a theme."""


@dataclass(frozen=True, slots=True)
class MonthNight:
    """A night of the month, with the lines that may be shown.

    ``arrived`` when the place is another than the night before's, or the
    month's first. ``rests`` when something of it is kept back.
    """

    date: date
    lines: tuple[Line, ...] = ()
    place: Place | None = None
    arrived: bool = False
    photos: int = 0
    rests: bool = False


@dataclass(frozen=True, slots=True)
class MonthPlace:
    """A place with its nights in the month."""

    place: Place
    nights: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class MonthTheme:
    """A theme in the month: its lines, the share of nights kept, the lines that stand for it.

    ``mostly``: the part of it that most of these lines are in, where there is one.
    """

    number: int
    name: str
    lines: int
    nights: int
    share: float
    standing: tuple[Line, ...]
    mostly: str = ""


@dataclass(frozen=True, slots=True)
class MonthWord:
    """A word that sets the month apart.

    ``sought`` is what finds its lines, in all their endings.
    """

    word: str
    sought: str
    times: int
    nights: int


@dataclass(frozen=True, slots=True)
class MonthView:
    """All that a month's page shows.

    ``page`` is what the person decided. Resting things are not in it, unless
    they were asked for; ``rests`` names the parts of the page of which some
    rests (question, words, goals, photo).
    """

    month: date
    page: MonthPage
    photo: Photo | None
    nights: tuple[MonthNight, ...]
    places: tuple[MonthPlace, ...] = ()
    themes: tuple[MonthTheme, ...] = ()
    words: tuple[MonthWord, ...] = ()
    themes_apart: tuple[str, ...] = ()
    firsts: tuple[First, ...] = ()
    series: tuple[Series, ...] = ()
    rests: frozenset[str] = frozenset()

    @property
    def holds_back(self) -> bool:
        """Whether there is something that rests, shown or not."""
        return bool(self.rests) or any(night.rests for night in self.nights)

    @property
    def answers(self) -> tuple[Line, ...]:
        """What was written under the month's question."""
        if not self.page.question:
            return ()
        return tuple(line for night in self.nights for line in night.lines if line.kind == QUESTION_KIND)

    @property
    def kept(self) -> int:
        """How many nights have a line that is shown."""
        return sum(1 for night in self.nights if night.lines)

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines shown, oldest first."""
        return tuple(line for night in self.nights for line in night.lines)

    @property
    def empty(self) -> bool:
        """Whether nothing at all is kept of the month."""
        page = self.page
        decided = page.question or page.words or page.photo_id or page.goals
        return not (decided or self.kept or self.places or any(one.noted for one in self.series))


def month_nights(
    kept: Sequence[Night], rule: Awake, before: str | None, with_resting: bool
) -> tuple[MonthNight, ...]:
    """The nights of a month, in order, with what may be shown of each.

    ``before`` is the place of the night before the first.
    """
    asked = Awake(everything=True) if with_resting else rule
    shown, here = [], before
    for night in kept:
        whole = asked.night(night.date)
        lines = tuple(line for line in night.lines if asked.line(line))
        place = night.place if whole and night.place and asked.place(night.place) else None
        arrived = place is not None and (place.id != here or not shown)
        rests = not rule.night(night.date) or not all(rule.line(line) for line in night.lines)
        photos = night.photo_count if whole else 0
        shown.append(MonthNight(night.date, lines, place, arrived, photos, rests))
        here = place.id if place else here
    return tuple(shown)


def page_awake(page: MonthPage, rule: Awake) -> tuple[MonthPage, frozenset[str]]:
    """What the person decided of a month without what names who rests, and which parts that left smaller."""
    goals = tuple(one for one in page.goals if rule.text(one.text, one.word))
    kept = replace(
        page, goals=goals, question=page.question if rule.text(page.question) else "",
        words=page.words if rule.text(page.words) else "",
    )  # fmt: skip
    return kept, frozenset(name for name in ("question", "words", "goals") if getattr(kept, name) != getattr(page, name))


def month_places(shown: Iterable[MonthNight]) -> tuple[MonthPlace, ...]:
    """The places of a month in the order of their first night there."""
    found: dict[str, MonthPlace] = {}
    for night in shown:
        if night.place:
            held = found.get(night.place.id) or MonthPlace(night.place, ())
            found[night.place.id] = replace(held, nights=(*held.nights, night.date))
    return tuple(found.values())


def month_themes(placed: Iterable[tuple[str, int, str, float]], lines: Iterable[Line]) -> tuple[MonthTheme, ...]:
    """The themes of a month, the one on most nights first.

    ``placed`` are line id, theme, its name and closeness; of ``lines`` only
    those shown.
    """
    by_id = {line.id: line for line in lines}
    kept = len({line.night for line in by_id.values()})
    found: dict[int, list[tuple[float, Line]]] = {}
    names: dict[int, str] = {}
    for line_id, number, name, closeness in placed:
        if line_id in by_id:
            found.setdefault(number, []).append((closeness, by_id[line_id]))
            names[number] = name
    themes = [_theme(number, names[number], members, kept) for number, members in found.items()]
    return tuple(sorted(themes, key=lambda one: (-one.nights, -one.lines, one.number)))


def _theme(number: int, name: str, members: list[tuple[float, Line]], kept: int) -> MonthTheme:
    nearest = [line for _, line in sorted(members, key=lambda one: (-one[0], one[1].night, one[1].kind))]
    # Two lines of one night would say the same twice.
    standing = {line.night: line for line in reversed(nearest)}
    chosen = [line for line in nearest if standing[line.night] is line][:STANDING]
    on = len({line.night for line in nearest})
    return MonthTheme(number, name, len(nearest), on, on / max(kept, 1), tuple(chosen))

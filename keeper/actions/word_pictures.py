"""Pictures of words: for a month, a year, a place or a theme."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from keeper.actions.awake import Awake, awake
from keeper.actions.months.words import WordCount, counted_words
from keeper.dates.written import MONTHS
from keeper.days import first_of_month, last_of_month, next_month
from keeper.model import Line, Place
from keeper.store import Store, lines, nights
from keeper.store.places import named as places
from keeper.store.themes import lines as theme_lines
from keeper.study.word_picture.layout import TALLEST, WIDTH, Placed, Spoken, layout
from keeper.study.word_picture.svg import RIBBON, TICK, Band, Inks, NightsDrawn, as_svg

__all__ = [
    "RIBBON", "TALLEST", "TICK", "WIDTH", "Band", "Inks", "NightsDrawn", "Placed", "WordPicture", "as_svg", "picture_of_month",
    "picture_of_place", "picture_of_theme", "picture_of_year",
]  # fmt: skip

_TICKS = 366
"""So many ticks at most; more nights share one."""
_NAMES = 14
"""So many names at most stand below the ribbon."""


@dataclass(frozen=True, slots=True)
class WordPicture:
    """Words with their places over a span of nights, and what finds the lines of each.

    ``homes`` says at which place each word was said most, where any is known;
    ``places`` are those places, the one with most words first.
    """

    band: Band
    sought: dict[str, str]
    first: date
    last: date
    homes: Mapping[str, Place] = field(default_factory=dict)
    places: tuple[Place, ...] = ()

    @property
    def placed(self) -> Sequence[Placed]:
        """The words in their places."""
        return self.band.placed

    def about(self, one: Placed) -> date:
        """The night about which a word was mostly written."""
        long = (self.last - self.first).days
        return self.first + timedelta(min(long, int(one.at * (long + 1))))


def picture_of_month(store: Store, month: date) -> WordPicture:
    """The words of a month. Raises MissingLibrary."""
    first, last = first_of_month(month), last_of_month(month)
    return _picture(store, lines.between(store, first, last), (first, last))


def picture_of_year(store: Store, year: int) -> WordPicture:
    """The words of a year. Raises MissingLibrary."""
    first, last = date(year, 1, 1), date(year, 12, 31)
    return _picture(store, lines.between(store, first, last), (first, last))


def picture_of_place(store: Store, place_id: str) -> WordPicture:
    """The words of a place's nights. Raises MissingLibrary."""
    return _picture(store, places.lines_of(store, place_id), asked_for_place=True)


def picture_of_theme(store: Store, number: int) -> WordPicture:
    """The words of a theme's lines. Raises MissingLibrary."""
    return _picture(store, theme_lines.every_line_of(store, number))


def _picture(
    store: Store, found: Iterable[Line], span: tuple[date, date] | None = None, asked_for_place: bool = False
) -> WordPicture:
    found = tuple(found)
    first, last = span or _ends(found)
    # The picture of a resting place was asked for: its own nights are in it.
    rule = awake(store, first, last, asked_for_place)
    shown = tuple(line for line in found if rule.line(line))
    counted = counted_words(store, shown)
    where = _where(store, rule, first, last)
    long = (last - first).days + 1
    placed = layout(Spoken(one.word, one.times, tuple(((on - first).days + 0.5) / long for on in one.said)) for one in counted)
    homes = _homes(placed, counted, where)
    band = Band(placed, _nights(shown, first, last, where), _named(first, last))
    seen = Counter(one.id for one in homes.values())
    its = {one.id: one for one in homes.values()}
    return WordPicture(band, {one.word: one.sought for one in counted}, first, last, homes, tuple(its[key] for key, _ in seen.most_common()))


def _ends(shown: Sequence[Line]) -> tuple[date, date]:
    if not shown:
        return date.min, date.min
    return min(line.night for line in shown), max(line.night for line in shown)


def _where(store: Store, rule: Awake, first: date, last: date) -> dict[date, Place]:
    known = {one.id: one for one in places.every(store) if rule.place(one)}
    return {night: known[at] for night, at, _ in nights.where_between(store, first, last) if at in known}


def _homes(placed: Iterable[Placed], counted: Iterable[WordCount], where: Mapping[date, Place]) -> dict[str, Place]:
    said, its = {one.word: one.said for one in counted}, {place.id: place for place in where.values()}
    found: dict[str, Place] = {}
    for one in placed:
        at = Counter(where[night].id for night in said[one.word] if night in where)
        if at:
            found[one.word] = its[at.most_common(1)[0][0]]
    return found


def _nights(shown: Iterable[Line], first: date, last: date, where: Mapping[date, Place]) -> tuple[NightsDrawn, ...]:
    """The ticks of the ribbon: a night each, or several where there are too many."""
    long = (last - first).days + 1
    each = -(-long // _TICKS)
    kept: Counter[int] = Counter()
    at: dict[int, Counter[int]] = {}
    for line in shown:
        tick = (line.night - first).days // each
        kept[tick] += 1
        if line.night in where and (mark := where[line.night].mark) is not None:
            at.setdefault(tick, Counter())[mark] += 1
    most = max(kept.values(), default=1)
    wide = each / long
    return tuple(
        NightsDrawn(tick * wide, wide, kept[tick] / most, at[tick].most_common(1)[0][0] if tick in at else None)
        for tick in range(-(-long // each))
    )  # fmt: skip


def _named(first: date, last: date) -> tuple[tuple[float, str], ...]:
    """What is named below the ribbon: days of a month, months of a year or two, years of more."""
    long = (last - first).days + 1
    if long <= 62:
        days = (first + timedelta(n) for n in range(long))
        named = [(day, str(day.day)) for day in days if day.day in (1, 8, 15, 22, 29)]
    elif long <= 800:
        named, month = [], first_of_month(first)
        while month <= last:
            named.append((max(month, first), MONTHS[month.month - 1][:3]))
            month = next_month(month)
    else:
        named = [(max(first, date(year, 1, 1)), str(year)) for year in range(first.year, last.year + 1)]
    step = max(1, -(-len(named) // _NAMES))
    return tuple(((day - first).days / long, name) for day, name in named[::step])

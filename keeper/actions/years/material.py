"""What a year is made of, asked for once and only when it is wanted."""

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache

from keeper.actions.awake import Awake, awake
from keeper.actions.months.scales import highest_noted
from keeper.actions.places.known import joined_up
from keeper.actions.themes.decided import left_out
from keeper.model import Line, Photo, Tracker, YearAnswer, YearPage
from keeper.review import year_choices, year_sums
from keeper.review.month import page_awake
from keeper.review.places import places_view, travels
from keeper.review.readings.year import year_readings
from keeper.review.year import Counts, YearMonth, YearReadings
from keeper.review.year_words import spoken
from keeper.store import Store, month_pages, people, trackers, year_pages
from keeper.store.places import named as places
from keeper.store.themes import decisions as theme_decisions
from keeper.study.choosing import Bag
from keeper.study.language.words import Word, content_words


@dataclass
class YearMaterial:
    """A year being looked at: what the store has of it, asked for once.

    A ``brief`` look reads no words.
    """

    store: Store
    year: int
    brief: bool = False

    @cached_property
    def decided(self) -> YearPage:
        return year_pages.one(self.store, self.year)

    @cached_property
    def rule(self) -> Awake:
        """What may be brought up unasked, of this year and the one before."""
        return awake(self.store, date(self.year - 1, 1, 1), date(self.year, 12, 31))

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        return year_pages.lines_between(self.store, date(self.year - 1, 1, 1), date(self.year, 12, 31))

    @cached_property
    def _awake(self) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if self.rule.line(line))

    @cached_property
    def photos(self) -> tuple[tuple[date, Photo], ...]:
        found = year_pages.photos_between(self.store, date(self.year, 1, 1), date(self.year, 12, 31))
        return year_choices.awake_photos(found, self.rule)

    @cached_property
    def _speech(self) -> tuple:
        languages = spoken([line.text for line in self._awake])
        return languages, left_out(theme_decisions.standing(self.store)), people.names(self.store)

    @cached_property
    def _said(self) -> dict[str, Sequence[Word]]:
        return {}

    def words(self, line: Line) -> Sequence[Word]:
        """The content words of a line, as themes hear them."""
        # Each line is asked for up to three times: for its month, its year, and
        # what rose or fell.
        if line.id not in self._said:
            self._said[line.id] = _heard(line.text, *self._speech)
        return self._said[line.id]

    def propose(self, some: Sequence[Line], count: int) -> tuple[Line, ...]:
        """The lines that stand for some; none in a brief look, which reads no words."""
        return () if self.brief else year_choices.proposed(some, self._bag, count)

    def _bag(self, line: Line) -> Bag:
        return tuple([word.stem for word in self.words(line)])

    @cached_property
    def _by_year(self) -> dict[int, tuple[Line, ...]]:
        return _parted(self._awake, lambda line: line.night.year)

    @cached_property
    def _by_month(self) -> dict[int, tuple[Line, ...]]:
        return _parted(self.awake(self.year), lambda line: line.night.month)

    def awake(self, year: int) -> tuple[Line, ...]:
        return self._by_year.get(year, ())

    def of_month(self, month: int) -> tuple[Line, ...]:
        return self._by_month.get(month, ())

    def photos_of(self, month: int) -> tuple[Photo, ...]:
        return tuple(photo for night, photo in self.photos if night.month == month)

    def month(self, month: int) -> YearMonth:
        first = date(self.year, month, 1)
        page, _ = page_awake(month_pages.one(self.store, first), self.rule)
        its = self.of_month(month), self.photos_of(month)
        return year_choices.month_of(first, page, self.decided, *its, self._photo, self.propose)

    def _photo(self, photo_id: str) -> Photo | None:
        found = year_pages.photo_awake(self.store, photo_id)
        return found if found and self.rule.photo(found) else None

    @cached_property
    def answers(self) -> tuple[YearAnswer, ...]:
        """The closing questions that are asked and answered, of nobody who rests."""
        return tuple(one for one in year_choices.answered(self.decided) if one.answer and self.rule.text(one.question, one.answer))

    def steps(self) -> tuple[int, ...]:
        """The months that hold something."""
        held = {line.night.month for line in self.awake(self.year)} | {night.month for night, _ in self.photos}
        return tuple(sorted(held))

    def counts(self, year: int) -> Counts:
        photos = year_pages.photo_count(self.store, date(year, 1, 1), date(year, 12, 31))
        return year_sums.counts([line for line in self.lines if line.night.year == year], photos)

    def themes_of(self) -> dict[str, list[tuple[int, str]]]:
        """The number and name of each line's themes, the first before the second."""
        found = year_pages.theme_lines(self.store, date(self.year, 1, 1), date(self.year, 12, 31))
        told = ((line_id, number, self.rule.theme_name(name)) for line_id, number, name in found)
        themes: dict[str, list[tuple[int, str]]] = defaultdict(list)
        for line_id, number, name in told:
            if name:
                themes[line_id].append((number, name))
        return dict(themes)

    def whereabouts(self) -> dict:
        known = [place for place in places.every(self.store) if self.rule.place(place)]
        shown = {place.id for place in known}
        first, last = date(self.year, 1, 1), date(self.year, 12, 31)
        spent = [pair for pair in year_pages.nights_awake(self.store, first, last) if pair[1] in shown]
        # The way to the year's first place is one of its journeys.
        before = year_pages.last_stay_before(self.store, first)
        return {
            "places": places_view(spent, known, self.year),
            "travels": travels([*before, *spent], known, self.year, joined_up(self.store)),
        }

    def _trackers(self) -> list[Tracker]:
        return [one for one in trackers.every(self.store) if self.rule.text(one.name)]

    def readings(self) -> tuple[YearReadings, ...]:
        first, last = date(self.year - 1, 1, 1), date(self.year, 12, 31)
        noted = [one for one in trackers.readings(self.store, first, last) if self.rule.night(one.night)]
        kept = {night for night in {line.night for line in self.lines} | {one.night for one in noted} if self.rule.night(night)}
        shown = self._trackers()
        return year_readings(self.year, shown, noted, kept, highest_noted(self.store, shown) if noted else {})


def _parted(lines: Sequence[Line], by: Callable[[Line], int]) -> dict[int, tuple[Line, ...]]:
    parts: dict[int, list[Line]] = defaultdict(list)
    for line in lines:
        parts[by(line)].append(line)
    return {part: tuple(its) for part, its in parts.items()}


@lru_cache(maxsize=5000)
def _heard(text: str, languages: tuple, leave_out: tuple, names: tuple) -> tuple[Word, ...]:
    # Remembered for two full years, since the page is asked for again after
    # each thing that is written.
    return tuple(content_words(text, languages=languages, leave_out=frozenset(leave_out), names=names))

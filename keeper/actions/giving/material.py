"""The nights of a keeper as they are given: month by month, so that memory does not grow with the years."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from keeper.actions.giving.limits import Limits
from keeper.days import FIRST_NIGHT, last_of_month
from keeper.exchange.out.given import GivenNight, GivenPhoto, GivenReading
from keeper.model import Line, Tracker
from keeper.model.later import words_alone
from keeper.model.months import MonthPage
from keeper.model.years import YearAnswer
from keeper.store import lines, month_pages, trackers, year_pages
from keeper.store.photos import known
from keeper.store.rows.spans import months_kept, nights_kept, noted
from keeper.store.themes import lines as theme_lines

_MOST_ALIKE = 20_000
"""Readings that are kept to be given again: memory must not grow with the years."""


class _Once(dict[tuple, GivenReading | None]):
    """Readings as they are given by what is read of each but its night; None for what is not given."""

    def __init__(self, those: dict[str, Tracker]) -> None:
        self._trackers, self.holds_back = those, False

    def __missing__(self, row: tuple) -> GivenReading | None:
        trackers.reading_from((FIRST_NIGHT.isoformat(), *row))
        if len(self) >= _MOST_ALIKE:
            self.clear()
        tracker = self._trackers.get(row[0])
        self.holds_back |= tracker is None
        made = self[row] = GivenReading(tracker, *row[1:]) if tracker else None
        return made


class Material:
    """Asks a copy of a keeper for what is given of each month; ``files`` are where the photos lie, by id."""

    def __init__(self, limits: Limits, files: dict[str, str]) -> None:
        self._limits, self._files, self._copy = limits, files, limits.copy
        self._trackers = {one.id: one for one in trackers.every(self._copy) if one.id in limits.trackers}
        self._once = _Once(self._trackers)

    def months(self) -> tuple[date, ...]:
        """The months of which anything is kept, by their first days, within the span."""
        return tuple(month for month in months_kept(self._copy) if self._limits.month(month))

    def answers(self, year: int) -> tuple[YearAnswer, ...]:
        """The closing questions of a year and what was answered."""
        every = year_pages.one(self._copy, year).answers
        return tuple(one for one in every if self._limits.text(one.question, one.answer))

    def page(self, month: date) -> MonthPage:
        """What was written for a month."""
        page, speaks = month_pages.one(self._copy, month), self._limits.text
        goals = tuple(goal for goal in page.goals if speaks(goal.text, goal.word))
        return replace(page, question=page.question if speaks(page.question) else "",
                       words=page.words if speaks(page.words) else "", goals=goals)  # fmt: skip

    def nights(self, first: date) -> Iterator[GivenNight]:
        """The nights of a month."""
        last = last_of_month(first)
        wanted = {night: place for night, place in nights_kept(self._copy, first, last).items() if self._limits.night(night)}
        its_lines: dict[date, list[Line]] = {}
        for line in lines.of_nights(self._copy, wanted):
            its_lines.setdefault(line.night, []).append(line)
        readings, pictures = self._readings(first, last), self._pictures(first, last)
        themes: dict[str, str] = {}
        for line_id, _, name, _ in theme_lines.named_between(self._copy, first, last):
            if self._limits.text(name):
                themes[line_id] = f"{themes[line_id]}; {name}" if line_id in themes else name
        places, line = self._limits.places, self._limits.line
        for night, place in wanted.items():
            awake = tuple([self._as_given(one) for one in its_lines.get(night, ()) if line(one)])
            yield GivenNight(night, places.get(place), awake, tuple(readings.get(night, ())), tuple(pictures.get(night, ())), themes)

    def _as_given(self, line: Line) -> Line:
        """A line without later words on readings that are not given."""
        if not line.later or all(word.looks is None or word.tracker_id in self._trackers for word in line.later):
            return line
        return replace(line, later=words_alone(line.later))

    def _readings(self, first: date, last: date) -> dict[date, list[GivenReading]]:
        every = noted(self._copy, first, last, self._once)
        return {night: [one for one in its if one] for night, its in every.items()} if self._once.holds_back else every

    def _pictures(self, first: date, last: date) -> dict[date, list[GivenPhoto]]:
        found: dict[date, list[GivenPhoto]] = {}
        for photo_id, night in known.nights_between(self._copy, first, last):
            if photo_id in self._files:
                found.setdefault(night, []).append(GivenPhoto(self._limits.photos[photo_id], self._files[photo_id]))
        return found

    def many_lines(self) -> int:
        """How many lines the keeper holds, to tell how far it is."""
        return lines.count(self._copy)

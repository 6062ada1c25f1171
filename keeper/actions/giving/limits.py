"""What is held back of a keeper that is not given whole: what rests, what lies outside of a span, and positions."""

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from keeper.actions.awake import Awake, awake
from keeper.actions.giving.wanted import ToGive
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.model import Line, Place
from keeper.model.found import Person
from keeper.model.people import DayToRemember
from keeper.model.photos import Photo
from keeper.model.places import PlacePage
from keeper.store import Store, lines, nights, people, trackers
from keeper.store.one_person import about, days
from keeper.store.photos import known
from keeper.store.places import named as places
from keeper.store.places import pages
from keeper.study.people import mentions_any


@dataclass
class Limits:
    """Asks of a copy of a keeper, which nobody writes, what of it may be given."""

    copy: Store
    wanted: ToGive

    @cached_property
    def awake(self) -> Awake:
        """The rule of what rests."""
        return Awake(everything=True) if self.wanted.resting else awake(self.copy)

    def night(self, night: date) -> bool:
        """Whether anything of a night is given."""
        return self.wanted.within(night) and self.awake.night(night)

    def line(self, line: Line) -> bool:
        """Whether a line is given, whose night is."""
        return self.awake.line(line)

    def month(self, month: date) -> bool:
        """Whether what was written for a month is given: for one that the span touches."""
        last = self.wanted.last
        first = self.wanted.first
        return (last is None or month <= last) and (first is None or (month.year, month.month) >= (first.year, first.month))

    def year(self, year: int) -> bool:
        """Whether what was written for a year is given: for one that the span touches."""
        first, last = self.wanted.first, self.wanted.last
        return (first is None or first.year <= year) and (last is None or year <= last.year)

    def text(self, *texts: str) -> bool:
        """Whether texts name nobody who rests."""
        return self.awake.text(*texts)

    @cached_property
    def places(self) -> dict[str, Place]:
        """The places that are given, by id, without positions where those are held back."""
        spent = {place_id for night, place_id in nights.spent(self.copy) if self.night(night)}
        found = {one.id: one for one in places.every(self.copy)}
        if not self.wanted.all_nights:
            found = {key: one for key, one in found.items() if key in spent and self.awake.place(one)}
        if not self.wanted.positions:
            found = {key: replace(one, latitude=None, longitude=None, geoname_id=None) for key, one in found.items()}
        return found

    @cached_property
    def said(self) -> dict[str, PlacePage]:
        """What is said of the places that are given, by id; not where it names somebody who rests."""
        return {key: one for key, one in pages.every(self.copy).items() if key in self.places and self.text(one.note)}

    @cached_property
    def nights_of_photos(self) -> dict[str, list[date]]:
        """The nights that each photo belongs to, of those that are given."""
        found: dict[str, list[date]] = {}
        for photo_id, night in known.nights_between(self.copy, FIRST_NIGHT, LAST_NIGHT):
            if self.night(night):
                found.setdefault(photo_id, []).append(night)
        return found

    @cached_property
    def photos(self) -> dict[str, Photo]:
        """The photos that are given, by id, those of no night last."""
        its = self.nights_of_photos
        every = [one for one in known.every(self.copy) if self._photo(one, its.get(one.id, []))]
        every.sort(key=lambda one: (its.get(one.id, [date.max])[0], one.id))
        if not self.wanted.positions:
            every = [replace(one, latitude=None, longitude=None) for one in every]
        return {one.id: one for one in every}

    def _photo(self, photo: Photo, its: list[date]) -> bool:
        if self.wanted.all_nights:
            return True
        return bool(its) and self.awake.photo(photo, its)

    @cached_property
    def trackers(self) -> frozenset[str]:
        """The ids of what is noted, as far as anything noted of it is given."""
        every = [one for one in trackers.every(self.copy) if self.text(one.name)]
        if self.wanted.first is None and self.wanted.last is None:
            return frozenset(one.id for one in every)
        first, last = self.wanted.first or FIRST_NIGHT, self.wanted.last or LAST_NIGHT
        return frozenset(
            one.id for one in every
            if any(self.night(reading.night) for reading in trackers.readings_of(self.copy, one.id, first, last))
        )  # fmt: skip

    @cached_property
    def people(self) -> tuple[Person, ...]:
        """The people that are given: of a span, those who are named in its lines."""
        every = [one for one in people.every(self.copy) if self.wanted.resting or (not one.resting and self.text(*one.names))]
        if self.wanted.first is None and self.wanted.last is None:
            return tuple(every)
        texts = [line.text for line in lines.between(self.copy, self.wanted.first or FIRST_NIGHT, self.wanted.last or LAST_NIGHT)
                 if self.night(line.night) and self.line(line)]  # fmt: skip
        return tuple(one for one in every if any(mentions_any(text, one.names) for text in texts))

    @cached_property
    def about(self) -> dict[str, str]:
        """The lines about the people who are given, by id; not one that names somebody who rests."""
        known = {one.id for one in self.people}
        return {key: text for key, text in about.every(self.copy).items() if key in known and self.text(text)}

    @cached_property
    def days(self) -> tuple[tuple[Person, DayToRemember], ...]:
        """The days to remember of the people who are given, through the year."""
        known = {one.id: one for one in self.people}
        return tuple((known[one.person_id], one) for one in days.every(self.copy) if one.person_id in known and self.text(one.what, one.typed))

"""Whether what is no line belongs to a search: narrowed as lines are, and left out where that cannot be."""

from dataclasses import dataclass, replace
from datetime import date

from keeper.store import Store, resting, search
from keeper.store.search import Sought


@dataclass(frozen=True, slots=True)
class Belonging:
    """To a search ``within``, whose words are not asked; where nothing narrows, everything belongs.

    What is of a night, a place, a person or a theme belongs where a line of
    it meets all that narrows. What is of a whole month, or a year, can be
    narrowed by nights and months of the year alone: by anything else it is
    left out. Of places and people it is asked whether they rest themselves.
    """

    store: Store
    within: Sought

    def line(self, night: date, kind: str) -> bool:
        """The night's line of a kind, by its key."""
        return (not self.within.kinds or kind in self.within.kinds) and self._has(**self._on(night), kinds=(kind,))

    def night(self, night: date) -> bool:
        """A night, for itself."""
        return self._has(**self._on(night))

    def beside_lines(self, night: date) -> bool:
        """What is of a night and no line, such as a photo: of no kind, about nobody, in no theme."""
        return not (self.within.kinds or self.within.people or self.within.themes) and self.night(night)

    def months(self, first: date, last: date) -> bool:
        """Whole months, from the first day of the first to the last of the last."""
        within = self.within
        if replace(within, typed="", first=None, last=None, months=()).narrowed:
            return False
        overlap = (within.first or date.min) <= last and first <= (within.last or date.max)
        return overlap and (not within.months or bool(_months_of(first, last).intersection(within.months)))

    def theme(self, number: int) -> bool:
        """A theme by its number."""
        return (not self.within.themes or number in self.within.themes) and self._has(themes=(number,))

    def place(self, place_id: str) -> bool:
        """A place by its id."""
        mine = not self.within.places or place_id in self.within.places
        return mine and self._rests("place", place_id) and self._has(of_rest=False, places=(place_id,))

    def person(self, person_id: str) -> bool:
        """A person by their id."""
        return self._rests("person", person_id) and self._has(of_rest=False, people=(*self.within.people, person_id))

    def _rests(self, what: str, ref: str) -> bool:
        rests = self.within.resting
        return rests is None or (resting.id_of(self.store, what, ref) is not None) == rests

    def _on(self, night: date) -> dict[str, date]:
        return {"first": max(night, self.within.first or night), "last": min(night, self.within.last or night)}

    def _has(self, of_rest: bool = True, **more: tuple | date) -> bool:
        """Whether a line meets these too; asked only where something narrows. ``of_rest``: whether it rests is asked of the line."""
        within = replace(self.within, typed="", resting=self.within.resting if of_rest else None)
        return not within.narrowed or search.any_of(self.store, replace(within, **more))


def _months_of(first: date, last: date) -> frozenset[int]:
    return frozenset(range(first.month, last.month + 1)) if first.year == last.year else frozenset(range(1, 13))

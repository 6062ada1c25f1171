"""What can be looked at closely, and its columns: one value a night, all of the same nights."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.actions.patterns.columns import candidates, columns
from keeper.actions.readings import trackers
from keeper.errors import UnknownThing
from keeper.review.patterns.candidates import READING, RHYTHMS, Candidate
from keeper.store import Store

Column = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Askable:
    """Marks (of the readings first; then themes, people and moves), and readings of all other forms."""

    marks: tuple[Candidate, ...]
    readings: tuple[Candidate, ...]

    @property
    def marks_noted(self) -> tuple[Candidate, ...]:
        """The marks that are readings."""
        return tuple(one for one in self.marks if one.kind == READING)


@dataclass(frozen=True, slots=True)
class Nights:
    """By a candidate's key its values, all from the night ``first`` on and of the same nights; None where nothing was noted."""

    first: date
    values: dict[str, Column]

    def night(self, number: int) -> date:
        """The night of a place in a column."""
        return self.first + timedelta(days=number)


def what_can_be_asked(store: Store) -> Askable:
    """In the person's order."""
    its = [one for one in candidates(store) if one.kind not in RHYTHMS]
    return Askable(tuple(one for one in its if one.is_mark), tuple(one for one in its if not one.is_mark))


def known(store: Store, *keys: str) -> tuple[Candidate, ...]:
    """The candidates with these keys. Raises UnknownThing."""
    there = {one.key: one for one in candidates(store)}
    if not all(key in there for key in keys):
        raise UnknownThing("What is asked of is no longer there.")
    return tuple(there[key] for key in keys)


def named(among: Sequence[Candidate], name: str) -> Candidate:
    """The candidate of this name; how it begins will do. Raises UnknownThing, saying which there are."""
    return trackers.named(among, name, "mark" if all(one.is_mark for one in among) else "reading")


def nights_of(store: Store, its: Sequence[Candidate]) -> Nights:
    """Their columns; of one that was never noted every value is None."""
    found = columns(store, its)
    many = len(next(iter(found.values.values()), ()))
    return Nights(found.first, {one.key: found.values.get(one.key, (None,) * many) for one in its})

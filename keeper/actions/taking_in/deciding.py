"""What becomes of what a file brings: new, there already, more of the same night, or other than what is there."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from keeper.actions.taking_in.understanding import Item
from keeper.model import Reading
from keeper.store import Store, lines
from keeper.store.folding import bare
from keeper.store.places import named
from keeper.store.taking_in import many
from keeper.store.taking_in.many import ComingLine

NEW, THERE, MORE, OTHER = "new", "there", "more", "other"

AT_ONCE = 2000
"""So many rows are decided, and written, at a time."""


@dataclass(frozen=True, slots=True)
class Decided:
    """One thing of a file: ``what`` comes, its outcome, and the words of what is there where that is OTHER."""

    item: Item
    what: ComingLine | Reading | str
    outcome: str
    there: str = ""


@dataclass
class Decisions:
    """Decides, batch by batch, by what the keeper holds and what the file has brought before."""

    store: Store
    _outcomes: dict[int, str] = field(default_factory=dict)
    _seen: set[tuple[int, int]] = field(default_factory=set)
    _noted: dict[tuple[str, date], float] = field(default_factory=dict)
    _spent: dict[date, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._names = {place_id: bare(name) for name, place_id in named.names(self.store)}
        # Words that are being typed are words of the person, too.
        self._drafts = {(one.night, one.kind): one.text.strip() for one in lines.drafts(self.store)}

    def batch(self, items: Sequence[Item]) -> list[Decided]:
        """What becomes of all that some rows bring, in their order."""
        return [*self._lines(items), *self._places(items), *self._readings(items)]

    def _lines(self, items: Sequence[Item]) -> list[Decided]:
        coming = [(item, line) for item in items for line in item.lines]
        numbers = [line.number for _, line in coming]
        there = many.texts_at(self.store, numbers)
        # Only of nights that have a line already can it be an earlier wording.
        reworded = many.earlier_at(self.store, [line.night for _, line in coming if line.number in there])
        return [self._line(item, line, there, reworded) for item, line in coming]

    def _line(self, item: Item, line: ComingLine, there: dict[int, str], reworded: dict) -> Decided:
        number = line.number
        if (number, hash(line.text)) in self._seen:
            return Decided(item, line, THERE)
        if before := self._outcomes.get(number):
            self._seen.add((number, hash(line.text)))
            return Decided(item, line, OTHER if before == OTHER else MORE, there.get(number, ""))
        words = self._drafts.get((line.night, line.kind)) or there.get(number, "")
        if not words:
            outcome = NEW
        elif holds(words, line.text) or line.text in reworded.get((line.night.isoformat(), line.kind), ()):
            return Decided(item, line, THERE)
        else:
            outcome = OTHER
        self._outcomes[number] = outcome
        self._seen.add((number, hash(line.text)))
        return Decided(item, line, outcome, words)

    def _places(self, items: Sequence[Item]) -> list[Decided]:
        placed = [item for item in items if item.place]
        there = many.places_at(self.store, [item.night for item in placed]) if placed else {}
        return [self._place(item, *there.get(item.night, ("", ""))) for item in placed]

    def _place(self, item: Item, place_id: str, source: str) -> Decided:
        name, wanted = self._names.get(place_id, ""), bare(item.place)
        known = self._spent.get(item.night) or (name if source == "said" else "")
        self._spent.setdefault(item.night, known or wanted)
        if known == wanted:
            return Decided(item, item.place, THERE)
        return Decided(item, item.place, OTHER if known else NEW, known)

    def _readings(self, items: Sequence[Item]) -> list[Decided]:
        noted = [(item, one) for item in items for one in item.readings]
        there = many.readings_at(self.store, [item.night for item, _ in noted]) if noted else {}
        found = []
        for item, one in noted:
            key = (one.tracker_id, one.night)
            value = self._noted.get(key, there.get(key))
            self._noted.setdefault(key, one.value)
            outcome = NEW if value is None else THERE if value == one.value else OTHER
            found.append(Decided(item, one, outcome, "" if value is None else f"{value:g}"))
        return found


def holds(there: str, coming: str) -> bool:
    """Whether words that are there have those that come as rows of their own: they were added before."""
    return f"\n{coming}\n" in f"\n{there}\n"

"""What narrows a search, as conditions on rows of line and night: places, people, weekdays, what rests and so on."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.model.found import Person
from keeper.store import people
from keeper.store.file.opening import Store
from keeper.store.finding.in_themes import OF_THEMES
from keeper.store.folding import any_named
from keeper.store.moments import NUMBERS_A_NIGHT
from keeper.store.resting import LINE_AWAKE

if TYPE_CHECKING:
    from keeper.store.search import Sought


@dataclass(frozen=True, slots=True)
class Within:
    """A reading between two values, both included, in the unit it is noted in."""

    tracker_id: str
    low: float
    high: float


# Which weekday a line's number falls on: nights are numbered from a Monday, the first day of year 1.
_WEEKDAY = f"({{number}} / {NUMBERS_A_NIGHT} + 6) % 7"
_PHOTO = (
    "(night.photo_id IS NOT NULL OR EXISTS (SELECT 1 FROM night_photo WHERE night_photo.night = night.date))"
)
_READING = (
    "EXISTS (SELECT 1 FROM reading WHERE reading.tracker_id = :{0} AND reading.night = night.date "
    "AND reading.value BETWEEN :{0}_low AND :{0}_high)"
)
_NAMED = "{number} IN (SELECT rowid FROM line_words WHERE line_words MATCH :{name})"


@dataclass
class Conditions:
    """What each row must meet; ``number`` is how a line's number is called there."""

    store: Store
    number: str
    all: list[str]
    values: dict

    def narrow(self, sought: "Sought") -> None:
        """Add all that narrows a search, but for its words and its nights."""
        if sought.kinds:
            of_kinds = f"SELECT kind.number FROM kind WHERE kind.key IN ({self._marks('kind', sought.kinds)})"
            self.all.append(f"{self.number} % {NUMBERS_A_NIGHT} IN ({of_kinds})")
        self._one_of("night.place_id", "place", sought.places)
        self._one_of(_WEEKDAY, "weekday", sought.weekdays)
        self._one_of("CAST(substr(line.night, 6, 2) AS INTEGER)", "month", sought.months)
        if sought.themes:
            # What lies within a theme has a number that no theme has.
            wanted = self._marks("theme", sought.themes)
            self.all.append(
                f"line.id IN (SELECT line_id FROM {OF_THEMES} WHERE theme IN ({wanted}) UNION ALL SELECT line_id FROM theme_part_line "
                f"JOIN theme_part ON number = part JOIN theme_line USING (line_id) WHERE part IN ({wanted}) "
                "AND theme_line.theme = theme_part.theme)"
            )
        if sought.photo:
            self.all.append(_PHOTO)
        for place, one in enumerate(sought.readings):
            self._reading(f"reading{place}", one)
        for place, one in enumerate(sought.people):
            self._person(f"person{place}", people.by_id(self.store, one))
        if sought.resting is not None:
            self._resting(sought.resting)

    def _one_of(self, what: str, name: str, values: Sequence) -> None:
        if values:
            self.all.append(f"{what.format(number=self.number)} IN ({self._marks(name, values)})")

    def _marks(self, name: str, values: Iterable) -> str:
        named = {f"{name}{place}": value for place, value in enumerate(values)}
        self.values.update(named)
        return ", ".join(f":{one}" for one in named)

    def _reading(self, name: str, one: Within) -> None:
        self.all.append(_READING.format(name))
        self.values.update({name: one.tracker_id, f"{name}_low": one.low, f"{name}_high": one.high})

    def _person(self, name: str, person: Person | None) -> None:
        if person is None or not person.names:
            # Of who is marked no more there is no line.
            self.all.append("0")
            return
        self.all.append(_NAMED.format(number=self.number, name=name))
        self.values[name] = any_named(person.names)
        self._capitals(name, person.names)

    def _capitals(self, name: str, spellings: Sequence[str]) -> None:
        """A name that begins with a capital is met with one: the index of words takes no heed of it."""
        firsts = [spelt.split()[0] for spelt in spellings]
        if all(first[0].isupper() for first in firsts):
            ways = dict.fromkeys(way for first in firsts for way in (first, first.upper()))
            spelt = {f"{name}_{place}": way for place, way in enumerate(ways)}
            self.all.append(f"({' OR '.join(f'instr(line.text, :{one})' for one in spelt)})")
            self.values.update(spelt)

    def _resting(self, rests: bool) -> None:
        names = people.resting_names(self.store)
        awake = LINE_AWAKE
        if names:
            awake = f"({awake} AND NOT {_NAMED.format(number=self.number, name='resters')})"
            self.values["resters"] = any_named(names)
        self.all.append(f"NOT {awake}" if rests else awake)

"""What of a keeper is to be given."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

PARTS = ("database", "text", "tables", "json", "calendar", "globe", "photos")
"""What an archive may hold, in the order in which it is told of."""


@dataclass(frozen=True, slots=True)
class ToGive:
    """The parts, the span of nights (None: from the first, to the last), and whether what rests and where it was are given.

    Without ``positions`` no coordinates are in any part; names of places are.
    """

    parts: frozenset[str] = frozenset(PARTS)
    first: date | None = None
    last: date | None = None
    resting: bool = True
    positions: bool = True

    @property
    def all_nights(self) -> bool:
        """Whether every night is wanted, with all that is kept of it."""
        return self.first is None and self.last is None and self.resting

    @property
    def whole(self) -> bool:
        """Whether nothing is held back; only then the database can be in it, since that holds everything."""
        return self.all_nights and self.positions

    def within(self, night: date) -> bool:
        """Whether a night lies in the span."""
        return (self.first is None or self.first <= night) and (self.last is None or night <= self.last)


@dataclass(frozen=True, slots=True)
class Held:
    """Why a part that was wanted is not in the archive, or not as it is kept: a sentence."""

    part: str
    sentence: str


def held_back(wanted: ToGive) -> tuple[Held, ...]:
    """The parts that are wanted and cannot be given so."""
    found = []
    if "database" in wanted.parts and not wanted.whole:
        found.append(Held("database", "The database is left out: it holds everything, and something is to be held back."))
    if "globe" in wanted.parts and not wanted.positions:
        found.append(Held("globe", "Stays and journeys are left out: they are positions."))
    return tuple(found)


def given_parts(wanted: ToGive) -> frozenset[str]:
    """The parts that will be in the archive."""
    return wanted.parts - {held.part for held in held_back(wanted)}


def free_place(folder: Path, today: date, ending: str = "") -> Path:
    """Where a new archive lies in a folder: named by the day, and by a number where there is one of that day; ``ending`` is a file's."""
    name, number = f"keeper {today.isoformat()}", 1
    place = folder / f"{name}{ending}"
    while place.exists() or place.is_symlink():
        number += 1
        place = folder / f"{name} ({number}){ending}"
    return place

"""What may stand in the columns of the sheet: kinds of lines, the place, readings."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from keeper import settings
from keeper.actions.reading import every_kind
from keeper.model import LineKind, Tracker
from keeper.store import Store, trackers

SETTING = "sheet_columns"
"""Under which it is remembered which columns the person picked, in their order."""

PLACE = "place"
_BETWEEN = "|"


@dataclass(frozen=True, slots=True)
class Column:
    """A column: of a kind of line, of the place where there is neither kind nor tracker, or of a reading."""

    key: str
    title: str
    kind: LineKind | None = None
    tracker: Tracker | None = None

    @property
    def sort(self) -> str:
        """One of "line", "place" and "reading"."""
        return "line" if self.kind else "reading" if self.tracker else "place"

    def open_on(self, night: date) -> bool:
        """Whether its cell of a night can be filled in. A line may be of any night: paper asks for nothing."""
        return self.tracker is None or self.tracker.in_force(night)


def every(store: Store) -> tuple[Column, ...]:
    """All columns there can be, in the order they begin with: lines, the place, readings."""
    lines = [Column(f"line:{one.key}", one.title, kind=one) for one in every_kind(store)]
    noted = [Column(f"reading:{one.id}", one.name, tracker=one) for one in trackers.every(store)]
    return (*lines, Column(PLACE, "Place"), *noted)


def picked(kept: Mapping[str, str]) -> tuple[str, ...]:
    """The keys of the columns that the person picked, in their order; none where they never did."""
    return tuple(key for key in settings.read(kept, SETTING).split(_BETWEEN) if key)


def as_setting(keys: Iterable[str]) -> str:
    """How a choice of columns is kept."""
    return _BETWEEN.join(keys)


def of_span(columns: Sequence[Column], keys: Sequence[str], nights: Sequence[date], noted: frozenset[str]) -> tuple[Column, ...]:
    """Those of a span's columns that are shown: the ones picked, else all that are in force in it or ``noted``.

    A reading that was not in force on any of the nights has nothing to be typed
    in, picked or not.
    """
    known = {one.key: one for one in columns}
    wanted = [known[key] for key in keys if key in known] if keys else [one for one in columns if _asked(one, nights, noted)]
    return tuple(one for one in wanted if one.key in noted or any(map(one.open_on, nights)))


def _asked(column: Column, nights: Sequence[date], noted: frozenset[str]) -> bool:
    return column.kind is None or column.key in noted or any(map(column.kind.asked_on, nights))

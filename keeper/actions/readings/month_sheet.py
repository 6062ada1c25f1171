"""The sheet of readings: one month as a grid, nights down and trackers across."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from keeper.actions import drafts
from keeper.actions.readings import noting, wording
from keeper.clock import Clock
from keeper.dates.written import shortest
from keeper.days import first_of_month, last_of_month
from keeper.days import nights as every_night
from keeper.model import Reading, Tracker
from keeper.store import Store, drafts_of, nights, trackers

DRAFT = "reading"
"""What the drafts of cells are for."""

Cell = tuple[date, str]
"""A night, and the id of a tracker."""


@dataclass(frozen=True, slots=True)
class ReadingsSheet:
    """A month's readings; ``kept`` are nights of which anything is kept, ``drafts`` texts that were never kept."""

    month: date
    nights: tuple[date, ...]
    trackers: tuple[Tracker, ...]
    readings: Mapping[Cell, Reading]
    kept: frozenset[date]
    drafts: Mapping[Cell, str]


def sheet_of(store: Store, month: date) -> ReadingsSheet:
    """The sheet of a month: the trackers in force on any of its nights, and those noted nevertheless."""
    first, last = first_of_month(month), last_of_month(month)
    span = tuple(every_night(first, last))
    noted = {(one.night, one.tracker_id): one for one in trackers.readings(store, first, last)}
    its = {tracker_id for _, tracker_id in noted}
    shown = tuple(one for one in trackers.every(store) if one.id in its or any(map(one.in_force, span)))
    kept = nights.with_lines(store, first, last) | {night for night, _ in noted}
    waiting = {cell: text for ref, text in drafts_of.every(store, DRAFT).items() if (cell := _cell(ref))}
    return ReadingsSheet(first, span, shown, noted, frozenset(kept), {one: waiting[one] for one in waiting if one[0] in span})


def ref(cell: Cell) -> str:
    """By what a cell's draft goes."""
    return f"{cell[0].isoformat()} {cell[1]}"


def _cell(ref_: str) -> Cell | None:
    night, _, tracker_id = ref_.partition(" ")
    try:
        return date.fromisoformat(night), tracker_id
    except ValueError:
        return None


def fill_in(store: Store, cell: Cell, typed: str, clock: Clock) -> None:
    """Keep what was typed in a cell; empty, it is not noted. Its draft goes with that.

    Raises UnreadableReading, saying what can be typed; UnknownThing.
    """
    night, tracker_id = cell
    drafts.keeping(store, DRAFT, ref(cell), lambda: noting.note_all(store, {tracker_id: typed}, night, clock))


def in_cell(tracker: Tracker, reading: Reading | None) -> str:
    """A reading as it could be typed again; "" for not noted."""
    if reading is None:
        return ""
    if tracker.form == "mark":
        return "yes" if reading.value else "no"
    if tracker.form == "hours":
        return f"{reading.first}-{reading.until}" if reading.first and reading.until else wording.clock(reading.value)
    other = f" {reading.unit}" if reading.unit and reading.unit != tracker.unit else ""
    return shortest(reading.value, 6) + other


def told(sheet: ReadingsSheet, tracker: Tracker, night: date) -> str:
    """A cell in words, such as "mood 7"; an empty mark of a night that was kept is a no."""
    reading = sheet.readings.get((night, tracker.id))
    if reading is None and tracker.form == "mark" and night in sheet.kept and tracker.in_force(night):
        return f"{tracker.name} {wording.LEFT_EMPTY}"
    return wording.told(tracker, reading)

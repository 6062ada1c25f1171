"""A reading as it stands in a cell, and as it is told."""

from keeper.actions.readings import wording
from keeper.dates.written import shortest
from keeper.model import Reading, Tracker


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


def told(tracker: Tracker, reading: Reading | None, left_empty: bool) -> str:
    """A reading in words, such as "mood 7"; a mark ``left_empty`` on a night that was kept is a no."""
    if reading is None and left_empty:
        return f"{tracker.name} {wording.LEFT_EMPTY}"
    return wording.told(tracker, reading)

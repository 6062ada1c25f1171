"""A cell in words."""

from datetime import date

from keeper.actions.sheet import reading_cells
from keeper.actions.sheet.columns import Column
from keeper.model import Reading
from keeper.window.desk import wording


def told(
    column: Column, night: date, text: str, typing: bool, reading: Reading | None, left_empty: bool, carried: str
) -> str:
    """What stands in a cell; a line at length."""
    if column.sort == "line":
        return f"{column.title}: {' '.join(text.split())}" if text else f"{column.title}, nothing written"
    if column.sort == "place":
        return f"at {text}" if text else f"at {carried}, carried on" if carried else "place not said"
    return _reading(column, night, text, typing, reading, left_empty)


def _reading(column: Column, night: date, text: str, typing: bool, reading: Reading | None, left_empty: bool) -> str:
    tracker = column.tracker
    if not tracker.in_force(night):
        ends = f"begins on {wording.shorter_date(tracker.began)}" if night < tracker.began else "has ended"
        return f"{tracker.name} {ends}"
    # What is wrong in it is no reading yet.
    return f"{tracker.name} {text}" if typing else reading_cells.told(tracker, reading, left_empty)

"""Many cells at once: pasted from a table, copied, filled down, cleared."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import QApplication

from keeper.actions.sheet.asking import Cell
from keeper.actions.sheet.table import read_table, write_table
from keeper.window.desk import wording

if TYPE_CHECKING:
    from keeper.window.sheet.grid import Grid


def _selected(grid: "Grid") -> list[QModelIndex]:
    found = grid.selectionModel().selectedIndexes() or [grid.currentIndex()]
    return sorted((one for one in found if one.isValid()), key=lambda one: (one.row(), one.column()))


def open_cells(grid: "Grid") -> list[Cell]:
    """The cells selected that can be filled in."""
    return [grid.cells.cell(one) for one in _selected(grid) if grid.cells.open(one)]


def copy(grid: "Grid") -> None:
    """Put the cells selected on the clipboard, as a spreadsheet takes them."""
    rows: dict[int, list[str]] = {}
    for one in _selected(grid):
        rows.setdefault(one.row(), []).append(grid.cells.text(one))
    QApplication.clipboard().setText(write_table(rows.values()))


def filled_down(grid: "Grid") -> dict[Cell, str]:
    """What each cell selected would hold if it were as the topmost of its column; of a single row, as the one above."""
    chosen, model = _selected(grid), grid.cells
    top = min((one.row() for one in chosen), default=0)
    if all(one.row() == top for one in chosen):
        top -= 1
    if top < 0:
        return {}
    below = (one for one in chosen if one.row() > top and model.open(one))
    return {model.cell(one): text for one in below if (text := model.text(model.index(top, one.column())))}


def pasted(grid: "Grid") -> tuple[dict[Cell, str], str]:
    """What each cell would hold if the clipboard were laid on the sheet from the current cell on, and what has no room.

    Empty cells of what is pasted leave what is there. A single one is laid on
    all cells selected.
    """
    table, model, at = read_table(QApplication.clipboard().text()), grid.cells, grid.currentIndex()
    if len(table) == 1 and len(table[0]) == 1:
        return dict.fromkeys(open_cells(grid), table[0][0]), ""
    at = _selected(grid)[0]
    cells, outside = {}, 0
    for down, row in enumerate(table):
        for across, text in enumerate(row):
            if not text.strip():
                continue
            index = model.index(at.row() + down, at.column() + across)
            if index.isValid() and model.open(index):
                cells[model.cell(index)] = text
            else:
                outside += 1
    return cells, f"{wording.counted(outside, 'cell')} had no room on the sheet, and stayed on the clipboard." if outside else ""

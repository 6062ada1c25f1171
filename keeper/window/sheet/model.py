"""The cells of the sheet: what is kept of each, and what was typed and is not kept."""

from datetime import date
from typing import NamedTuple

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from keeper.actions.sheet.asking import PLACE_DRAFT, READING_DRAFT, Cell, Sheet
from keeper.actions.sheet.columns import Column
from keeper.model import Place
from keeper.window.desk import wording
from keeper.window.desk.words import Words
from keeper.window.sheet import telling

Index = QModelIndex | QPersistentModelIndex

_LINE = "line on paper"

LEFT_BEHIND = "This was typed and never kept."

_SEEN = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
_TYPED_IN = _SEEN | Qt.ItemFlag.ItemIsEditable

_TOLD = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole)


class CellSeen(NamedTuple):
    """What is to be drawn of a cell.

    ``carried`` is the place carried on where none is said; ``left_empty`` a
    mark that was not noted on a night that was kept, which is a no; ``wrong``
    a text that could not be kept.
    """

    sort: str
    text: str
    carried: str
    open: bool
    is_mark: bool
    left_empty: bool
    wrong: bool


class SheetModel(QAbstractTableModel):
    """Nights down, columns across. ``wrong`` says of a cell why its text is not kept.

    ``places`` are those to choose from, each after its name with capitals and
    accents left aside.
    """

    def __init__(self, words: Words) -> None:
        super().__init__()
        self._words = words
        self.sheet: Sheet | None = None
        self.last = date.max
        self.wrong: dict[Cell, str] = {}
        self.places: tuple[tuple[str, Place], ...] = ()
        self._rows: dict[date, int] = {}
        self._columns: dict[str, int] = {}

    def show(self, sheet: Sheet, last: date) -> None:
        """Show a sheet up to the latest night that can be filled in; what is being typed stays."""
        before = self.sheet
        if before and (before.first, before.last, before.columns, self.last) == (sheet.first, sheet.last, sheet.columns, last):
            self.sheet = sheet
            # Only what is another now: drawing all of it anew would take longer than a key may.
            for cell in _others(before, sheet):
                self._take_up(cell, anew=False)
                self.touched(cell)
            return
        self.beginResetModel()
        self.sheet, self.last = sheet, last
        self._rows = {night: row for row, night in enumerate(sheet.nights)}
        self._columns = {one.key: number for number, one in enumerate(sheet.columns)}
        for night in sheet.nights:
            for column in sheet.columns:
                self._take_up((night, column.key), anew=True)
        self.endResetModel()

    def _take_up(self, cell: Cell, anew: bool) -> None:
        draft = self.sheet.drafts.get(cell)
        self._words.shown(key(cell), self.sheet.kept.get(cell, ""), draft, anew)
        if draft and self._words.state(key(cell)) == "found":
            self.wrong.setdefault(cell, LEFT_BEHIND)

    # where things are

    def cell(self, index: Index) -> Cell:
        """The night and the column's key of a cell."""
        return self.sheet.nights[index.row()], self.sheet.columns[index.column()].key

    def column(self, index: Index) -> Column:
        """The column of a cell."""
        return self.sheet.columns[index.column()]

    def text(self, index: Index) -> str:
        """What stands in a cell: typed, else kept; "" for nothing."""
        return self._words.typed_in(key(self.cell(index)))

    def seen(self, row: int, column: int) -> CellSeen:
        """What is to be drawn of a cell; asked of hundreds at a time."""
        sheet = self.sheet
        night, of = sheet.nights[row], sheet.columns[column]
        cell = night, of.key
        text = self._words.typed_in(key(cell))
        is_mark = of.tracker is not None and of.tracker.form == "mark"
        left_empty = is_mark and not text and night in sheet.kept_nights and of.open_on(night)
        carried = sheet.carried.get(night, "") if of.sort == "place" and night <= self.last else ""
        return CellSeen(of.sort, text, carried, night <= self.last and of.open_on(night), is_mark, left_empty, cell in self.wrong)

    def open(self, index: Index) -> bool:
        """Whether a cell can be filled in."""
        night = self.sheet.nights[index.row()]
        return night <= self.last and self.column(index).open_on(night)

    def is_mark(self, index: Index) -> bool:
        """Whether a cell holds a yes or a no."""
        tracker = self.column(index).tracker
        return tracker is not None and tracker.form == "mark"

    def told(self, index: Index) -> str:
        """A cell in words, with its night."""
        night, column = self.cell(index)[0], self.column(index)
        typing = self._words.state(key(self.cell(index))) == "typing"
        reading = self.sheet.readings.get((night, column.key))
        seen = self.seen(index.row(), index.column())
        said = telling.told(column, night, seen.text, typing, reading, seen.left_empty, seen.carried)
        wrong = self.wrong.get((night, column.key))
        return f"{wording.weekday_and_day(night)} \u00b7 {said}{f'. {wrong}' if wrong else ''}"

    def place(self, cell: Cell) -> QModelIndex | None:
        """Where a cell is; None where it is not of what is shown."""
        row, column = self._rows.get(cell[0]), self._columns.get(cell[1])
        return None if row is None or column is None else self.index(row, column)

    def touched(self, cell: Cell) -> None:
        """A cell is to be drawn anew, if it is of what is shown."""
        at = self.place(cell)
        if at is not None:
            self.dataChanged.emit(at, at)

    # what Qt asks

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() or self.sheet is None else len(self.sheet.nights)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() or self.sheet is None else len(self.sheet.columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self.text(index)
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return self.told(index)
        return None

    def headerData(self, section: int, way: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if self.sheet is None or role not in _TOLD:
            return None
        if way == Qt.Orientation.Vertical:
            night = self.sheet.nights[section]
            return wording.day_of_week(night) if role == Qt.ItemDataRole.DisplayRole else wording.long_date(night)
        column = self.sheet.columns[section]
        whole = role != Qt.ItemDataRole.DisplayRole and column.tracker and column.tracker.unit
        return f"{column.title}, {column.tracker.unit}" if whole else column.title

    def flags(self, index: Index) -> Qt.ItemFlag:
        return _TYPED_IN if index.isValid() and self.open(index) else _SEEN


def _others(before: Sheet, now: Sheet) -> set[Cell]:
    """The cells in which two sheets of the same span differ."""
    turned = before.kept_nights ^ now.kept_nights
    marks = [one.key for one in now.columns if one.tracker and one.tracker.form == "mark"]
    cells = {(night, mark) for night in turned for mark in marks}
    for was, is_now in ((before.kept, now.kept), (before.drafts, now.drafts)):
        cells |= {cell for cell in was.keys() | is_now.keys() if was.get(cell) != is_now.get(cell)}
    carried = before.carried.keys() | now.carried.keys()
    cells |= {(night, "place") for night in carried if before.carried.get(night) != now.carried.get(night)}
    known = {one.key for one in now.columns}
    return {cell for cell in cells if cell[1] in known}


def key(cell: Cell) -> tuple[str, str]:
    """What a cell's words are for, and of which one."""
    night, (sort, _, which) = cell[0].isoformat(), cell[1].partition(":")
    if not which:
        return PLACE_DRAFT, night
    return (_LINE if sort == "line" else READING_DRAFT), f"{night} {which}"


def kind_of(cell: Cell) -> str:
    """The kind of line of a cell; "" where it is of something else."""
    return cell[1].removeprefix("line:") if cell[1].startswith("line:") else ""

"""The cells of the sheet: what is kept of each, and what was typed and is not kept."""

from datetime import date

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from keeper.actions.readings import month_sheet
from keeper.actions.readings.month_sheet import Cell, ReadingsSheet
from keeper.model import Tracker
from keeper.window.desk import wording
from keeper.window.desk.words import Words

Index = QModelIndex | QPersistentModelIndex

LEFT_BEHIND = "This was typed and never kept."


_SEEN = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
_TYPED_IN = _SEEN | Qt.ItemFlag.ItemIsEditable


_TOLD = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole)


class SheetModel(QAbstractTableModel):
    """A month's cells, nights down and trackers across. ``wrong`` says of a cell why its text is not kept."""

    def __init__(self, words: Words) -> None:
        super().__init__()
        self._words = words
        self.sheet: ReadingsSheet | None = None
        self.last = date.max
        self.wrong: dict[Cell, str] = {}

    def show(self, sheet: ReadingsSheet, last: date) -> None:
        """Show a month up to the latest night that can be filled in; what is being typed stays."""
        before = self.sheet
        if before and (before.month, before.trackers, self.last) == (sheet.month, sheet.trackers, last):
            self.sheet = sheet
            # Only what is another now: drawing all of it anew would take longer than a key may.
            for cell in _others(before, sheet):
                self._take_up(cell, anew=False)
                self.touched(cell)
            return
        self.beginResetModel()
        self.sheet, self.last = sheet, last
        for night in sheet.nights:
            for tracker in sheet.trackers:
                self._take_up((night, tracker.id), anew=True)
        self.endResetModel()

    def _take_up(self, cell: Cell, anew: bool) -> None:
        tracker = next(one for one in self.sheet.trackers if one.id == cell[1])
        kept, draft = month_sheet.in_cell(tracker, self.sheet.readings.get(cell)), self.sheet.drafts.get(cell)
        self._words.shown(key(cell), kept, draft, anew)
        if draft and self._words.state(key(cell)) == "found":
            self.wrong.setdefault(cell, LEFT_BEHIND)

    # where things are

    def cell(self, index: Index) -> Cell:
        """The night and the tracker's id of a cell."""
        return self.sheet.nights[index.row()], self.sheet.trackers[index.column()].id

    def tracker(self, index: Index) -> Tracker:
        """The tracker of a cell's column."""
        return self.sheet.trackers[index.column()]

    def text(self, index: Index) -> str:
        """What stands in a cell: typed, else kept; "" for not noted."""
        return self._words.typed_in(key(self.cell(index)))

    def open(self, index: Index) -> bool:
        """Whether a cell can be filled in."""
        night = self.sheet.nights[index.row()]
        return night <= self.last and self.tracker(index).in_force(night)

    def is_wrong(self, index: Index) -> bool:
        """Whether a cell holds a text that could not be kept."""
        return bool(self.wrong) and self.cell(index) in self.wrong

    def left_empty(self, index: Index) -> bool:
        """Whether a cell is a mark that was not noted on a night that was kept: that is a no."""
        night, tracker = self.sheet.nights[index.row()], self.tracker(index)
        return tracker.form == "mark" and not self.text(index) and night in self.sheet.kept and tracker.in_force(night)

    def told(self, index: Index) -> str:
        """A cell in words, with its night."""
        night, tracker = self.sheet.nights[index.row()], self.tracker(index)
        when, wrong = wording.weekday_and_day(night), self.wrong.get((night, tracker.id))
        if wrong:
            return f"{when} \u00b7 {tracker.name}: {self.text(index)}. {wrong}"
        if not tracker.in_force(night):
            ends = f"begins on {wording.shorter_date(tracker.began)}" if night < tracker.began else "has ended"
            return f"{when} \u00b7 {tracker.name} {ends}"
        if self._words.state(key((night, tracker.id))) == "typing":
            return f"{when} \u00b7 {tracker.name} {self.text(index)}"
        return f"{when} \u00b7 {month_sheet.told(self.sheet, tracker, night)}"

    def place(self, cell: Cell) -> QModelIndex | None:
        """Where a cell is; None where it is not of what is shown."""
        ids = [one.id for one in self.sheet.trackers] if self.sheet else []
        if not ids or cell[0] not in self.sheet.nights or cell[1] not in ids:
            return None
        return self.index(self.sheet.nights.index(cell[0]), ids.index(cell[1]))

    def touched(self, cell: Cell) -> None:
        """A cell is to be drawn anew, if it is of the month shown."""
        at = self.place(cell)
        if at is not None:
            self.dataChanged.emit(at, at)

    # what Qt asks

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() or self.sheet is None else len(self.sheet.nights)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() or self.sheet is None else len(self.sheet.trackers)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self.text(index)
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return self.told(index)
        return None

    def headerData(self, section: int, way: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if self.sheet is None:
            return None
        if role not in _TOLD:
            return None
        if way == Qt.Orientation.Vertical:
            night = self.sheet.nights[section]
            return wording.day_of_week(night) if role == Qt.ItemDataRole.DisplayRole else wording.long_date(night)
        tracker = self.sheet.trackers[section]
        whole = role != Qt.ItemDataRole.DisplayRole and tracker.unit
        return f"{tracker.name}, {tracker.unit}" if whole else tracker.name

    def flags(self, index: Index) -> Qt.ItemFlag:
        return _TYPED_IN if index.isValid() and self.open(index) else _SEEN


def _others(before: ReadingsSheet, now: ReadingsSheet) -> set[Cell]:
    """The cells of a month in which two sheets of it differ."""
    turned = before.kept ^ now.kept
    marks = [one.id for one in now.trackers if one.form == "mark"]
    cells = {(night, tracker_id) for night in turned for tracker_id in marks}
    for was, is_now in ((before.readings, now.readings), (before.drafts, now.drafts)):
        cells |= {cell for cell in was.keys() | is_now.keys() if was.get(cell) != is_now.get(cell)}
    known = {one.id for one in now.trackers}
    return {cell for cell in cells if cell[1] in known}


def key(cell: Cell) -> tuple[str, str]:
    """Under which the desk knows a cell's words."""
    return (month_sheet.DRAFT, month_sheet.ref(cell))

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
        same = self.sheet is not None and (self.sheet.month, self.sheet.trackers) == (sheet.month, sheet.trackers)
        if not same:
            self.beginResetModel()
        self.sheet, self.last = sheet, last
        for row, night in enumerate(sheet.nights):
            for tracker in sheet.trackers:
                self._take_up((night, tracker.id), tracker, anew=not same)
            if same:
                self.dataChanged.emit(self.index(row, 0), self.index(row, len(sheet.trackers) - 1))
        if not same:
            self.endResetModel()

    def _take_up(self, cell: Cell, tracker: Tracker, anew: bool) -> None:
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
        if way == Qt.Orientation.Vertical:
            night = self.sheet.nights[section]
            texts = {Qt.ItemDataRole.DisplayRole: wording.day_of_week(night), Qt.ItemDataRole.AccessibleTextRole: wording.long_date(night)}
            return texts.get(role)
        tracker = self.sheet.trackers[section]
        named = f"{tracker.name}, {tracker.unit}" if tracker.unit else tracker.name
        told = (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole)
        return tracker.name if role == Qt.ItemDataRole.DisplayRole else named if role in told else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        base = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return base | Qt.ItemFlag.ItemIsEditable if index.isValid() and self.open(index) else base


def key(cell: Cell) -> tuple[str, str]:
    """Under which the desk knows a cell's words."""
    return (month_sheet.DRAFT, month_sheet.ref(cell))

"""The grid of the sheet: typed like a ruled page, with the keys alone or the mouse."""

from PySide6.QtCore import (
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRect,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from keeper.window.desk.desk import Desk
from keeper.window.sheet import many
from keeper.window.sheet.cells import CellPainter, Stretch
from keeper.window.sheet.editing import CellEditing
from keeper.window.sheet.keeping import CellKeeping
from keeper.window.sheet.model import SheetModel

Keys = Qt.Key
_ROW, _NIGHTS = 1.55, 4.4
"""Height of a row, and width of the nights, in times the text's height."""

_WIDE = {"line": 12, "place": 7.5, "reading": 4.6}
"""How wide a column is, in the same measure; those of lines share what room is left."""

_MARK_KEYS = {"y": "yes", "n": "no", "x": "yes", "1": "yes", "0": "no"}
_ARROWS = {Keys.Key_Up: (-1, 0), Keys.Key_Down: (1, 0), Keys.Key_Left: (0, -1), Keys.Key_Right: (0, 1)}
_HELD = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier


class Grid(QTableView):
    """The cells of the sheet. ``pointed`` comes with the current one."""

    pointed = Signal(QModelIndex)

    def __init__(self, desk: Desk, model: SheetModel, keeping: CellKeeping) -> None:
        super().__init__()
        self._look, self.cells, self._keeping, self._said = desk.look, model, keeping, desk.said
        self.setModel(model)
        self.painter_of_cells = CellPainter(desk.look, model)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setAccessibleName("The sheet, nights down and columns across")
        self.editing = CellEditing(desk, self, model, keeping)
        # Qt draws every cell anew where a part above them moved before they did: they go first.
        self.editing.leaving.connect(lambda *on: self.scrollTo(self._on(*on)))
        self.editing.left.connect(self._go)
        self._anchor = QPersistentModelIndex()
        self.selectionModel().currentChanged.connect(self._on_current)
        model.modelAboutToBeReset.connect(self.editing.close)
        model.modelReset.connect(self._share_room)
        self.fit()

    def fit(self) -> None:
        """Take up the palette and text size in force."""
        px = self._look.px
        self.painter_of_cells.dress()
        self.viewport().update()
        for header in (self.verticalHeader(), self.horizontalHeader()):
            header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
            header.setMinimumSectionSize(1)
            header.setHighlightSections(True)
        self.verticalHeader().setDefaultSectionSize(px(_ROW))
        self.verticalHeader().setFixedWidth(px(_NIGHTS))
        self.verticalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.horizontalHeader().setFixedHeight(px(1.8))
        self.horizontalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)
        self._share_room()
        self.editing.dress()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_room()
        if self.editing.under_way:
            self.scrollTo(self.currentIndex())
            self.editing.lay()

    def _share_room(self) -> None:
        columns = self.cells.sheet.columns if self.cells.sheet else ()
        wide = [self._look.px(_WIDE[one.sort]) for one in columns]
        lines = [number for number, one in enumerate(columns) if one.sort == "line"]
        left = self.viewport().width() - sum(wide)
        for number in lines:
            wide[number] += max(0, left) // len(lines)
        for number, width in enumerate(wide):
            if self.columnWidth(number) != width:
                self.setColumnWidth(number, width)

    def paintEvent(self, event: QPaintEvent) -> None:
        # By this, which the sheet of styles takes off again, only those rows are drawn that come into sight when it goes up
        # or down. Then nobody else draws what no cell covers.
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        picked = [QRect(QPoint(one.left(), one.top()), QPoint(one.right(), one.bottom())) for one in self.selectionModel().selection()]
        index, focused = self.currentIndex(), self.hasFocus() or self.viewport().hasFocus()
        current = (index.row(), index.column()) if focused and index.isValid() else None
        with QPainter(self.viewport()) as painter:
            for part in event.region():
                painter.fillRect(part, self.painter_of_cells.paper)
                self.painter_of_cells.paint(painter, self._rows_in(part), self._columns_in(part), picked, current)

    def _rows_in(self, part: QRect) -> list[Stretch]:
        first, last = self.rowAt(part.top()), self.rowAt(part.bottom())
        last = self.model().rowCount() - 1 if last < 0 else last
        return [Stretch(row, self.rowViewportPosition(row), self.rowHeight(row)) for row in range(first, last + 1)] if first >= 0 else []

    def _columns_in(self, part: QRect) -> list[Stretch]:
        first, last = self.columnAt(part.left()), self.columnAt(part.right())
        last = self.model().columnCount() - 1 if last < 0 else last
        return [Stretch(column, self.columnViewportPosition(column), self.columnWidth(column)) for column in range(first, last + 1)] if first >= 0 else []

    # going about

    def _on_current(self, now: QModelIndex) -> None:
        self._anchor = QPersistentModelIndex(now)
        self.pointed.emit(now)

    def _reach(self, rows: int, columns: int) -> None:
        """Pick out cells as far as so many rows and columns on; Qt would begin where a key of its own last went."""
        anchor, index = QModelIndex(self._anchor), self.currentIndex()
        on = self.model().index(index.row() + rows, index.column() + columns)
        if on.isValid() and anchor.isValid():
            self.selectionModel().setCurrentIndex(on, QItemSelectionModel.SelectionFlag.NoUpdate)
            self._anchor = QPersistentModelIndex(anchor)
            corners = (min, max)
            ends = [self.model().index(which(anchor.row(), on.row()), which(anchor.column(), on.column())) for which in corners]
            self.selectionModel().select(QItemSelection(*ends), QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self.scrollTo(on)

    def focusNextPrevChild(self, on: bool) -> bool:
        """Tab goes across, and on to the next night; from the last cell it leaves the grid."""
        return self._go_across(1 if on else -1) or super().focusNextPrevChild(on)

    def _on(self, rows: int, columns: int) -> QModelIndex:
        """The cell so many rows down, at the ends no further, or columns across, and on to the next night; none after the last."""
        index, wide, high = self.currentIndex(), self.model().columnCount(), self.model().rowCount()
        if not index.isValid():
            return index
        if not columns:
            return self.model().index(min(max(index.row() + rows, 0), high - 1), index.column())
        place = index.row() * wide + index.column() + columns
        return self.model().index(place // wide, place % wide) if 0 <= place < wide * high else QModelIndex()

    def _go_across(self, by: int) -> bool:
        at = self._on(0, by)
        if at.isValid():
            self.setCurrentIndex(at)
        return at.isValid()

    def _go(self, rows: int, columns: int) -> None:
        if columns:
            if not self._go_across(columns):
                super().focusNextPrevChild(columns > 0)
        elif (at := self._on(rows, 0)).isValid():
            self.setCurrentIndex(at)

    # typing

    def keyPressEvent(self, event: QKeyEvent) -> None:
        index = self.currentIndex()
        if event.key() in (Keys.Key_Return, Keys.Key_Enter):
            self._go(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1, 0)
        elif not index.isValid() or self._many(event):
            return
        elif event.key() in _ARROWS and event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier == Qt.KeyboardModifier.ShiftModifier:
            self._reach(*_ARROWS[event.key()])
        elif event.modifiers() & _HELD or not self.cells.open(index):
            super().keyPressEvent(event)
        elif self.cells.is_mark(index):
            self._mark(index, event)
        elif event.key() == Keys.Key_F2:
            self.editing.open(index)
        elif event.text().isprintable() and event.text().strip():
            self.editing.open(index, event.text())
        else:
            super().keyPressEvent(event)

    def _mark(self, index: QModelIndex, event: QKeyEvent) -> None:
        text = event.text().lower()
        if event.key() == Keys.Key_Space:
            self._turn(index)
        elif text in _MARK_KEYS:
            self._keeping.send(self.cells.cell(index), _MARK_KEYS[text])
        else:
            super().keyPressEvent(event)

    def _turn(self, index: QModelIndex) -> None:
        self._keeping.send(self.cells.cell(index), "no" if self.cells.text(index) == "yes" else "yes")

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        if index.isValid() and self.cells.open(index):
            if self.cells.is_mark(index):
                self._turn(index)
            else:
                self.editing.open(index)

    # many cells at once

    def _many(self, event: QKeyEvent) -> bool:
        """Whether a key is one for many cells; then it is done."""
        control = event.modifiers() == Qt.KeyboardModifier.ControlModifier
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.matches(QKeySequence.StandardKey.Copy):
            many.copy(self)
        elif control and event.key() == Keys.Key_D:
            self._send(many.filled_down(self), "Filled down")
        elif event.key() in (Keys.Key_Delete, Keys.Key_Backspace) and not event.modifiers() & _HELD:
            self._send(dict.fromkeys(many.open_cells(self), ""), "Cleared")
        else:
            return False
        return True

    def paste(self) -> None:
        """Paste a part of a table, from the current cell on."""
        cells, no_room = many.pasted(self)
        self._send(cells, "Pasted")
        if no_room:
            self._said.emit(no_room)

    def _send(self, cells: dict, told: str) -> None:
        if len(cells) == 1:
            self._keeping.send(*next(iter(cells.items())))
        elif cells:
            self._keeping.send_many(cells, told)

    # Qt would draw all cells anew each time one is typed in, and only the current one looks otherwise.

    def focusInEvent(self, event: QFocusEvent) -> None:
        self.update(self.currentIndex())

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.update(self.currentIndex())

    def updateGeometries(self) -> None:
        super().updateGeometries()
        if "editing" in self.__dict__:
            self.editing.lay()

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self.editing.lay()

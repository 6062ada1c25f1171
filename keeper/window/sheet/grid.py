"""The grid of the sheet: typed like a ruled page, with the keys alone or the mouse."""

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QLineEdit, QTableView

from keeper.window.desk.look import Look
from keeper.window.desk.timers import once_after
from keeper.window.parts.typing.field import DRAFT_AFTER
from keeper.window.sheet.cells import CellPainter
from keeper.window.sheet.keeping import CellKeeping
from keeper.window.sheet.model import SheetModel

Keys = Qt.Key
_ROW, _COLUMN, _NIGHTS = 1.55, 4.6, 4.4
"""Height of a row, width of a column and of the nights, in times the text's height."""

_MARK_KEYS = {"y": "yes", "n": "no", "x": "yes", "1": "yes", "0": "no"}
_HELD = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier


_ON = {Keys.Key_Return: (1, 0), Keys.Key_Enter: (1, 0), Keys.Key_Down: (1, 0), Keys.Key_Up: (-1, 0),
       Keys.Key_Tab: (0, 1), Keys.Key_Backtab: (0, -1)}  # fmt: skip
"""So many rows and columns on, by each key."""


class CellEdit(QLineEdit):
    """Where a cell is typed in. ``left`` comes with how many rows and columns on it goes, or None where it is given up."""

    left = Signal(object)

    def event(self, event) -> bool:
        # Tab and the arrows would go to another part of the page.
        if event.type() == event.Type.KeyPress and event.key() in (Keys.Key_Tab, Keys.Key_Backtab):
            self.keyPressEvent(event)
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _ON:
            self.left.emit(_ON[event.key()])
        elif event.key() == Keys.Key_Escape:
            self.left.emit(None)
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.left.emit((0, 0))


class Grid(QTableView):
    """A month's cells. ``pointed`` comes with the current one."""

    pointed = Signal(QModelIndex)

    def __init__(self, look: Look, model: SheetModel, keeping: CellKeeping) -> None:
        super().__init__()
        self._look, self.cells, self._keeping = look, model, keeping
        self._at: QModelIndex | None = None
        self._given_up = ""
        self.setModel(model)
        self.painter_of_cells = CellPainter(look, model)
        self.setItemDelegate(self.painter_of_cells)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setAccessibleName("Readings of the month, nights down and readings across")
        self.edit_ = CellEdit(self.viewport())
        self.edit_.setAccessibleName("What is noted")
        self.edit_.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.edit_.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.edit_.show()
        self._put_away()
        self.edit_.left.connect(self._leave_edit)
        self.edit_.textEdited.connect(self._on_typed)
        self._pause = once_after(self, DRAFT_AFTER, self._put_by)
        self.selectionModel().currentChanged.connect(lambda now, _: self.pointed.emit(now))
        model.modelAboutToBeReset.connect(self.close_edit)
        self.fit()

    def fit(self) -> None:
        """Take up the palette and text size in force."""
        px = self._look.px
        self.painter_of_cells.dress()
        self.viewport().update()
        for header, size in ((self.verticalHeader(), _ROW), (self.horizontalHeader(), _COLUMN)):
            header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
            header.setMinimumSectionSize(1)
            header.setDefaultSectionSize(px(size))
            header.setHighlightSections(True)
        self.verticalHeader().setFixedWidth(px(_NIGHTS))
        self.verticalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.horizontalHeader().setFixedHeight(px(1.8))
        self.horizontalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)

    # going about

    def focusNextPrevChild(self, on: bool) -> bool:
        """Tab goes across, and on to the next night; from the last cell it leaves the grid."""
        return self._go_across(1 if on else -1) or super().focusNextPrevChild(on)

    def _go_across(self, by: int) -> bool:
        many, index = self.model().columnCount(), self.currentIndex()
        if not many or not index.isValid():
            return False
        place = index.row() * many + index.column() + by
        if not 0 <= place < many * self.model().rowCount():
            return False
        self.setCurrentIndex(self.model().index(place // many, place % many))
        return True

    def _go(self, rows: int, columns: int) -> None:
        if columns:
            if not self._go_across(columns):
                super().focusNextPrevChild(columns > 0)
            return
        index = self.currentIndex()
        row = min(max(index.row() + rows, 0), self.model().rowCount() - 1)
        self.setCurrentIndex(self.model().index(row, index.column()))

    # typing

    def keyPressEvent(self, event: QKeyEvent) -> None:
        index, text = self.currentIndex(), event.text()
        if event.key() in (Keys.Key_Return, Keys.Key_Enter):
            self._go(1, 0)
        elif not index.isValid() or event.modifiers() & _HELD or not self.cells.open(index):
            super().keyPressEvent(event)
        elif event.key() in (Keys.Key_Delete, Keys.Key_Backspace):
            self._keeping.send(self.cells.cell(index), "")
        elif self.cells.tracker(index).form == "mark":
            self._mark(index, event)
        elif event.key() == Keys.Key_F2:
            self.open_edit(index, self.cells.text(index))
        elif text.isprintable() and text.strip():
            self.open_edit(index, text)
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
            if self.cells.tracker(index).form == "mark":
                self._turn(index)
            else:
                self.open_edit(index, self.cells.text(index))

    def open_edit(self, index: QModelIndex, text: str) -> None:
        """Type in a cell, beginning with a text."""
        self._at, self._given_up = index, self.cells.text(index)
        self.scrollTo(index)
        self.edit_.setAccessibleName(self.cells.told(index))
        self.edit_.setGeometry(self.visualRect(index))
        self.edit_.setText(text)
        self.edit_.setFocus()
        self.edit_.end(False)
        self._on_typed(text)

    def _put_away(self) -> None:
        # Out of sight, not hidden: for a part that comes or goes Qt lays out, and draws, all cells anew.
        self.edit_.move(-2 * self.edit_.width(), 0)

    @property
    def typing(self) -> bool:
        """Whether a cell is being typed in."""
        return self._at is not None

    def close_edit(self) -> None:
        """Keep what is being typed in a cell."""
        if self._at is not None:
            self._leave_edit((0, 0))

    def _on_typed(self, text: str) -> None:
        if self._at is not None:
            self._keeping.typed(self.cells.cell(self._at), text)
            self._pause.start()

    def _put_by(self) -> None:
        if self._at is not None:
            self._keeping.put_by(self.cells.cell(self._at))

    def _leave_edit(self, on: tuple[int, int] | None) -> None:
        if self._at is None:
            return
        cell, self._at = self.cells.cell(self._at), None
        self._pause.stop()
        if self.edit_.hasFocus():
            self.setFocus()
        self._put_away()
        self._keeping.send(cell, self._given_up if on is None else self.edit_.text())
        if on:
            self._go(*on)

    # Qt would draw all cells anew each time one is typed in, and only the current one looks otherwise.

    def focusInEvent(self, event: QFocusEvent) -> None:
        self.update(self.currentIndex())

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.update(self.currentIndex())

    def updateGeometries(self) -> None:
        super().updateGeometries()
        if self._at is not None:
            self.edit_.setGeometry(self.visualRect(self._at))

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        if self._at is not None:
            self.edit_.setGeometry(self.visualRect(self._at))

"""What is wrong with a text, said beside its cell."""

from PySide6.QtCore import QModelIndex, QRect
from PySide6.QtWidgets import QLabel

from keeper.actions.sheet.asking import Cell
from keeper.window.desk.early import PLAIN_TEXT, setting
from keeper.window.desk.look import Look
from keeper.window.sheet.grid import Grid
from keeper.window.sheet.model import SheetModel

_WIDE = 20


class NoteBeside(QLabel):
    """Stands beside a cell till that is mended; then beside the next such cell."""

    def __init__(self, look: Look, grid: Grid, model: SheetModel) -> None:
        super().__init__(grid.viewport())
        self._look, self._grid, self._model = look, grid, model
        self._cell: Cell | None = None
        self.setObjectName("beside")
        setting(self, PLAIN_TEXT)
        self.setWordWrap(True)
        self.hide()

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px, colours = self._look.px, self._look.palette
        self.setStyleSheet(f"background: {colours.paper}; border: 1px solid {colours.line}; padding: {px(0.3)}px;")
        self.show_again()

    def of(self, cell: Cell) -> None:
        """Speak of this cell, if something is wrong with it."""
        if cell in self._model.wrong:
            self._cell = cell

    def show_again(self) -> None:
        """Say what is wrong, where that is."""
        here = [cell for cell in self._model.wrong if self._model.place(cell) is not None]
        self._cell = self._cell if self._cell in here else next(iter(here), None)
        self.setVisible(self._cell is not None)
        if self._cell is not None:
            self.setText(self._model.wrong[self._cell])
            self._lay(self._model.place(self._cell))

    def _lay(self, index: QModelIndex) -> None:
        room, cell = self._grid.viewport().rect(), self._grid.visualRect(index)
        self.setFixedWidth(min(self._look.px(_WIDE), room.width()))
        self.setFixedHeight(self.heightForWidth(self.width()))
        beside = QRect(cell.right() + 4, cell.top(), self.width(), self.height())
        if beside.right() > room.right():
            beside.moveRight(cell.left() - 4)
        if beside.left() < 0:
            # A cell of a line may be as wide as the sheet.
            beside.moveTopLeft(cell.bottomLeft())
        typed_in = self._grid.visualRect(self._grid.currentIndex())
        if beside.intersects(typed_in):
            # Never over the cell one types in.
            beside.moveTop(typed_in.bottom() + 2)
        self.setGeometry(beside)
        self.raise_()

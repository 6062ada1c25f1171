"""Which columns stand on the sheet, and in which order."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from keeper.actions.sheet.columns import Column
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, plain_button, row

_KEY = Qt.ItemDataRole.UserRole
_ALT = Qt.KeyboardModifier.AltModifier


class ColumnList(QListWidget):
    """Columns to tick; Alt+Up and Alt+Down move one, Space ticks it."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(event.key())
        if by and event.modifiers() & _ALT:
            self.move_current(by)
        else:
            super().keyPressEvent(event)

    def move_current(self, by: int) -> None:
        """Move the current column by so many places."""
        place = self.currentRow()
        if place >= 0 and 0 <= place + by < self.count():
            item = self.takeItem(place)
            self.insertItem(place + by, item)
            self.setCurrentRow(place + by)


class ColumnsDialog(QDialog):
    """Asks for columns: ``every`` there are, those ``shown`` first, in their order. ``keys`` are those chosen."""

    def __init__(self, desk: Desk, every: Sequence[Column], shown: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Columns of the sheet")
        self.list = ColumnList()
        self.list.setProperty("told", True)
        self.list.setAccessibleName("Columns, in the order of the notebook")
        known = {one.key: one for one in every}
        order = [*(known[key] for key in shown if key in known), *(one for one in every if one.key not in shown)]
        for column in order:
            item = QListWidgetItem(column.title, self.list)
            item.setData(_KEY, column.key)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Checked if column.key in shown else Qt.CheckState.Unchecked)
        self.list.setCurrentRow(0)
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[px(1.2)] * 4)
        layout.setSpacing(px(0.6))
        layout.addWidget(label("In the order of your notebook. Space picks one, Alt with \u2191 or \u2193 moves it.", "quiet"))
        layout.addWidget(self.list)
        up, down = plain_button("Up", lambda: self.list.move_current(-1)), plain_button("Down", lambda: self.list.move_current(1))
        cancel, act = plain_button("Cancel", self.reject), plain_button("Show these", self.accept, by_enter=True)
        layout.addLayout(row(up, down, None, cancel, act))
        self.setMinimumSize(px(26), px(22))

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the columns picked, in their order."""
        items = [self.list.item(place) for place in range(self.list.count())]
        return tuple(item.data(_KEY) for item in items if item.checkState() == Qt.CheckState.Checked)

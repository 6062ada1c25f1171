"""A few words about a month, kept as they are typed."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions import months
from keeper.actions.writing import readable
from keeper.window.desk import Desk
from keeper.window.field import Field
from keeper.window.parts import label, rule

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent


class MonthWordsBox(QWidget):
    """The person's words about a month."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self._kept = ""
        self.field = Field()
        self.field.setAccessibleName("A few words about the month")
        self.field.setPlaceholderText("A few words about the month")
        self.field.read_both_ways()
        self.field.left.connect(self.keep)
        self.field.paused.connect(self.keep)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.9), 0, 0)
        layout.setSpacing(desk.look.px(0.3))
        self.title = label("In a few words", "section")
        layout.addWidget(self.title)
        layout.addWidget(self.field)
        layout.addWidget(rule())

    def dress(self) -> None:
        """Take up the typeface in force."""
        self.field.ensurePolished()
        self.field.document().setDefaultFont(self.field.font())
        self.field.fit()

    def show_words(self, month: date, words: str) -> None:
        """Show the words of a month; those being typed stay."""
        another = month != self.month
        untouched = self.field.toPlainText().strip() == self._kept
        if another or untouched:
            self.month, self._kept = month, words
            self.field.put(words)
            self.title.setVisible(bool(words))

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        # When the field has its new width, it has other rows.
        QTimer.singleShot(0, self.field, self.field.fit)

    def keep(self) -> None:
        """Keep what is typed."""
        self.field.settle()
        month, words = self.month, readable(self.field.toPlainText()).strip()
        if words != self._kept:
            self._kept = words
            self._desk.write(
                lambda store: months.write_words(store, month, words), lambda _: self._desk.changed.emit(),
                self._failed,
            )  # fmt: skip

    def _failed(self, error: Exception) -> None:
        self._kept = "\0"  # as nothing typed ever is: it will be tried again
        self._desk.said.emit(str(error))

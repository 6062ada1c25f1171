"""A few words about a month, kept as they are typed."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.writing import readable
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent


class MonthWordsBox(QWidget):
    """The person's words about a month."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self.field = Field()
        self._words = PutBy(desk, self.field, "month's words", _write)
        self.field.setAccessibleName("A few words about the month")
        self.field.setPlaceholderText("A few words about the month")
        self.field.read_both_ways()
        self.field.left.connect(self.keep)
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
        self.month = month
        self._words.show(month.isoformat()[:7], words)
        self.title.setVisible(bool(words))

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        # When the field has its new width, it has other rows.
        QTimer.singleShot(0, self.field, self.field.fit)

    def keep(self) -> None:
        """Keep what is typed."""
        self.field.settle()
        self._words.put_by()


def _write(store, month: str, words: str) -> None:
    from keeper.actions.months.shown import write_words

    write_words(store, date.fromisoformat(f"{month}-01"), readable(words))

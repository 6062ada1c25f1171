"""Choosing the question of a month: one's own, or one from the shelf."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from keeper.actions.months import shown as months
from keeper.actions.months.questions import ShelfQuestion
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label
from keeper.window.parts.typing.put_by import PutBy


class QuestionShelf(QWidget):
    """A line for the person's own question, and the shelf below. Kept as it is chosen."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self.own = QLineEdit()
        self._words = PutBy(desk, self.own, "question")
        self.own.setProperty("question", True)
        self.own.setAccessibleName("The question of the month")
        self.own.editingFinished.connect(self.keep)
        self.list = QListWidget()
        self.list.setProperty("shelf", True)
        self.list.setAccessibleName("Questions on the shelf")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.itemClicked.connect(self._take)
        self.list.itemActivated.connect(self._take)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.4))
        layout.addWidget(self.own)
        layout.addWidget(label("Or one from the shelf:", "quiet"))
        layout.addWidget(self.list, 1)
        self.list.setMinimumHeight(desk.look.px(20))
        self.setFocusProxy(self.own)

    def show_month(self, month: date, question: str) -> None:
        """Choose the question of a month."""
        self.month = month
        self._words.show(month.isoformat()[:7], question)
        self.own.setPlaceholderText(f"The question of {wording.month_and_year(month)}")
        self._desk.reader.run(lambda store, task: months.shelf(store), self._fill)

    def _fill(self, shelf: tuple[ShelfQuestion, ...]) -> None:
        at = self.list.currentRow()
        self.list.clear()
        about = ""
        for one in shelf:
            if one.about != about:
                about = one.about
                self._add_heading(about)
            self.list.addItem(self._item(one))
        self.list.setCurrentRow(at)

    def _add_heading(self, about: str) -> None:
        item = QListWidgetItem(about)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setFont(self._desk.look.sans(0.9))
        item.setForeground(self._desk.look.app.palette().placeholderText())
        self.list.addItem(item)

    def _item(self, one: ShelfQuestion) -> QListWidgetItem:
        asked = ", ".join(wording.month_and_year(month) for month in one.asked if month != self.month)
        item = QListWidgetItem(f"{one.text}   (asked in {asked})" if asked else one.text)
        item.setData(Qt.ItemDataRole.UserRole, one.text)
        if asked:
            item.setForeground(self._desk.look.app.palette().placeholderText())
        return item

    def _take(self, item: QListWidgetItem) -> None:
        text = item.data(Qt.ItemDataRole.UserRole)
        if text:
            self.own.setText(text)
            self.keep()

    def keep(self) -> None:
        """Keep the question as it stands."""
        month = self.month
        self._words.write(lambda store, question: months.ask_question(store, month, question))

"""A small dialog that asks for one thing, typed or chosen from a list."""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QLineEdit, QListWidget, QVBoxLayout, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.put_by import PutBy


class ListedEdit(QLineEdit):
    """Up and Down go through a list, if there is one, without leaving the field."""

    def __init__(self, list_: QListWidget | None) -> None:
        super().__init__()
        self._list = list_
        self.setProperty("sought", True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
        if self._list is not None and event.key() in steps and self._list.count():
            at = self._list.currentRow() + steps[event.key()]
            self._list.setCurrentRow(min(max(at, 0), self._list.count() - 1))
        else:
            super().keyPressEvent(event)


class Asking(QDialog):
    """A field, perhaps a list below it, a sentence, and two or three buttons.

    ``field``, ``act`` and ``listed`` name the field, the button that takes the
    answer and the list; without ``listed`` there is no list.
    """

    def __init__(self, desk: Desk, title: str, field: str, act: str, listed: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setWindowTitle(title)
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        self.list = self._listed(listed) if listed else None
        self.typed = ListedEdit(self.list)
        self.typed.setAccessibleName(field)
        self.typed.setPlaceholderText(field)
        self.typed.returnPressed.connect(self.take)
        self.told = label("", "quiet")
        layout.addWidget(self.typed)
        if self.list is not None:
            layout.addWidget(self.list, 1)
        layout.addWidget(self.told)
        self.leave, self.act = plain_button("Cancel", self.reject), plain_button(act, self.take)
        self.buttons = row(None, self.leave, self.act)
        layout.addLayout(self.buttons)
        self.setMinimumWidth(px(28))
        self._words: PutBy | None = None

    def put_by(self, what: str, ref: str, kept: str) -> None:
        """Begin with what is kept, or with what was typed when the window was last killed; put by what is typed."""
        self._words = PutBy(self.desk, self.typed, what)
        self._words.show(ref, kept)
        self.typed.selectAll()

    def done(self, result: int) -> None:
        super().done(result)
        if self._words:
            # After whoever asked has written the answer.
            QTimer.singleShot(0, self._words.forget)

    def _listed(self, name: str) -> QListWidget:
        made = QListWidget()
        made.setProperty("words", True)
        made.setAccessibleName(name)
        made.setMinimumSize(self.desk.look.px(32), self.desk.look.px(13))
        made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        made.itemActivated.connect(lambda _: self.take())
        return made

    def take(self) -> None:
        """Take what was typed or chosen."""
        raise NotImplementedError

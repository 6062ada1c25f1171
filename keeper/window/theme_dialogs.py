"""Deciding about themes: a name, another theme, a word. Each dialog only asks; the page does it."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QLineEdit, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.window.desk import Desk
from keeper.window.parts import label, row


class _Edit(QLineEdit):
    """Up and Down go through a list without leaving the field."""

    def __init__(self, list_: QListWidget) -> None:
        super().__init__()
        self._list = list_
        self.setProperty("sought", True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
        if event.key() in steps and self._list.count():
            at = self._list.currentRow() + steps[event.key()]
            self._list.setCurrentRow(min(max(at, 0), self._list.count() - 1))
        else:
            super().keyPressEvent(event)


class _Asking(QDialog):
    """A field, perhaps a list below it, a sentence, and two buttons."""

    def __init__(self, desk: Desk, title: str, field: str, act: str, listed: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setWindowTitle(title)
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        self.list = QListWidget()
        self.list.setProperty("words", True)
        self.list.setAccessibleName(listed or "Nothing to choose from")
        self.list.setMinimumHeight(px(13))
        self.list.setVisible(bool(listed))
        self.list.itemActivated.connect(lambda _: self.take())
        self.typed = _Edit(self.list)
        self.typed.setAccessibleName(field)
        self.typed.setPlaceholderText(field)
        self.typed.returnPressed.connect(self.take)
        self.told = label("", "quiet")
        self.leave, self.act = self._button("Leave", self.reject), self._button(act, self.take)
        for part in (self.typed, self.list, self.told):
            layout.addWidget(part)
        layout.addLayout(row(None, self.leave, self.act))
        self.setMinimumWidth(px(28))

    def _button(self, text: str, pressed: Callable[[], object]) -> QPushButton:
        made = QPushButton(text)
        made.setProperty("plain", True)
        made.setAutoDefault(False)
        made.clicked.connect(lambda: pressed())
        return made

    def take(self) -> None:
        """Take what was typed or chosen."""
        raise NotImplementedError


class NameDialog(_Asking):
    """A theme's name; ``name`` is the answer, "" for the program's own again."""

    def __init__(self, desk: Desk, name: str, parent: QWidget) -> None:
        super().__init__(desk, "Rename a theme", "The theme\u2019s name", "Rename", "", parent)
        self.name = name
        self.typed.setMaxLength(80)
        self.typed.setText(name)
        self.typed.selectAll()
        self.told.setText("The name stays whatever lines come. Left empty, the theme is named by its words.")

    def take(self) -> None:
        """Take the name typed."""
        self.name = self.typed.text()
        self.accept()


class ThemeDialog(_Asking):
    """Another theme; ``number`` is the answer. ``others`` are numbers and names."""

    def __init__(
        self, desk: Desk, title: str, act: str, others: Sequence[tuple[int, str]], told: str, parent: QWidget
    ) -> None:
        super().__init__(desk, title, "Which theme", act, "Themes", parent)
        self.number: int | None = None
        self._others = others
        self._shown: list[tuple[int, str]] = []
        self.typed.textEdited.connect(self._narrow)
        self.list.currentRowChanged.connect(lambda at: self.act.setEnabled(at >= 0))
        self.told.setText(told if others else "There is no other theme.")
        self._narrow("")

    def _narrow(self, typed: str) -> None:
        wanted = reading.same_letters(typed.strip())
        self._shown = [one for one in self._others if wanted in reading.same_letters(one[1])]
        self.list.clear()
        for _, name in self._shown:
            self.list.addItem(QListWidgetItem(name))
        if wanted and self._shown:
            self.list.setCurrentRow(0)
        self.act.setEnabled(self.list.currentRow() >= 0)

    def take(self) -> None:
        """Take the theme chosen, if one is."""
        at = self.list.currentRow()
        if 0 <= at < len(self._shown):
            self.number = self._shown[at][0]
            self.accept()


class WordDialog(_Asking):
    """A word, typed or chosen; ``word`` is the answer."""

    def __init__(self, desk: Desk, title: str, act: str, words: Sequence[str], parent: QWidget) -> None:
        super().__init__(desk, title, "Which word", act, "Words", parent)
        self.word = ""
        self.typed.setMaxLength(80)
        for word in words:
            self.list.addItem(QListWidgetItem(word))
        self.list.currentTextChanged.connect(self.typed.setText)
        self.told.setText("Themes are then looked for again.")

    def take(self) -> None:
        """Take the word."""
        self.word = self.typed.text().strip()
        if self.word:
            self.accept()

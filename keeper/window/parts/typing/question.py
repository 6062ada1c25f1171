"""The month's question, standing over the reflection, and asking another."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions import writing
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.parts.typing.put_by import PutBy

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class _Edit(QLineEdit):
    given_up = Signal()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        from PySide6.QtCore import Qt

        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        else:
            super().keyPressEvent(event)


class QuestionRow(QWidget):
    """Shows the question of a night's month; lets the person ask another.

    ``asked`` comes with the question that is shown, "" for none. ``change`` may
    be moved elsewhere; ``changing`` is what it says where there is a question.
    """

    asked = Signal(str)

    def __init__(self, desk: Desk, changing: str = "Change") -> None:
        super().__init__()
        self._desk, self._changing = desk, changing
        self._month = desk.tonight()
        self.shown = label("", "question")
        self.change = quiet_button("", self.begin)
        self.edit = _Edit()
        self.edit.setAccessibleName("The month\u2019s question")
        self.edit.setProperty("question", True)
        self.edit.returnPressed.connect(self._keep)
        self.edit.editingFinished.connect(self.keep)
        self.edit.given_up.connect(self._give_up)
        self.state = label("not kept yet", "quiet", wrap=False)
        self._words = PutBy(desk, self.edit, "question")
        self._words.failed.connect(self._open)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(1), 0, 0)
        layout.setSpacing(2)
        beside = row(self.shown, self.change, None)
        beside.setStretch(0, 1000)
        layout.addLayout(beside)
        layout.addLayout(row(self.edit, self.state))
        self._leave()

    def show_question(self, night: date, question: str) -> None:
        """Show the question asked in the month of a night; what is being typed stays."""
        self._month = night
        month = wording.month_and_year(night)
        self.shown.setText(question)
        self.shown.setVisible(bool(question) and self.edit.isHidden())
        self.change.setText(self._changing if question else f"Set a question for {month}")
        self.change.setAccessibleName("Change the month\u2019s question" if question else self.change.text())
        words = self._words.shown(night.isoformat()[:7], question)
        if words is not None:
            self._words.put(words)
            self._open() if self._words.waits() else self._leave()
        self.asked.emit(question)

    def begin(self) -> None:
        """Let the person type a question."""
        self.edit.setPlaceholderText(f"The question of {wording.month_and_year(self._month)}")
        self._open()
        self.state.hide()
        self.edit.setFocus()

    def _open(self) -> None:
        self.shown.hide()
        self.change.hide()
        self.edit.show()
        self.state.show()

    def keep(self) -> None:
        """Keep what is being typed; what was left behind and not touched since only waits."""
        if self.edit.isModified() or not self._words.waits():
            self._keep()

    def _keep(self) -> None:
        if self.edit.isHidden():
            return
        month = self._month
        self.edit.setModified(False)
        self.shown.setText(" ".join(self.edit.text().split()))
        self._leave()
        self.asked.emit(self.shown.text())
        self._words.write(lambda store, question: writing.ask_question(store, month, question))

    def _give_up(self) -> None:
        self.edit.setText(self.shown.text())
        self._leave()

    def _leave(self) -> None:
        self.edit.hide()
        self.state.hide()
        self.change.show()
        self.shown.setVisible(bool(self.shown.text()))

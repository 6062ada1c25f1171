"""The month's question, standing over the reflection, and asking another."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions import writing
from keeper.window import wording
from keeper.window.desk import Desk
from keeper.window.parts import label, quiet_button, row

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
    """Shows the question of a night's month; lets the person ask another."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._month = desk.tonight()
        self.shown = label("", "question")
        self.change = quiet_button("", self.begin)
        self.edit = _Edit()
        self.edit.setAccessibleName("The month\u2019s question")
        self.edit.setProperty("question", True)
        self.edit.editingFinished.connect(self._keep)
        self.edit.given_up.connect(self._leave)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(1), 0, 0)
        layout.setSpacing(2)
        beside = row(self.shown, self.change, None)
        beside.setStretch(0, 1000)
        layout.addLayout(beside)
        layout.addWidget(self.edit)
        self.edit.hide()

    def show_question(self, night: date, question: str) -> None:
        """Show the question asked in the month of a night."""
        self._month = night
        month = wording.month_and_year(night)
        self.shown.setText(question)
        self.shown.setVisible(bool(question) and self.edit.isHidden())
        self.change.setText("Change" if question else f"Set a question for {month}")
        self.change.setAccessibleName("Change the month\u2019s question" if question else self.change.text())

    def begin(self) -> None:
        """Let the question be typed."""
        self.edit.setText(self.shown.text())
        self.edit.setPlaceholderText(f"The question of {wording.month_and_year(self._month)}")
        self.shown.hide()
        self.change.hide()
        self.edit.show()
        self.edit.setFocus()

    def _keep(self) -> None:
        if self.edit.isHidden():
            return
        month, question = self._month, self.edit.text()
        self.shown.setText(" ".join(question.split()))
        self._leave()
        self._desk.write(
            lambda store: writing.ask_question(store, month, question), lambda _: self._desk.changed.emit()
        )

    def _leave(self) -> None:
        self.edit.hide()
        self.change.show()
        self.shown.setVisible(bool(self.shown.text()))

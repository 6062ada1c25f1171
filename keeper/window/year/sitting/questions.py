"""The closing questions themselves: each may be put in other words or left out, and others asked."""

from collections.abc import Callable

from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.years import sitting
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.parts.typing.question import _Edit

Asked = Callable[[Callable, Callable[[], None]], None]
"""Hears what is to be written, and what to do once it is."""


class QuestionHead(QWidget):
    """A question over its answer, with ways to reword it and to leave it out.

    ``reword`` hears the question and its new words, ``leave_out`` the question.
    """

    def __init__(self, desk: Desk, question: str, reword: Callable[[str, str], None],
                 leave_out: Callable[[str], None]) -> None:  # fmt: skip
        super().__init__()
        self.question, self._reword = question, reword
        self.shown = label(question, "question")
        self.change = quiet_button("Reword", self.begin, f"Put in other words: {question}")
        self.away = quiet_button("Remove", lambda: leave_out(self.question), f"Remove the question: {question}")
        self.edit = _Edit()
        self.edit.setProperty("question", True)
        self.edit.setAccessibleName("The question in other words")
        self.edit.editingFinished.connect(self.keep)
        self.edit.given_up.connect(self._leave)
        self.edit.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.8), 0, 0)
        beside = row(self.shown, self.change, self.away)
        beside.setStretch(0, 1)
        layout.addLayout(beside)
        layout.addWidget(self.edit)

    def begin(self) -> None:
        """Let the question be typed anew."""
        self.edit.setText(self.question)
        for part in (self.shown, self.change, self.away):
            part.hide()
        self.edit.show()
        self.edit.setFocus()

    def keep(self) -> None:
        """Keep the other words, if it is being reworded."""
        if self.edit.isHidden():
            return
        words = " ".join(self.edit.text().split())
        self._leave()
        if words and words != self.question:
            self._reword(self.question, words)

    def _leave(self) -> None:
        # It is left by going: that must not be heard as being done with it.
        self.edit.blockSignals(True)
        if self.edit.hasFocus() and self.shown.buddy():
            # Not to a button, where the next space would press it.
            self.shown.buddy().setFocus()
        self.edit.hide()
        self.edit.blockSignals(False)
        for part in (self.shown, self.change, self.away):
            part.show()

    def call(self, question: str) -> None:
        """It is asked in these words now."""
        self.question = question
        self.shown.setText(question)


class MoreQuestions(QWidget):
    """A line for a question of the person's own, and the way back to the program's."""

    def __init__(self, desk: Desk, write: Asked) -> None:
        super().__init__()
        self._desk, self._write, self.year = desk, write, 0
        self.rests = label("", "quiet")
        self.more = QLineEdit()
        self.more.setProperty("question", True)
        self.more.setAccessibleName("Ask another question")
        self.more.setPlaceholderText("Ask another question")
        self.more.editingFinished.connect(self.keep)
        self.again = quiet_button("Ask the usual questions", self._as_before, "Ask the usual questions again")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(1.2), 0, 0)
        layout.setSpacing(desk.look.px(0.4))
        layout.addWidget(self.more)
        layout.addWidget(self.rests)
        layout.addLayout(row(self.again, None))

    def show_more(self, year: int, rests: int, own: bool) -> None:
        """Show what is there of a year; what is being typed stays."""
        self.year = year
        self.rests.setText("One of the questions rests." if rests == 1 else f"{rests} of the questions rest.")
        self.rests.setVisible(rests > 0)
        self.again.setVisible(own)

    def keep(self) -> None:
        """Ask what was typed."""
        words, year = " ".join(self.more.text().split()), self.year
        if words:
            self.more.clear()
            self._write(lambda store: sitting.ask_more(store, year, words), lambda: None, lambda: self.more.setText(words))

    def _as_before(self) -> None:
        year = self.year
        self._write(lambda store: sitting.ask_as_before(store, year), lambda: None)


def writer(desk: Desk) -> Asked:
    """Writes in the background, says what fails, and lets all pages ask again."""

    def write(work: Callable, done: Callable[[], None], undone: Callable[[], None] = lambda: None) -> None:
        def kept(_: object) -> None:
            done()
            desk.changed.emit()

        def failed(error: KeeperError) -> None:
            undone()
            desk.said.emit(str(error))

        desk.write(work, kept, failed)

    return write

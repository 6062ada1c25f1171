"""The closing questions of a year, each with a field; kept as they are left."""

from functools import partial

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions import year_sitting as sitting
from keeper.review.year import Closing
from keeper.window.desk import Desk
from keeper.window.field import Field
from keeper.window.parts import label, rule
from keeper.window.put_by import PutBy


class ClosingStep(QWidget):
    """The questions. An answer is on disk when it was left, or a pause was made in typing."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.year = 0
        self.fields: dict[str, Field] = {}
        self._words: dict[str, PutBy] = {}
        self._body = QVBoxLayout(self)
        self._body.setContentsMargins(0, 0, 0, 0)
        self._body.setSpacing(desk.look.px(0.3))

    def show_closing(self, closing: Closing) -> None:
        """Show the questions of a year; what is being typed stays."""
        asked = [one.question for one in closing.answers]
        if closing.year != self.year or asked != list(self.fields):
            self._make(closing.year, asked)
        for one in closing.answers:
            self._words[one.question].show(f"{self.year} {one.question}", one.answer)

    def _make(self, year: int, asked: list[str]) -> None:
        self.commit_all()
        while self._body.count():
            widget = self._body.takeAt(0).widget()
            widget.hide()
            widget.deleteLater()
        self.year = year
        self.fields = {question: self._field(question) for question in asked}
        self._words = {
            question: PutBy(self.desk, field, "answer", _write) for question, field in self.fields.items()
        }

    def _field(self, question: str) -> Field:
        made = Field()
        made.setAccessibleName(question)
        made.read_both_ways()
        made.left.connect(partial(self.commit, question))
        made.onward.connect(lambda: made.focusNextChild())
        made.back.connect(lambda: made.focusPreviousChild())
        made.mended.connect(lambda: self.desk.said.emit("Some of what came in was no text, and was left out."))
        asked = label(question, "question")
        asked.setContentsMargins(0, self.desk.look.px(0.8), 0, 0)
        asked.setBuddy(made)
        for part in (asked, made, rule()):
            self._body.addWidget(part)
        return made

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        for field in self.fields.values():
            field.ensurePolished()
            field.document().setDefaultFont(field.font())
            field.fit()

    def commit(self, question: str) -> None:
        """Keep an answer as it stands."""
        if question in self.fields:
            self.fields[question].settle()
            self._words[question].put_by()

    def commit_all(self) -> None:
        """Keep every answer."""
        for question in self.fields:
            self.commit(question)


def _write(store, asked: str, words: str) -> None:
    year, _, question = asked.partition(" ")
    sitting.answer(store, int(year), question, words)

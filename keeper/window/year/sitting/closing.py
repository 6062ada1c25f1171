"""The closing questions of a year, each with a field; kept as they are left."""

from functools import partial
from itertools import pairwise

from PySide6.QtWidgets import QVBoxLayout, QWidget
from shiboken6 import isValid

from keeper.actions.years import sitting
from keeper.review.year import Closing
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.year.sitting.questions import MoreQuestions, QuestionHead, writer


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
        self.heads: dict[str, QuestionHead] = {}
        self._now: dict[str, str] = {}
        self._write = writer(desk)
        self.more = MoreQuestions(desk, self._write)
        self._body.addWidget(self.more)

    def show_closing(self, closing: Closing) -> None:
        """Show the questions of a year; what is being typed stays."""
        asked = [one.question for one in closing.answers]
        if closing.year != self.year or asked != list(self.fields):
            self._make(closing.year, asked)
        self.more.show_more(closing.year, closing.rests, closing.own)
        for one in closing.answers:
            self._words[one.question].show(f"{self.year} {one.question}", one.answer)

    def _make(self, year: int, asked: list[str]) -> None:
        self.commit_all()
        while self._body.count() > 1:
            widget = self._body.takeAt(0).widget()
            widget.hide()
            widget.deleteLater()
        self.year, self._now, self.heads = year, {}, {}
        self.fields = {question: self._field(question) for question in asked}
        self._words = {
            question: PutBy(self.desk, field, "answer", _write) for question, field in self.fields.items()
        }
        self._order_tabs()

    def _field(self, question: str) -> Field:
        made = Field()
        made.setAccessibleName(question)
        made.read_both_ways()
        made.left.connect(partial(self.commit, question))
        made.onward.connect(lambda: made.focusNextChild())
        made.back.connect(lambda: made.focusPreviousChild())
        made.mended.connect(lambda: self.desk.said.emit("Part of what you pasted was not text, and was left out."))
        self.heads[question] = QuestionHead(self.desk, question, self._reword, self._leave_out)
        self.heads[question].shown.setBuddy(made)
        for part in (self.heads[question], made, rule()):
            self._body.insertWidget(self._body.count() - 1, part)
        return made

    def _order_tabs(self) -> None:
        # From answer to answer; what changes the questions comes after.
        heads = [part for head in self.heads.values() for part in (head.change, head.away, head.edit)]
        order = [*self.fields.values(), self.more.more, *heads, self.more.again]
        for before, after in pairwise(order):
            self.setTabOrder(before, after)

    def first_field(self) -> QWidget:
        """The first answer that is still open, else the first; with no question, where one is typed."""
        open_ = [field for field in self.fields.values() if not field.toPlainText()]
        return next(iter([*open_, *self.fields.values()]), self.more.more)

    def _reword(self, old: str, new: str) -> None:
        self.commit_all()
        year, words = self.year, self._words[old]
        # What is typed from here on is kept under the new wording, or under the old if that fails.
        words.hold()
        self._write(
            lambda store: sitting.reword_question(store, year, old, new), partial(self._call, year, old, new),
            lambda: isValid(words) and words.let_go(),
        )  # fmt: skip

    def _call(self, year: int, old: str, new: str) -> None:
        # The field stays, with whatever has been typed into it since.
        if year != self.year or old not in self.fields:
            return
        self.fields = {new if one == old else one: field for one, field in self.fields.items()}
        self._words[new] = self._words.pop(old)
        self._words[new].call(f"{year} {new}")
        self._now.update({one: new for one in [old, *self._now] if self._now.get(one, one) == old})
        self.heads[new] = self.heads.pop(old)
        self.heads[new].call(new)
        self.fields[new].setAccessibleName(new)

    def _leave_out(self, question: str) -> None:
        self.commit_all()
        year = self.year
        self._write(lambda store: sitting.leave_question_out(store, year, question), lambda: None)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        for field in self.fields.values():
            field.ensurePolished()
            field.document().setDefaultFont(field.font())
            field.fit()

    def commit(self, question: str) -> None:
        """Keep an answer as it stands."""
        question = self._now.get(question, question)
        if question in self.fields:
            self.fields[question].settle()
            self._words[question].put_by()

    def keep(self) -> None:
        """Keep whatever is being typed, questions too."""
        for head in list(self.heads.values()):
            head.keep()
        self.more.keep()
        self.commit_all()

    def commit_all(self) -> None:
        """Keep every answer."""
        for question in list(self.fields):
            self.commit(question)


def _write(store, asked: str, words: str) -> None:
    year, _, question = asked.partition(" ")
    sitting.answer(store, int(year), question, words)

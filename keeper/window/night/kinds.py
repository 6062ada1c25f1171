"""The kinds of line on the page of a night: heading, field, and what can be done with the line."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.model import QUESTION_KIND, Line, LineKind
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.night.line_buttons import LineButtons
from keeper.window.parts.small import label, name_within, row, rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.question import QuestionRow

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent

    from keeper.window.parts.later.shown import LaterWords


class NightField(Field):
    """A field that tells, by ``entered``, when it is given the focus."""

    entered = Signal()

    def focusInEvent(self, event: "QFocusEvent") -> None:
        super().focusInEvent(event)
        self.entered.emit()


class KindBlock(QWidget):
    """One kind's heading, field and what can be done with its line."""

    def __init__(self, desk: Desk, kind: LineKind) -> None:
        super().__init__()
        self._desk, self.kind = desk, kind
        self._question = ""
        self.title = label("", "quiet", wrap=False)
        # As tall as a button beside it, so that nothing below moves when one comes.
        self.title.setProperty("acts", True)
        self.title.setIndent(0)
        self.state = label("", "quiet", wrap=False)
        self.field = NightField()
        self.words: LaterWords | None = None
        self.head, below = row(self.title, self.state, None, gap=desk.look.px(0.8)), row(None)
        self.buttons = LineButtons(self, kind, self.head, below)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.6), 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self.head)
        layout.addWidget(self.field)
        layout.addWidget(rule())
        # Below the line, where later words stand; above it there is no room left in large letters.
        layout.addLayout(below)
        self.call(kind)

    def call(self, kind: LineKind) -> None:
        """Take up the kind's name and prompt."""
        self.kind = kind
        self.fit()
        self.buttons.call(kind)
        self.ask(self._question)

    def fit(self) -> None:
        """Take up the text size in force."""
        name_within(self.title, self.kind.title, self._desk.look.px(14))

    def show_later(self, line: Line | None) -> None:
        """Show what was said of the line on later nights, below it."""
        if self.words is None and not (line and line.later):
            return
        if self.words is None:
            # Only now: of what is seen before one can type there are hardly ever any.
            from keeper.window.parts.later.shown import LaterWords

            self.words = LaterWords(self._desk, line)
            self.layout().insertWidget(self.layout().count() - 1, self.words)
        if line:
            self.words.show_line(line)
        self.words.setVisible(bool(line and line.later))

    def hold(self, question: QuestionRow) -> None:
        """Take in the month's question, between the heading and the field that answers it."""
        question.layout().setContentsMargins(0, 0, 0, 0)
        self.layout().insertWidget(1, question)
        # Before what can be done with the line.
        self.head.insertWidget(self.head.count() - len(self.buttons.beside()), question.change)

    def ask(self, question: str) -> None:
        """Let the field ask this, or "" what it asks by itself."""
        self._question, name = question, self.kind.title
        self.field.setAccessibleName(f"{name}. {question}" if question else name)
        # The question stands over the field, also when there is something in it.
        self.field.setPlaceholderText("" if question else wording.prompt(self.kind))


class KindBlocks(QWidget):
    """The blocks of the kinds that a night asks for, in the person's order.

    A block once made stays, hidden, for the nights that ask for it. ``made``
    comes with each new one; ``shown`` are those seen, by their kind's key.
    """

    made = Signal(object)

    def __init__(self, desk: Desk, question: QuestionRow) -> None:
        super().__init__()
        self._desk, self._question = desk, question
        self.every: dict[str, KindBlock] = {}
        self.shown: dict[str, KindBlock] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self.fit()

    def fit(self) -> None:
        """Take up the text size in force."""
        self._column.setSpacing(self._desk.look.px(0.5))
        for block in self.every.values():
            block.fit()

    def show_kinds(self, kinds: Iterable[LineKind]) -> bool:
        """Show these; whether they are others, or in another order, than before."""
        before, wanted = list(self.shown), list(kinds)
        for kind in wanted:
            if kind.key not in self.every:
                self._make(kind)
            elif self.every[kind.key].kind != kind:
                self.every[kind.key].call(kind)
        self.shown = {kind.key: self.every[kind.key] for kind in wanted}
        if list(self.shown) == before:
            return False
        for place, block in enumerate(self.shown.values()):
            self._column.removeWidget(block)
            self._column.insertWidget(place, block)
        for key, block in self.every.items():
            block.setVisible(key in self.shown)
        return True

    def _make(self, kind: LineKind) -> None:
        block = self.every[kind.key] = KindBlock(self._desk, kind)
        if kind.key == QUESTION_KIND:
            block.hold(self._question)
        self._column.addWidget(block)
        self.made.emit(block)

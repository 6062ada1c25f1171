"""The three kinds of line on the page of a night: heading, field, and what can be done with the line."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row, rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.question import QuestionRow

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent


class NightField(Field):
    """A field whose steps belong to the history of all; ``entered`` comes when it is given the focus."""

    entered = Signal()
    stepped = Signal(int)

    def go_back(self, by: int) -> None:
        self.stepped.emit(by)

    def focusInEvent(self, event: "QFocusEvent") -> None:
        super().focusInEvent(event)
        self.entered.emit()


class KindBlock(QWidget):
    """One kind's heading, field and what can be done with its line."""

    def __init__(self, desk: Desk, kind: str) -> None:
        super().__init__()
        self.kind = kind
        self.title = label(wording.KIND_NAMES[kind], "quiet", wrap=False)
        # As tall as a button beside it, so that nothing below moves when one comes.
        self.title.setProperty("acts", True)
        self.title.setIndent(0)
        self.state = label("", "quiet", wrap=False)
        self.field = NightField()
        self.kept = quiet_button("Show the kept wording", lambda: None, f"Show the kept wording of the {kind}")
        self.earlier = quiet_button("Earlier wordings", lambda: None, f"Earlier wordings of {kind}")
        self.rest = quiet_button("Let rest", lambda: None, f"Let the {kind} rest")
        self.like = quiet_button("More like this", lambda: None, f"More like the {kind}, from other years")
        self.head = row(self.title, self.state, None, self.kept, self.earlier, self.like, self.rest, gap=desk.look.px(0.8))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.6), 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self.head)
        layout.addWidget(self.field)
        layout.addWidget(rule())
        self.ask("")

    def hold(self, question: QuestionRow) -> None:
        """Take in the month's question, between the heading and the field that answers it."""
        question.layout().setContentsMargins(0, 0, 0, 0)
        self.layout().insertWidget(1, question)
        self.head.insertWidget(self.head.indexOf(self.kept), question.change)

    def ask(self, question: str) -> None:
        """Let the field ask this, or "" what it asks by itself."""
        name = wording.KIND_NAMES[self.kind]
        self.field.setAccessibleName(f"{name}. {question}" if question else name)
        # The question stands over the field, also when there is something in it.
        self.field.setPlaceholderText("" if question else wording.PLACEHOLDERS[self.kind])

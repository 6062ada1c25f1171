"""A month's goals, written, reworded and closed by keyboard alone."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.months.goals import OUTCOMES, add_goal, change_goal, close_goal
from keeper.model import Goal
from keeper.window.desk.desk import Desk
from keeper.window.month.wording import outcome_told
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import row
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.put_by import PutBy


class _Edit(QLineEdit):
    """Down and up lead to the goal below and above."""

    onward = Signal(int)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
        if event.key() in steps:
            self.onward.emit(steps[event.key()])
        else:
            super().keyPressEvent(event)


class GoalRow(QWidget):
    """One goal: its words, what became of it, and a word about that."""

    def __init__(self, desk: Desk, month: date, goal: Goal, number: int) -> None:
        super().__init__()
        self.goal = goal
        self.text = _edit(goal.text, f"Goal {number}")
        self.text_words = PutBy(desk, self.text, "goal")
        self.text_words.show(goal.id, goal.text)
        self.text.setProperty("words", True)
        self.text.setToolTip(plain_tip(goal.text))
        self.outcome = Choice(desk.look, f"What became of goal {number}")
        for outcome in OUTCOMES:
            self.outcome.addItem(outcome_told(outcome, month), outcome)
        self.outcome.setCurrentIndex(OUTCOMES.index(goal.outcome))
        self.word = _edit(goal.word, f"A word about goal {number}")
        self.word_words = PutBy(desk, self.word, "goal's word")
        self.word_words.show(goal.id, goal.word)
        self.word.setPlaceholderText("a word about it")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, desk.look.px(0.4))
        layout.setSpacing(0)
        layout.addWidget(self.text)
        beside = row(self.outcome, self.word, gap=desk.look.px(0.8))
        beside.setStretch(1, 1)
        layout.addLayout(beside)
        self.word.setVisible(goal.outcome != "set" or bool(self.word.text()))

    def typed_in(self) -> bool:
        """Whether somebody is at work in it."""
        return any(part.hasFocus() for part in (self.text, self.word, self.outcome))


def _edit(text: str, name: str) -> _Edit:
    made = _Edit(text)
    made.setAccessibleName(name)
    made.setCursorPosition(0)
    return made


class GoalsBox(QWidget):
    """The goals of a month, and an empty line for another. All is kept as it is left."""

    def __init__(self, desk: Desk, adding: str = "Add a goal") -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self.rows: list[GoalRow] = []
        self.more = _edit("", adding)
        self.more.setPlaceholderText(adding)
        self._more_words = PutBy(desk, self.more, "new goal")
        self.more.returnPressed.connect(self._add)
        self.more.editingFinished.connect(self._add_what_was_typed)
        self.more.onward.connect(lambda step: self._move(len(self.rows), step))
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self._layout.addWidget(self.more)

    def show_goals(self, month: date, goals: tuple[Goal, ...]) -> None:
        """Show the goals of a month; what is being typed stays."""
        another, self.month = month != self.month, month
        # What is typed of another goal waits with its month.
        self._more_words.show(month.isoformat()[:7], "")
        if not another and [one.goal for one in self.rows] == list(goals):
            return
        at = next((n for n, one in enumerate(self.rows) if one.typed_in()), None)
        part = next((name for name in ("text", "outcome", "word") if at is not None and not another
                     and getattr(self.rows[at], name).hasFocus()), "")  # fmt: skip
        typing = part in ("text", "word") and at is not None
        cursor = getattr(self.rows[at], part).cursorPosition() if typing else 0
        self._fill(goals)
        if part and at is not None and at < len(self.rows):
            getattr(self.rows[at], part).setFocus()
            if typing:
                # One goes on typing where one was.
                getattr(self.rows[at], part).setCursorPosition(cursor)

    def _fill(self, goals: tuple[Goal, ...]) -> None:
        for old in self.rows:
            # Taken out of hearing first: a row that goes must not keep itself.
            for part in (old.text, old.word, old.outcome):
                part.blockSignals(True)
            self._layout.removeWidget(old)
            old.hide()
            old.deleteLater()
        self.rows = [GoalRow(self._desk, self.month, goal, number) for number, goal in enumerate(goals, 1)]
        for number, made in enumerate(self.rows):
            self._layout.insertWidget(number, made)
            # By itself it is shown a turn later: Tab would pass it over until then.
            made.show()
            self._connect(made, number)
        starts = [*(made.text for made in self.rows), self.more]
        for number, made in enumerate(self.rows):
            self.setTabOrder(made.word, starts[number + 1])

    def _connect(self, made: GoalRow, number: int) -> None:
        made.text.returnPressed.connect(lambda: self._reword(made, meant=True))
        made.text.editingFinished.connect(lambda: self._reword(made))
        made.text.onward.connect(lambda step: self._move(number, step))
        made.word.onward.connect(lambda step: self._move(number, step))
        made.word.editingFinished.connect(lambda: self._close(made))
        made.outcome.activated.connect(lambda _: self._on_outcome(made))

    def _move(self, number: int, step: int) -> None:
        edits = [*(one.text for one in self.rows), self.more]
        if 0 <= number + step < len(edits):
            edits[number + step].setFocus()

    # keeping

    def keep(self) -> None:
        """Keep what is being typed."""
        for made in self.rows:
            self._reword(made)
            self._close(made)
        self._add_what_was_typed()

    def _add_what_was_typed(self) -> None:
        # Words that were left behind only wait, until one goes on with them.
        if self.more.isModified():
            self._add()

    def _add(self) -> None:
        month = self.month
        self._more_words.add(lambda store, text: add_goal(store, month, text))

    def _reword(self, made: GoalRow, meant: bool = False) -> None:
        month = self.month
        if " ".join(made.text.text().split()) != made.goal.text:
            made.text_words.write(
                lambda store, text: change_goal(store, month, made.goal.id, text), meant=meant
            )

    def _on_outcome(self, made: GoalRow) -> None:
        made.word.setVisible(made.outcome.currentData() != "set" or bool(made.word.text()))
        self._close(made)

    def _close(self, made: GoalRow) -> None:
        outcome, word, month = made.outcome.currentData(), made.word.text(), self.month
        if (outcome, " ".join(word.split())) != (made.goal.outcome, made.goal.word):
            made.word_words.write(
                lambda store, text: close_goal(store, month, made.goal.id, outcome, text), anyway=True
            )

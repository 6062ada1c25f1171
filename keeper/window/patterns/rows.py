"""Patterns under one another: one of them is marked, and shows what can be done with it."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.dates.written import number
from keeper.review.patterns.whole import Shown
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, quiet_button, row
from keeper.window.patterns.row import PatternRow, RowAct

AT_A_TIME = 15
"""Rows that are shown at first, and with each press for more."""


class PatternRows(QWidget):
    """The rows, some at a time; ``seen`` comes with the one that has the focus, so that it can be scrolled to."""

    seen = Signal(QWidget)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.rows: list[PatternRow] = []
        self._patterns: tuple[Shown, ...] = ()
        self._acts: tuple[RowAct, ...] = ()
        self._many = AT_A_TIME
        self.more = quiet_button("", self._show_more)
        self.body = QVBoxLayout()
        whole = QVBoxLayout(self)
        for layout in (whole, self.body):
            layout.setContentsMargins(0, 0, 0, 0)
            layout.setSpacing(0)
        whole.addLayout(self.body)
        whole.addLayout(row(self.more, None))
        self.more.hide()

    def show_patterns(self, patterns: Sequence[Shown], acts: tuple[RowAct, ...]) -> None:
        """Show these; the row that had the focus has it again, or the one in its place. The same again changes nothing."""
        self._patterns, self._acts = tuple(patterns), acts
        shown = self._patterns[: self._many]
        self._name_more()
        if [one.one for one in self.rows] == list(shown):
            return
        charts = {one.one.told.question for one in self.rows if one.chart}
        held = next((place for place, one in enumerate(self.rows) if _has_focus(one)), None)
        question = None if held is None else self.rows[held].one.told.question
        emptied(self.body)
        self.rows = [self._row(one, acts) for one in shown]
        for one in self.rows:
            if one.one.told.question in charts:
                one.toggle_chart()
        if held is not None and self.rows:
            same = [one for one in self.rows if one.one.told.question == question]
            (same or [self.rows[min(held, len(self.rows) - 1)]])[0].sentence.setFocus()

    def _show_more(self) -> None:
        first = len(self.rows)
        self._many += AT_A_TIME
        self.rows += [self._row(one, self._acts) for one in self._patterns[first : self._many]]
        self._name_more()
        self.rows[first].sentence.setFocus()

    def _name_more(self) -> None:
        left = len(self._patterns) - self._many
        self.more.setText(f"Show more ({number(left)} left)")
        self.more.setVisible(left > 0)

    def _row(self, one: Shown, acts: tuple[RowAct, ...]) -> PatternRow:
        made = PatternRow(self.desk, one, acts)
        made.reached.connect(self._mark)
        made.step.connect(self._step)
        self.body.addWidget(made)
        # Not in a later turn, as a layout would: it may be given the focus in this one.
        made.show()
        return made

    def _mark(self, wanted: PatternRow) -> None:
        for one in self.rows:
            one.mark(one is wanted)
        self.seen.emit(wanted)

    def _step(self, at: PatternRow, by: int) -> None:
        place = self.rows.index(at) + by
        if 0 <= place < len(self.rows):
            self.rows[place].sentence.setFocus()


def _has_focus(one: PatternRow) -> bool:
    has = one.window().focusWidget()
    return has is not None and one.isAncestorOf(has)


class FoldedRows(QWidget):
    """Rows that are seen when they are wanted; hidden while there are none."""

    def __init__(self, desk: Desk, name: str) -> None:
        super().__init__()
        self.name = name
        self._patterns: tuple[Shown, ...] = ()
        self._acts: tuple[RowAct, ...] = ()
        self._of = 0
        self.fold = quiet_button("", self.toggle)
        self.rows = PatternRows(desk)
        self.rows.hide()
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(desk.look.px(0.3))
        body.addLayout(row(self.fold, None))
        body.addWidget(self.rows)

    def show_patterns(self, patterns: Sequence[Shown], acts: tuple[RowAct, ...], of: int = 0) -> None:
        """Show these, which are some ``of`` more."""
        self._patterns, self._acts, self._of = tuple(patterns), acts, max(of, len(patterns))
        self.setVisible(bool(patterns))
        self._fill()

    def toggle(self) -> None:
        """Show the rows, or fold them."""
        self.rows.setVisible(self.rows.isHidden())
        self._fill()

    def _fill(self) -> None:
        # Folded rows are not made before they are wanted.
        folded = self.rows.isHidden()
        if not folded:
            self.rows.show_patterns(self._patterns, self._acts)
        many = number(len(self._patterns))
        counted = many if self._of == len(self._patterns) else f"the plainest {many} of {number(self._of)}"
        self.fold.setText(f"{self.name} ({counted}) {'›' if folded else '‹'}")
        self.fold.setAccessibleName(f"{self.name}, {counted}, {'show' if folded else 'hide'}")

"""Patterns under one another: one of them is marked, and shows what can be done with it."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.review.patterns.whole import Shown
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, quiet_button, row
from keeper.window.patterns.row import PatternRow, RowAct


class PatternRows(QWidget):
    """The rows; ``seen`` comes with the one that has the focus, so that it can be scrolled to."""

    seen = Signal(QWidget)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.rows: list[PatternRow] = []
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setSpacing(0)

    def show_patterns(self, patterns: Sequence[Shown], acts: tuple[RowAct, ...]) -> None:
        """Show these; the row that had the focus has it again, or the one in its place. The same again changes nothing."""
        if [one.one for one in self.rows] == list(patterns):
            return
        charts = {one.one.told.question for one in self.rows if one.chart}
        held = next((place for place, one in enumerate(self.rows) if _has_focus(one)), None)
        question = None if held is None else self.rows[held].one.told.question
        emptied(self.body)
        self.rows = [self._row(one, acts) for one in patterns]
        for one in self.rows:
            if one.one.told.question in charts:
                one.toggle_chart()
        if held is not None and self.rows:
            same = [one for one in self.rows if one.one.told.question == question]
            (same or [self.rows[min(held, len(self.rows) - 1)]])[0].sentence.setFocus()

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
        self.fold = quiet_button("", self.toggle)
        self.rows = PatternRows(desk)
        self.rows.hide()
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(desk.look.px(0.3))
        body.addLayout(row(self.fold, None))
        body.addWidget(self.rows)

    def show_patterns(self, patterns: Sequence[Shown], acts: tuple[RowAct, ...]) -> None:
        """Show these."""
        self.rows.show_patterns(patterns, acts)
        self.setVisible(bool(patterns))
        self._name_fold()

    def toggle(self) -> None:
        """Show the rows, or fold them."""
        self.rows.setVisible(self.rows.isHidden())
        self._name_fold()

    def _name_fold(self) -> None:
        self.fold.setText(f"{self.name} ({len(self.rows.rows)}) {'‹' if not self.rows.isHidden() else '›'}")
        self.fold.setAccessibleName(f"{self.name}, {len(self.rows.rows)}, {'hide' if not self.rows.isHidden() else 'show'}")

"""The parts of a month that may be long: answers and themes, shown in pieces and folded at first."""

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from keeper.model import Line
from keeper.review.month import MonthTheme, MonthView
from keeper.window.desk.desk import Desk
from keeper.window.month import sections
from keeper.window.month.sections import ANSWERS_AT_ONCE, Section
from keeper.window.parts.piecemeal import Pieces, few_at_a_time
from keeper.window.parts.small import emptied, quiet_button

ANSWERS_FIRST = 12
"""Answers shown before one asks for all."""

THEMES_FIRST = 6
"""Themes shown before one asks for all."""


class AnswersBox(QWidget):
    """What was written under the month’s question. ``unfold`` is called when all are wanted."""

    def __init__(self, desk: Desk, unfold: Callable[[Pieces], None]) -> None:
        super().__init__()
        self._desk = desk
        self._view: MonthView | None = None
        self.more = quiet_button("", lambda: unfold(self.pieces(self._view, folded=False)), "Show all answers")
        self.rows = QVBoxLayout()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.3))
        layout.addLayout(self.rows)
        layout.addWidget(self.more)
        self.hide()

    def pieces(self, view: MonthView, folded: bool) -> Pieces:
        """What is to be done to show the answers of a month."""
        shown = view.answers[:ANSWERS_FIRST] if folded else view.answers
        more = len(view.answers) - len(shown)

        def begin() -> None:
            self._view = view
            emptied(self.rows)
            self.more.setText(f"and {more} more")
            self.more.setVisible(more > 0)
            self.setVisible(bool(shown))

        def add(line: Line) -> None:
            self.rows.addLayout(sections.dated_line(self._desk, line))

        return [begin, *few_at_a_time(ANSWERS_AT_ONCE, add, shown)]


class ThemesBox(Section):
    """The themes of a month in two columns. ``unfold`` is called when all are wanted, ``opened`` with one to open."""

    def __init__(self, desk: Desk, unfold: Callable[[Pieces], None], opened: Callable[[MonthTheme], None]) -> None:
        super().__init__(desk, "Themes")
        self._opened = opened
        self._view: MonthView | None = None
        self.more = quiet_button("", lambda: unfold(self.pieces(self._view, folded=False)), "Show all themes")
        self.beside = QHBoxLayout()
        self.beside.setSpacing(desk.look.px(2.6))
        self.columns = (QVBoxLayout(), QVBoxLayout())
        for column in self.columns:
            self.beside.addLayout(column, 1)
        self.body.addLayout(self.beside)
        self.body.addWidget(self.more)

    def pieces(self, view: MonthView, folded: bool) -> Pieces:
        """What is to be done to show the themes of a month."""
        shown = view.themes[:THEMES_FIRST] if folded else view.themes
        more = len(view.themes) - len(shown)

        def begin() -> None:
            self._view = view
            for column in self.columns:
                emptied(column)
                column.addStretch(1)
            self.more.setText(f"and {more} more")
            self.more.setVisible(more > 0)
            self.setVisible(bool(shown))

        def add(number: int, one: MonthTheme) -> None:
            # One by one to either side, so that they are read across.
            column = self.columns[number % 2]
            column.insertLayout(column.count() - 1, sections.theme(self.desk, one, view.kept, self._opened))

        return [begin, *(lambda n=n, one=one: add(n, one) for n, one in enumerate(shown))]

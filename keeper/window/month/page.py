"""Month: its sheet, and what opens from it."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from keeper.window.desk.desk import Desk
from keeper.window.desk.keys import ON_A_MONTH
from keeper.window.month.sheet import MonthOverview
from keeper.window.month.turning.offer import TURN
from keeper.window.parts.page_stack import PageStack

_STEPS = {"month before": -1, "month after": 1}


class MonthPages(PageStack):
    """A month's sheet; beside it, when asked for, other months, its words, and the sitting that turns it."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, sheet := MonthOverview(desk))
        self.sheet = sheet
        self.sheet.asked.connect(self._open)
        self.others: dict[str, QWidget] = {}
        for pressed, act in (shortcut for key in ON_A_MONTH for shortcut in key.shortcuts):
            step = QShortcut(QKeySequence(pressed), self)
            step.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            step.activated.connect(lambda by=_STEPS[act]: self.sheet.step(by))

    def show_night(self, night: date) -> None:
        """Show the month of a night."""
        self._see(self.sheet)
        self.sheet.show_month(night)

    def show_thing(self, thing: object) -> None:
        """``TURN``: sit down to turn the month shown."""
        if thing == TURN:
            self.turn(self.sheet.month)

    def turn(self, month: date) -> None:
        """Sit down to turn a month."""
        sitting = self._made("turn")
        sitting.begin(month)
        self._see(sitting)

    def _open(self, name: str) -> None:
        if name == "print":
            self._print()
            return
        month, page = self.sheet.month, self._made(name)
        if name == "turn":
            page.begin(month)
        elif name == "words":
            page.of_month(month)
        elif name == "years":
            page.show_every_year(month)
        else:
            page.beside(month)
        self._see(page)

    def _made(self, name: str) -> QWidget:
        # Not before one is wanted.
        kind = "beside" if name == "years" else name
        if kind not in self.others:
            self.others[kind] = self.join(self._make(kind), self._back)
        return self.others[kind]

    def _make(self, kind: str) -> QWidget:
        if kind == "turn":
            from keeper.window.month.turning.sitting import TurnSitting

            return TurnSitting(self.desk)
        if kind == "words":
            from keeper.window.parts.word_picture.page import WordPicturePage

            return WordPicturePage(self.desk)
        from keeper.window.month.side_by_side import SideBySide

        return SideBySide(self.desk)

    def _print(self) -> None:
        self.sheet.keep()
        self.desk.sheet_wanted.emit(self.sheet.month)

    def _back(self) -> None:
        self._see(self.sheet)
        self.sheet.ask()

    def _see(self, page: QWidget) -> None:
        self.see(page)
        if self.isVisible():
            page.setFocus()

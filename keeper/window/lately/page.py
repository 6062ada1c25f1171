"""Lately: a list of what was done, of what was taken out, and of earlier wordings; each can be had back."""

from datetime import date, datetime

from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.history import lately
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.history.done_list import DoneList
from keeper.window.parts.history.rows import LatelyModel, rows_of
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import headed, in_the_middle, label, row

DONE, TAKEN_OUT, WORDINGS = "everything done", "taken out", "earlier wordings"

_NOTHING = {
    DONE: "Nothing was done here yet. Whatever you do is listed, and can be undone.",
    TAKEN_OUT: "Nothing was taken out.",
    WORDINGS: "No line was ever worded otherwise.",
}


class LatelyPage(BasicPage, AsksAgain, QWidget):
    """The latest first, more as one scrolls; below, what can be done with the row that is marked."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._errand = Errand(desk.reader)
        self.model = LatelyModel(self._more)
        self.list = DoneList(desk, self.model, "What was done lately")
        self.sought = QLineEdit()
        self.sought.setPlaceholderText("Words of what was done, or of what was there")
        self.sought.setAccessibleName("Words to look for in what was done")
        self.sought.setProperty("sought", True)
        self.which = Choice(desk.look, "What is listed")
        for choice in (DONE, TAKEN_OUT, WORDINGS):
            self.which.addItem(choice)
        self.told = label("", "quiet")
        self.told.hide()
        self.let_go = label("", "quiet")
        self.back, self.there = self.list.back, self.list.there
        self._lay_out()
        self._wait = once_after(self, 150, self.ask)
        self.sought.textChanged.connect(lambda _: self._wait.start())
        self.which.currentIndexChanged.connect(lambda _: self.ask())
        desk.changed.connect(self.refresh)
        self.lead_with(self.list)
        self.dress()

    def _lay_out(self) -> None:
        self.column = QWidget()
        self.body = body = QVBoxLayout(self.column)
        body.addLayout(headed(label("Lately", "head"), self.which))
        body.addWidget(self.sought)
        body.addWidget(self.told)
        body.addWidget(self.list, 1)
        body.addLayout(row(self.back, self.there, None, gap=self.desk.look.px(1)))
        body.addWidget(self.let_go)
        self.setLayout(in_the_middle(self.column))

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(44))
        self.body.setContentsMargins(px(1.5), px(1.6), px(1.5), px(0.8))
        self.body.setSpacing(px(0.6))
        self.model.layoutChanged.emit()

    def show_night(self, night: date) -> None:
        """Ask anew; it is the same on any night."""
        self.ask()

    # what is listed

    def ask(self) -> None:
        """Ask for the latest of what is chosen; the row that was marked stays marked."""
        sought, which = self.sought.text(), self.which.currentText()
        self._errand.anew(lambda store, task: (_some(store, sought, which), lately.let_go_until(store)),
                          lambda found: self._show(which, sought, *found))  # fmt: skip

    def _rows(self, found: tuple) -> tuple:
        return rows_of(found, self.desk.clock.now().tzinfo)

    def _show(self, which: str, sought: str, found: tuple, until: datetime | None) -> None:
        at, top = self.list.currentIndex().row(), self.list.verticalScrollBar().value()
        same = (which, sought) == (self.model.which, self.model.typed)
        self.model.which = which
        self.model.show(self._rows(found), sought, len(found) == lately.AT_ONCE)
        self.told.setText("" if found else "Nothing found." if sought.strip() else _NOTHING[which])
        self.told.setVisible(not found)
        if found:
            self.list.setCurrentIndex(self.model.index(min(max(at, 0), len(found) - 1) if same else 0))
            self.list.verticalScrollBar().setValue(top if same else 0)
        self.list.say_acts()
        self._say_let_go(until)

    def _say_let_go(self, until: datetime | None) -> None:
        self.let_go.setVisible(until is not None)
        if until:
            day = wording.full_date(until.astimezone(self.desk.clock.now().tzinfo).date())
            self.let_go.setText(f"What was done before {day} can no longer be undone: the keeper was brought up to date then.")

    def _more(self) -> None:
        sought, which, shown = self.sought.text(), self.which.currentText(), self.model.rowCount()
        last = self.model.at(shown - 1).done if shown else None
        self._errand.also(
            lambda store, task: _some(store, sought, which, last.number if last else None, shown),
            lambda found: self.model.append(self._rows(found), len(found) == lately.AT_ONCE),
        )


def _some(store, sought: str, which: str, before: int | None = None, skip: int = 0) -> tuple:
    if which == WORDINGS:
        return lately.earlier_wordings(store, sought, skip)
    return lately.latest(store, sought, before, taken_out=which == TAKEN_OUT)

"""Lately: a list of what was done, of what was taken out, and of earlier wordings; each can be had back."""

from datetime import date, datetime

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListView, QVBoxLayout, QWidget

from keeper.actions.history import lately
from keeper.model import Wording
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.lately.rows import LatelyDelegate, LatelyModel, LatelyRow, of_act, of_wording
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.found_list import FoundList
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import headed, in_the_middle, label, quiet_button, row

DONE, TAKEN_OUT, WORDINGS = "everything done", "taken out", "earlier wordings"

_NOTHING = {
    DONE: "Nothing was done here yet. Whatever you do is listed, and can be undone.",
    TAKEN_OUT: "Nothing was taken out.",
    WORDINGS: "No line was ever worded otherwise.",
}


class _List(FoundList):
    """The rows; U takes back the one that is marked, or does it again."""

    def __init__(self, desk: Desk, rows: LatelyModel, page: "LatelyPage") -> None:
        super().__init__(desk.look, rows, "What was done lately", LatelyDelegate)
        self._page = page
        # A dozen rows are laid out at a time, so that no turn is long.
        self.setLayoutMode(QListView.LayoutMode.Batched)
        self.setBatchSize(12)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_U and not event.modifiers():
            self._page.have_back()
        else:
            super().keyPressEvent(event)


class LatelyPage(BasicPage, AsksAgain, QWidget):
    """The latest first, more as one scrolls; below, what can be done with the row that is marked."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._errand = Errand(desk.reader)
        self.model = LatelyModel(self._more)
        self.list = _List(desk, self.model, self)
        self.list.activated.connect(lambda _: self.open())
        self.list.selectionModel().currentChanged.connect(lambda *_: self._say_acts())
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
        self.back = quiet_button("Undo", self.have_back)
        self.there = quiet_button("Show it", self.open, "Go to where it is seen")
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

    def _rows(self, found: tuple) -> tuple[LatelyRow, ...]:
        zone = self.desk.clock.now().tzinfo
        return tuple(of_wording(one, zone) if isinstance(one, Wording) else of_act(one, zone) for one in found)

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
        self._say_acts()
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

    # what can be done with a row

    def marked(self) -> LatelyRow | None:
        """The row that is marked."""
        index: QModelIndex = self.list.currentIndex()
        return self.model.at(index.row()) if index.isValid() else None

    def _say_acts(self) -> None:
        one = self.marked()
        for button in (self.back, self.there):
            button.setEnabled(one is not None)
            button.setVisible(one is not None)
        if one is not None:
            self.back.setText("Bring back" if one.wording else "Redo" if one.done.undone else "Undo")
            self.back.setAccessibleName(f"{self.back.text()}: {one.line.text[:200]}")
            self.back.setToolTip("U")
            self.there.setEnabled(bool(one.wording or one.done.act.page != "night" or one.done.act.night))

    def have_back(self) -> None:
        """Take the act back that is marked, or do it again; bring a wording back."""
        one = self.marked()
        if one is None:
            return
        if one.done:
            self.desk.turn_wanted.emit(one.done.number)
            return
        clock, earlier = self.desk.clock, one.wording
        self.desk.write(lambda store: lately.bring_back(store, earlier, clock), self._on_back)

    def _on_back(self, night: date) -> None:
        self.desk.changed.emit()
        self.desk.go("night", night)

    def open(self) -> None:
        """Go to where the marked row is seen."""
        one = self.marked()
        if one and one.wording:
            self.desk.go("night", one.wording.night)
        elif one and self.there.isEnabled():
            self.desk.go(one.done.act.page, one.done.act.night)


def _some(store, sought: str, which: str, before: int | None = None, skip: int = 0) -> tuple:
    if which == WORDINGS:
        return lately.earlier_wordings(store, sought, skip)
    return lately.latest(store, sought, before, taken_out=which == TAKEN_OUT)

"""Everybody whose name is marked: found by letters, opened by Enter; names that might be marked below."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions import people, reading
from keeper.actions.people import Named
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import headed, in_the_middle, label, quiet_button
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.people.list import PeopleList
from keeper.window.people.names_offered import NamesOffered

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

TOLD = (
    "A name you mark stays whole in themes, is told in the month it first appears in, and is listed in the book. Several "
    "spellings of one name go with commas between them. One that is written with a capital is found only where it has one."
)
FEW = 6
"""Up to so many are seen at a glance, and need no letters to be found by."""


class _Letters(QLineEdit):
    """Down and Enter go to those who are left."""

    entered = Signal()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered.emit()
        else:
            super().keyPressEvent(event)


class PeopleOverview(BasicPage, AsksAgain, LowWindow):
    """The list, a field that narrows it, one for another name, and names that recur.

    ``cards_wanted`` comes when a file of birthdays is to be read in.
    """

    cards_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._errand = Errand(desk.reader)
        self._known: tuple[Named, ...] | None = None
        self._resting_too = False
        self.heading = label("People", "head", wrap=False)
        self.resting = quiet_button("", self._turn)
        self.resting.hide()
        self.cards_in = quiet_button("Birthdays in\u2026", self.cards_wanted.emit, "Birthdays in: from a file of cards or a calendar")
        self.cards_out = quiet_button("Birthdays out\u2026", self._give, "Birthdays out: to a file of cards or a calendar")
        self.letters = _Letters()
        self.letters.setPlaceholderText("Letters of a name")
        self.letters.setAccessibleName("Letters of a name")
        self.letters.setAccessibleDescription("Those whose names begin so are left below.")
        self.nobody = label("", "quiet")
        self.list = PeopleList(desk.look)
        self.about = label(TOLD, "quiet")
        self.more = QLineEdit()
        self.more.setProperty("words", True)
        self.more.setPlaceholderText("Add a name")
        self.more.setAccessibleName("Add a name")
        self.told = label("", "quiet")
        self.told.hide()
        self._more_words = PutBy(desk, self.more, "new name", tell=self._tell)
        self._more_words.show("", "")
        self.offered = NamesOffered(desk, self.more)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        self.body = body = QVBoxLayout(self.column)
        body.addLayout(headed(self.heading, self.resting, self.cards_in, self.cards_out))
        for part in (self.letters, self.nobody):
            body.addWidget(part)
        # The list takes what room it can use; of a few, or of nobody, the rest stands together above.
        body.addWidget(self.list, 100)
        for part in (self.more, self.told, self.offered, self.about):
            body.addWidget(part)
        body.addSpacing(px(0.6))
        body.addStretch(1)
        self.within.setLayout(in_the_middle(self.column))
        self.dress()

    def _connect(self) -> None:
        self.letters.textChanged.connect(lambda _: self._show_those())
        self.letters.entered.connect(self._go_to_list)
        self.more.returnPressed.connect(lambda: self._more_words.add(people.add))
        self._more_words.kept.connect(lambda *_: self.told.hide())
        self.offered.taken.connect(self._mark)
        self.desk.changed.connect(self.refresh)
        self.desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(44))
        self.body.setContentsMargins(px(1.5), px(1.4), px(1.5), px(0.4))
        self.body.setSpacing(px(0.5))
        self.list.rows.layoutChanged.emit()
        self._make_room()

    def setFocus(self, *why: object) -> None:
        parts = (self.letters, self.list) if self._known is None or self._known else (self.more,)
        next((part for part in parts if not part.isHidden()), self.more).setFocus()

    # asking

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        # Who comes for somebody else is not to meet who rests.
        self._resting_too = False
        self.ask()

    def ask(self) -> None:
        """Ask for everybody."""
        self._errand.anew(lambda store, task: people.every(store), self._show)

    def _show(self, found: Sequence[Named]) -> None:
        first, self._known = self._known is None, tuple(one for one in found if one.person.names)
        self.cards_out.setVisible(bool(self._known))
        self.letters.setVisible(len(self._known) > FEW)
        at_this = self.isVisible() and (self.hasFocus() or self.letters.hasFocus() or self.list.hasFocus())
        self._show_those()
        if first and self.isVisible() and not self.more.hasFocus() and (at_this or not self._known):
            self.setFocus()

    def _show_those(self) -> None:
        known, typed = self._known or (), self.letters.text()
        those = [one for one in known if _begins(one, typed) and (self._resting_too or typed.strip() or not one.person.resting)]
        resting = sum(one.person.resting for one in known)
        self.resting.setVisible(bool(resting))
        self.resting.setText("Without who rests" if self._resting_too else f"Also who rests ({resting})")
        self.resting.setAccessibleName(self.resting.text())
        self.list.show_people(those)
        self.list.setVisible(bool(those))
        self.nobody.setText("" if those else _why_nobody(known, typed))
        self.nobody.setVisible(bool(self.nobody.text()))
        self._make_room()

    def _make_room(self) -> None:
        px, rows = self.desk.look.px, self.list.rows.rowCount()
        self.list.setMinimumHeight(min(rows, 5) * px(3.3) + 4)
        self.list.setMaximumHeight(rows * px(3.3) + 4)

    def _turn(self) -> None:
        self._resting_too = not self._resting_too
        self._show_those()

    def _go_to_list(self) -> None:
        if self.list.rows.rowCount():
            self.list.setFocus()
            self.list.setCurrentIndex(self.list.rows.index(0, 0))

    # doing

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.show()

    def _mark(self, name: str) -> None:
        def done(_: object) -> None:
            self.told.hide()
            self.desk.changed.emit()

        self.desk.write(lambda store: people.add(store, name), done, lambda error: self._tell(str(error)))

    def _give(self) -> None:
        from keeper.window.people.cards import give

        give(self.desk, self, self.desk.said.emit)


def _begins(one: Named, typed: str) -> bool:
    words = [word for name in one.person.names for word in reading.same_letters(name).split()]
    return all(any(word.startswith(part) for word in words) for part in reading.same_letters(typed).split())


def _why_nobody(known: Sequence[Named], typed: str) -> str:
    if not known:
        return "No name is marked yet."
    return "No name begins so." if typed.strip() else "All who are marked rest."

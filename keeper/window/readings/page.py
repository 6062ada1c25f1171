"""The page of readings: which are noted each night, in what order, and which have ended."""

from collections.abc import Callable
from datetime import date
from functools import partial
from itertools import pairwise

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.readings import changing, trackers
from keeper.cautions import OF_THE_BODY
from keeper.errors import KeeperError
from keeper.model import Tracker
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, label, quiet_button, row
from keeper.window.readings import wording
from keeper.window.readings.row import TrackerRow

AT_ONCE = 6
"""Rows made in one turn."""


class ReadingsPage(AsksAgain, BasicPage, Paper):
    """What is noted each night; begun, changed, ordered and ended here."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self._shown: tuple[tuple[Tracker, ...], date] = (), desk.tonight()
        self._order: list[str] = []
        self._coming = Piecemeal(self)
        self.rows: list[TrackerRow] = []
        self.ended_rows: list[TrackerRow] = []
        self.offers = Flow(desk.look, *(quiet_button(one.name, partial(self._begin, one.name), f"Note {one.name} each night")
                                        for one in changing.offered(desk.tonight())), gap=1.1)  # fmt: skip
        self.empty = label(wording.EMPTY, "quiet")
        self.more = quiet_button("Note something else\u2026", self.add)
        self.ended_head = label("Ended; what was noted of them is kept", "quiet")
        self._list, self._ended = QVBoxLayout(), QVBoxLayout()
        add = self.body
        add.addWidget(label("Readings", "head"))
        add.addWidget(label(wording.HOW, "quiet"))
        add.addSpacing(desk.look.px(0.6))
        self.ended_head.hide()
        for part in (self.empty, self.offers, self._list, row(self.more, None), self.ended_head, self._ended):
            add.addWidget(part) if isinstance(part, QWidget) else add.addLayout(part)
        add.addSpacing(desk.look.px(1.2))
        add.addWidget(label(OF_THE_BODY, "quiet"))
        add.addStretch(1)
        self.lead_with(self.more)
        self.setAccessibleName("Readings")
        desk.changed.connect(self.refresh)

    def show_night(self, night: date) -> None:
        """The same on any night."""
        self.ask()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask which there are."""
        try:
            every = trackers.every(self.desk.store)
        except KeeperError as error:
            self.desk.said.emit(str(error))
            return
        if (every, self.desk.tonight()) != self._shown:
            self._show(every)

    def _show(self, every: tuple[Tracker, ...]) -> None:
        had, tonight = self._focused(), self.desk.tonight()
        self._shown = every, tonight
        over = [one for one in every if one.ended and one.ended < tonight]
        noted = [one for one in every if one not in over]
        self._order = [one.id for one in noted]
        for layout in (self._list, self._ended):
            emptied(layout)
        self.rows, self.ended_rows = [], []
        self.empty.setVisible(not noted)
        self.offers.setVisible(not noted)
        self.ended_head.setVisible(bool(over))
        pieces = [
            *few_at_a_time(AT_ONCE, lambda one: self.rows.append(self._row(one, self._list)), noted),
            *few_at_a_time(AT_ONCE, lambda one: self.ended_rows.append(self._row(one, self._ended)), over),
            lambda: self._on_all_there(had),
        ]
        # Whoever goes on by keyboard from a row is to be on it again before the next key.
        self._coming.begin(pieces, at_once=len(pieces) if had[0] or len(every) <= AT_ONCE else 1)

    def _on_all_there(self, had: tuple[str, str]) -> None:
        if self.rows:
            self.rows[0].earlier.setEnabled(False)
            self.rows[-1].later.setEnabled(False)
        self._set_tab_order()
        self._focus_again(*had)

    def _row(self, tracker: Tracker, into: QVBoxLayout) -> TrackerRow:
        made = TrackerRow(self.desk.look, tracker, self.desk.tonight())
        made.earlier.clicked.connect(lambda: self._move(tracker, -1))
        made.later.clicked.connect(lambda: self._move(tracker, 1))
        made.change.clicked.connect(lambda: self.change(tracker))
        made.end.clicked.connect(lambda: self._end_or_take_up(tracker))
        into.addWidget(made)
        return made

    def _set_tab_order(self) -> None:
        before, after = ([button for one in rows for button in one.buttons] for rows in (self.rows, self.ended_rows))
        for button, other in pairwise([*before, self.more, *after]):
            QWidget.setTabOrder(button, other)

    def _focused(self) -> tuple[str, str]:
        """Whose button has the focus, and which: a list made anew leaves the keyboard where it was."""
        every = (*self.rows, *self.ended_rows)
        at = next(((one, button) for one in every if (button := one.pressed())), None)
        return (at[0].tracker.id, at[1].text()) if at else ("", "")

    def _focus_again(self, tracker_id: str, text: str) -> None:
        again = next((one for one in (*self.rows, *self.ended_rows) if one.tracker.id == tracker_id), None)
        buttons = [button for button in again.buttons if button.isEnabled()] if again else [self.more]
        if tracker_id:
            next((button for button in buttons if button.text() == text), buttons[0]).setFocus()

    # doing

    def add(self) -> None:
        """Ask for another one."""
        from keeper.window.readings.form import TrackerForm

        TrackerForm(self.desk, self).exec()

    def change(self, tracker: Tracker) -> None:
        """Ask what becomes of one."""
        from keeper.window.readings.form import TrackerForm

        TrackerForm(self.desk, self, tracker).exec()

    def _begin(self, name: str) -> None:
        tracker = next(one for one in changing.offered(self.desk.tonight()) if one.name == name)
        self._write(lambda store: changing.begin(store, tracker))

    def _move(self, tracker: Tracker, by: int) -> None:
        order = self._order
        self._write(lambda store: changing.move(store, tracker.id, by, order))

    def _end_or_take_up(self, tracker: Tracker) -> None:
        tonight = self.desk.tonight()
        if tracker.ended and tracker.ended < tonight:
            self._write(lambda store: changing.take_up(store, tracker.id, tonight))
        else:
            self._write(lambda store: changing.retire(store, tracker.id, tonight), self.desk.said.emit)

    def _write(self, work: Callable, then: Callable[[str], None] | None = None) -> None:
        def done(said) -> None:
            if then:
                then(said)
            self.desk.changed.emit()

        self.desk.write(work, done)

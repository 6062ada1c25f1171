"""A list of what was done, or worded otherwise: each is gone to by Enter and had back by U."""

from datetime import date

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QListView

from keeper.actions.history import lately
from keeper.window.desk.desk import Desk
from keeper.window.parts.found_list import FoundList
from keeper.window.parts.history.rows import LatelyDelegate, LatelyModel, LatelyRow
from keeper.window.parts.small import quiet_button


class DoneList(FoundList):
    """The rows; ``back`` and ``there`` are buttons for the row that is marked, to be laid where they belong."""

    def __init__(self, desk: Desk, rows: LatelyModel, name: str) -> None:
        super().__init__(desk.look, rows, name, LatelyDelegate)
        self._desk = desk
        # A dozen rows are laid out at a time, so that no turn is long.
        self.setLayoutMode(QListView.LayoutMode.Batched)
        self.setBatchSize(12)
        self.back = quiet_button("Undo", self.have_back)
        self.there = quiet_button("Show it", self.open, "Go to where it is seen")
        self.activated.connect(lambda _: self.open())
        self.selectionModel().currentChanged.connect(lambda *_: self.say_acts())
        self.say_acts()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_U and not event.modifiers():
            self.have_back()
        else:
            super().keyPressEvent(event)

    def marked(self) -> LatelyRow | None:
        """The row that is marked."""
        index: QModelIndex = self.currentIndex()
        return self.model().at(index.row()) if index.isValid() else None

    def say_acts(self) -> None:
        """Let the buttons say what can be done with the row that is marked."""
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
            self._desk.turn_wanted.emit(one.done.number)
            return
        clock, earlier = self._desk.clock, one.wording
        self._desk.write(lambda store: lately.bring_back(store, earlier, clock), self._on_back)

    def _on_back(self, night: date) -> None:
        self._desk.changed.emit()
        self._desk.go("night", night)

    def open(self) -> None:
        """Go to where the marked row is seen."""
        one = self.marked()
        if one and one.wording:
            self._desk.go("night", one.wording.night)
        elif one and self.there.isEnabled():
            self._desk.go(one.done.act.page, one.done.act.night)

"""What came with archives and differs from what stands here, other than lines."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from keeper.actions.giving.taking import Difference, kept_beside
from keeper.window.desk.desk import Desk
from keeper.window.giving import wording as giving_wording
from keeper.window.giving.difference import DifferenceRow
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button

AT_A_TIME = 4
MOST_SHOWN = 400


class BesideLeaf(BasicPage, AsksAgain, Paper):
    """Each with how it is here now; ``left`` tells that the first leaf is wanted again."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.rows: list[DifferenceRow] = []
        self._coming = Piecemeal(self)
        self.back = quiet_button("\u2039 give and receive", self.left.emit, "Give and receive")
        self.told = label("", "quiet")
        self.list = QVBoxLayout()
        self.list.setSpacing(0)
        self.body.addLayout(headed(label("Kept beside", "head"), self.back))
        self.body.addWidget(self.told)
        self.body.addLayout(self.list)
        self.body.addStretch(1)
        self.lead_with(self.back)
        desk.changed.connect(self.refresh)

    def show_night(self, night: date) -> None:
        """The same on any night."""

    def ask(self) -> None:
        """Ask for all of it."""
        self.desk.reader.run(lambda store, task: kept_beside(store), self._show)

    def _show(self, those: tuple[Difference, ...]) -> None:
        self.rows = []
        emptied(self.list)
        self.told.setText(giving_wording.BESIDE if those else giving_wording.NOTHING_BESIDE)
        self._coming.begin(few_at_a_time(AT_A_TIME, self._add, those[:MOST_SHOWN]), at_once=2)

    def _add(self, one: Difference) -> None:
        made = DifferenceRow(self.desk, one)
        self.list.addWidget(made)
        self.rows.append(made)

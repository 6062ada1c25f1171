"""The fields in which a plan is asked for, and how sure it could be, told while it is chosen."""

from datetime import timedelta

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from keeper.actions.trying.beginning import LONGEST_BLOCK, MOST_BLOCKS, MOST_NIGHTS, WantedPlan
from keeper.cautions import NEVER_TRIED
from keeper.model import Tracker
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label, plain_button, row
from keeper.window.patterns.trying.sure import SureTold

BLOCKS, NIGHTS = 8, 7
"""What is offered: the least number of blocks that tells well, and a week each."""

CONFIRMED = "This is no medicine, no treatment, and nothing that a clinician prescribed."


class PlanFields(QWidget):
    """What is tried, on what it is read, and for how long; ``wanted`` comes with the plan that is to begin."""

    wanted = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        look = desk.look
        self.mark, self.reading = Choice(look, "What is done or left"), Choice(look, "What is read")
        self.later = _of(Choice(look, "Of which night it is read"), (("the same night", 0), ("the night after", 1)))
        self.blocks = _of(Choice(look, "How many blocks"), ((str(many), many) for many in range(2, MOST_BLOCKS + 1)), BLOCKS)
        self.length = _of(Choice(look, "Nights in a block"), ((str(many), many) for many in range(1, LONGEST_BLOCK + 1)), NIGHTS)
        # Tonight comes last: by the evening most of it may have been done already, or left.
        self.first = _of(Choice(look, "The first night"), (("tomorrow", 1), ("tonight", 0)))
        self.told = label("", "quiet")
        self.sure = SureTold(desk)
        self.never = label(NEVER_TRIED)
        self.confirmed = QCheckBox(CONFIRMED)
        self.begin = plain_button("Draw the lot and begin", self._begin)
        self._lay_out()
        self._listen()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(px(0.6))
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(0.8))
        grid.setVerticalSpacing(px(0.4))
        grid.setColumnStretch(1, 1)
        for place, (word, *parts) in enumerate((
            ("Do or leave", self.mark), ("See in", self.reading, self.later),
            ("For", self.blocks, _words("blocks of"), self.length, _words("nights")), ("Beginning", self.first),
        )):  # fmt: skip
            grid.addWidget(_words(word), place, 0)
            grid.addLayout(row(*parts, None), place, 1)
        body.addLayout(grid)
        for part in (self.told, self.sure, self.never):
            body.addWidget(part)
        body.addLayout(row(self.confirmed, None))
        body.addLayout(row(self.begin, None))

    def _listen(self) -> None:
        for choice in (self.mark, self.reading, self.later, self.blocks, self.length, self.first):
            choice.currentIndexChanged.connect(lambda _: self.follow())
        self.confirmed.toggled.connect(lambda _: self._allow())

    def show_trackers(self, marks: tuple[Tracker, ...], readings: tuple[Tracker, ...]) -> None:
        """Offer these; what was chosen stays chosen where it is still there."""
        for choice, its in ((self.mark, marks), (self.reading, readings)):
            before = choice.currentData()
            choice.blockSignals(True)
            choice.clear()
            for one in its:
                choice.addItem(one.name, one.id)
            choice.setCurrentIndex(max(choice.findData(before), 0))
            choice.blockSignals(False)
        if self.reading.currentData() == self.mark.currentData():
            self.reading.setCurrentIndex(next((at for at in range(self.reading.count()) if self.reading.itemData(at) != self.mark.currentData()), 0))
        self.follow()

    def plan(self) -> WantedPlan:
        """What is asked for."""
        first = self.desk.tonight() + timedelta(self.first.currentData())
        return WantedPlan(self.mark.currentData(), self.reading.currentData(), first, self.blocks.currentData(),
                      self.length.currentData(), self.later.currentData())  # fmt: skip

    @property
    def hinders(self) -> str:
        """Why the plan cannot begin, of what these fields alone can tell; "" for nothing."""
        plan = self.plan()
        if plan.mark_id == plan.reading_id:
            return "Choose something else to see it in."
        if (many := plan.blocks * plan.length) > MOST_NIGHTS:
            return f"That would take {wording.number(many)} nights; a year is the most."
        return ""

    def follow(self) -> None:
        """Tell of the plan as it is chosen now, and let it be tried how sure it could be."""
        plan = self.plan()
        nights = wording.counted(plan.blocks * plan.length, "night")
        without = plan.blocks - plan.blocks // 2
        drawn = f"By lot, {wording.number(plan.blocks // 2)} of the blocks are with \u201c{self.mark.currentText()}\u201d and {wording.number(without)} without."
        self.told.setText(self.hinders or f"{nights}, {wording.span(plan.first, plan.last)}. {drawn}")
        self.sure.ask("" if self.hinders else plan)
        self._allow()

    def _allow(self) -> None:
        self.begin.setEnabled(self.confirmed.isChecked() and not self.hinders)

    def _begin(self) -> None:
        self.wanted.emit(self.plan())


def _of(choice: Choice, items, chosen: int | None = None) -> Choice:
    for words, data in items:
        choice.addItem(words, data)
    if chosen is not None:
        choice.setCurrentIndex(choice.findData(chosen))
    return choice


def _words(words: str) -> QLabel:
    return label(words, "quiet", wrap=False)

"""The sitting with a year: its months one after another, then a few questions; kept at each step."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QPushButton, QWidget

from keeper.actions.years import sitting
from keeper.actions.years.sitting import CLOSING
from keeper.review.year import Closing, MonthStep
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row
from keeper.window.parts.typing.anywhere import TypedAnywhere
from keeper.window.year import wording as year_wording
from keeper.window.year.sitting.closing import ClosingStep
from keeper.window.year.sitting.month_step import MonthStepView


class YearSitting(TypedAnywhere, AsksAgain, BasicPage, Paper):
    """One step at a time. ``left`` comes when the person goes back to the year's page."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, ems=44)
        self.desk = desk
        self.year = desk.tonight().year
        self.step = 0
        self.steps: tuple[int, ...] = ()
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 the year", self.go_back, "Back to the page of the year")
        self.heading = label("", "head")
        self.told = label("", "quiet")
        self.turns = row(gap=desk.look.px(0.2))
        self.month = MonthStepView(desk, self._write)
        self.closing = ClosingStep(desk)
        self.former = quiet_button("", self._former)
        self.onward = QPushButton("")
        self.onward.setProperty("plain", True)
        self.onward.setAutoDefault(True)
        self.onward.clicked.connect(lambda: self._onward())
        self._lay_out()
        self.listen()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _lay_out(self) -> None:
        self.body.addLayout(headed(self.heading, self.back))
        self.body.addWidget(self.told)
        self.body.addLayout(self.turns)
        for step in (self.month, self.closing):
            self.body.addWidget(step)
            step.hide()
        self.body.addSpacing(self.desk.look.px(1))
        self.body.addLayout(row(self.former, None, self.onward))
        self.body.addStretch(1)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        self.month.dress()
        self.closing.dress()

    # going through it

    def begin(self, year: int) -> None:
        """Sit down with a year, where it was left."""
        self.year, self.step = year, 0
        self.heading.setText(str(year))
        self.told.setText("")
        self._await()
        for step in (self.month, self.closing):
            step.hide()
        self.desk.write(lambda store: sitting.begin(store, year), partial(self._begun, year))

    def _begun(self, year: int, step: int) -> None:
        # For the offer on the page of the night.
        self.desk.changed.emit()
        if year == self.year and not self.step:
            self._show_step(step)

    def _show_step(self, step: int) -> None:
        self.step = step
        self._await()
        self.verticalScrollBar().setValue(0)
        self.ask()

    def _await(self) -> None:
        """Until what comes is on the page, it can be neither kept nor passed."""
        self.depart()
        for button in (self.former, self.onward):
            button.setEnabled(False)

    def _arrive(self) -> None:
        for button in (self.former, self.onward):
            button.setEnabled(True)
        self.arrive()

    def field_of_step(self) -> QWidget | None:
        """Where words typed anywhere in the step go; None while it is not there."""
        return self.closing.first_field() if self.step == CLOSING else self.month.first_field()

    def ask(self) -> None:
        """Ask for the step shown."""
        if not self.step:
            return
        year, step = self.year, self.step
        if step == CLOSING:
            self._errand.anew(lambda store, task: sitting.closing(store, year), self._show_closing)
        else:
            self._errand.anew(lambda store, task: sitting.month_step(store, year, step), self._show_month)

    def _show_month(self, step: MonthStep) -> None:
        month = step.shown.month
        self.heading.setText(wording.month_and_year(month))
        place = step.steps.index(month.month) + 1 if month.month in step.steps else 0
        nights = wording.counted(step.shown.nights, "night") + " kept"
        self.told.setText(f"{nights} \u00b7 month {place} of {len(step.steps)} in the sitting" if place else nights)
        self._show_turns(step.steps)
        self.closing.hide()
        self.month.show_step(self.year, step)
        self.month.show()
        self._name_ways(step.before, step.after)
        self._arrive()

    def _show_closing(self, closing: Closing) -> None:
        self.heading.setText(f"The end of {closing.year}")
        self.told.setText("Answer what you like, in as many words as you like. Each answer is kept as you leave it.")
        self._show_turns(tuple(closing.steps))
        self.month.hide()
        self.closing.show_closing(closing)
        self.closing.show()
        self._name_ways(closing.before, 0)
        self._arrive()

    def _show_turns(self, steps: tuple[int, ...]) -> None:
        if steps != self.steps or not self.turns.count():
            self.steps = steps
            emptied(self.turns)
            self._group = QButtonGroup(self)
            for step in (*steps, CLOSING):
                self.turns.addWidget(self._turn(step))
            self.turns.addStretch(1)
        for button in self._group.buttons():
            button.setChecked(self._group.id(button) == self.step)

    def _turn(self, step: int) -> QWidget:
        made = QPushButton("Questions" if step == CLOSING else wording.month_letter(step))
        made.setProperty("turn", True)
        made.setCheckable(True)
        made.setAccessibleName("The closing questions" if step == CLOSING else year_wording.MONTHS[step - 1])
        made.clicked.connect(lambda: self.turn_to(step))
        self._group.addButton(made, step)
        return made

    def _name_ways(self, before: int, after: int) -> None:
        self._before, self._after = before, after
        self.former.setText(f"\u2039 {year_wording.MONTHS[before - 1]}" if before else "")
        self.former.setAccessibleName(f"Back to {year_wording.MONTHS[before - 1]}" if before else "Back")
        self.former.setVisible(bool(before))
        if not after:
            self.onward.setText("Close the year")
        elif after == CLOSING:
            self.onward.setText("Keep these, on to the questions")
        else:
            self.onward.setText(f"Keep these, on to {year_wording.MONTHS[after - 1]}")

    def _onward(self) -> None:
        year, step, after = self.year, self.step, self._after
        if step == CLOSING:
            self.keep()
            self._write(lambda store: sitting.close_year(store, year))
            self.left.emit()
            return
        self.keep()
        self._write(lambda store: sitting.settle_month(store, year, step, after))
        self._show_step(after)

    def _former(self) -> None:
        self.turn_to(self._before)

    def turn_to(self, step: int) -> None:
        """Go to another step; the one left stays undecided."""
        year = self.year
        self.keep()
        self._write(lambda store: sitting.go_to(store, year, step))
        self._show_step(step)

    def go_back(self) -> None:
        """Go back to the year's page; it is taken up here again."""
        self.keep()
        self.left.emit()

    def keep(self) -> None:
        """Keep what is being typed."""
        self.month.words.keep()
        self.closing.keep()

    def _write(self, work: Callable) -> None:
        self.desk.write(work, lambda _: self.desk.changed.emit())

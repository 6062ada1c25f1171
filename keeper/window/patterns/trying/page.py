"""Finding out by trying: a plan chosen, the lot drawn, kept to night by night, and told at its end."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from keeper import cautions
from keeper.actions.readings import trackers
from keeper.actions.trying import beginning, results, tonight
from keeper.actions.trying import wording as trying_wording
from keeper.actions.trying.beginning import WantedPlan
from keeper.actions.trying.results import Known
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, breakable, emptied, label, quiet_button, row
from keeper.window.patterns.trying.ended import EndedTrying
from keeper.window.patterns.trying.plan import PlanFields

WHY = (
    "A pattern is no cause; a fair try is better. Choose one thing to do or leave, and one reading to see it in. The lot "
    "says in which blocks of nights you do it; each night tells you, and the end tells whether it made a difference."
)
NO_MARK = "There is nothing yet that is noted as yes or no, such as tea after noon. It is begun among the readings."
NO_READING = "There is only one reading; what is tried needs another to be seen in."


class TryingPage(AsksAgain, BasicPage, Paper):
    """What is tried, or can be, and what was; ``left`` comes when the person goes back."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.current: Known | None = None
        self.ended: list[EndedTrying] = []
        self._shown: object = None
        self.back = quiet_button("\u2039 patterns", self.left.emit, "Back to patterns")
        self.why = label(WHY, "quiet")
        self.lacking = label("", "quiet")
        self.readings = quiet_button("Readings \u203a", lambda: desk.go("readings"), "To the readings")
        self.plan = PlanFields(desk)
        self.plan.wanted.connect(self.begin)
        self.of, self.now, self.behind = label(""), label(""), label("", "quiet")
        self.not_yet = label(trying_wording.WHY_NOT_BEFORE, "quiet")
        self.stop = quiet_button("Stop it now", self.end, "Stop what is tried now")
        self.over_head = label("Tried before", "quiet")
        self.over = QVBoxLayout()
        self.caution = label(cautions.LABEL, "quiet")
        self._lay_out()
        self.lead_with(self.back)
        self.setAccessibleName("Finding out by trying")
        desk.changed.connect(self.refresh)

    def _lay_out(self) -> None:
        add, px = self.body, self.desk.look.px
        add.addLayout(row(self.back, None))
        add.addWidget(label("Finding out by trying", "head"))
        for part in (self.why, self.lacking):
            add.addWidget(part)
        add.addLayout(row(self.readings, None))
        add.addWidget(self.plan)
        for part in (self.of, self.now, self.behind, self.not_yet):
            add.addWidget(part)
        add.addLayout(row(self.stop, None))
        add.addSpacing(px(0.8))
        add.addWidget(self.over_head)
        add.addLayout(self.over)
        add.addSpacing(px(1.2))
        add.addWidget(self.caution)
        add.addStretch(1)

    def show_night(self, night: date) -> None:
        """The same on any night."""
        self.ask()

    # showing

    def ask(self) -> None:
        """Ask what is tried, what was, and what could be."""
        store, here = self.desk.store, self.desk.tonight()
        try:
            known, noted = results.every(store, here), trackers.in_force(store, here)
        except KeeperError as error:
            self.desk.said.emit(str(error))
            return
        if (here, known, noted) != self._shown:
            self._shown = here, known, noted
            self._show(known, noted, here)

    def _show(self, known, noted, here: date) -> None:
        self.current = next((one for one in known if not one.over), None)
        marks = tuple(one for one in noted if one.form == "mark")
        possible = bool(marks) and len(noted) > 1 and not self.desk.store.only_read
        self.lacking.setText("" if possible or self.current else NO_READING if marks else NO_MARK)
        for part, seen in ((self.why, not self.current), (self.lacking, bool(self.lacking.text())),
                           (self.readings, bool(self.lacking.text())), (self.plan, possible and not self.current)):  # fmt: skip
            part.setVisible(seen)
        if possible and not self.current:
            self.plan.show_trackers(marks, noted)
        self.caution.setText(cautions.under(any(one.body for one in (*noted, *(one.reading for one in known)))))
        self._show_current(here)
        self._show_ended([one for one in known if one.over])

    def _show_current(self, here: date) -> None:
        one = self.current
        for part in (self.of, self.now, self.behind, self.not_yet, self.stop):
            part.setVisible(one is not None)
        if one is None:
            return
        self.of.setText(breakable(f"{trying_wording.plan(one)}."))
        self.now.setText(breakable(_now(one, here)))
        self.behind.setText(f"{wording.number(one.lived)} of {wording.counted(one.trying.nights, 'night')} are lived.")

    def _show_ended(self, known: list[Known]) -> None:
        emptied(self.over)
        self.ended = [EndedTrying(self.desk, one) for one in known]
        self.over_head.setVisible(bool(known))
        for one in self.ended:
            self.over.addWidget(one)
        if self.ended:
            self.ended[0].unfold()

    # doing

    def begin(self, plan: WantedPlan) -> None:
        """Draw the lot for a plan that was confirmed."""
        seed, here, agreed = beginning.any_seed(), self.desk.tonight(), self.plan.confirmed.isChecked()
        self.desk.write(lambda store: beginning.begin(store, plan, seed, here, agreed), lambda _: self._begun())

    def _begun(self) -> None:
        # What was confirmed was confirmed of that one.
        self.plan.confirmed.setChecked(False)
        self.desk.said.emit("The lot is drawn. Each night tells whether it is with or without.")
        self.desk.changed.emit()
        self.stop.setFocus()

    def end(self) -> None:
        """Stop what is tried now; it can be undone."""
        trying_id, here = self.current.trying.id, self.desk.tonight()
        self.desk.write(lambda store: beginning.stop(store, trying_id, here), self._on_stopped)

    def _on_stopped(self, sentence: str) -> None:
        self.desk.said.emit(sentence)
        self.desk.changed.emit()
        self.back.setFocus()


def _now(one: Known, here: date) -> str:
    if here < one.trying.first:
        return f"It begins on {wording.full_date(one.trying.first)}."
    there = tonight.where(one.trying, one.mark.name, here)
    return f"Tonight: {there}." if there else f"Tonight\u2019s {one.reading.name} is the last that is read."

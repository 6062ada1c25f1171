"""After a mark: two marks, the nights in which the other may come, and perhaps a phase, are picked; the answer is told."""

from collections.abc import Callable, Sequence

from PySide6.QtGui import QIntValidator
from PySide6.QtWidgets import QLineEdit, QWidget

from keeper.actions.courses.after import LONGEST_PHASE, PhaseAsked, after_mark
from keeper.actions.courses.asked import Askable
from keeper.review.courses.after import METHOD, AfterTold
from keeper.window.parts.small import label, row
from keeper.window.patterns.courses.after_chart import AfterChart
from keeper.window.patterns.courses.leaf import CourseLeaf, choice_of, fill_choice

WITHIN = (1, 2, 3, 5, 7, 14)

ANY, PHASE = "any", "phase"


class AfterPage(CourseLeaf):
    """How often another mark follows within some nights, against otherwise; its thing is the keys of first, second and phase."""

    title = "After a mark"
    nothing = "A mark is needed that was noted on some nights. How often another comes after it is then told."
    goes_together = True

    def make_choices(self) -> Sequence[QWidget]:
        self.second = choice_of(self.desk, "The mark that may come after", self.ask_chosen)
        self.within = choice_of(self.desk, "In how many nights after", self.ask_chosen)
        self.first = choice_of(self.desk, "The mark that comes first", self.ask_chosen)
        self.where = choice_of(self.desk, "Among which nights", self._turn_phase)
        self.of_phase = choice_of(self.desk, "The mark from which the phase counts", self.ask_chosen)
        self.begins, self.ends = self._nights("First night of the phase", "1"), self._nights("Last night of the phase", "14")
        _offer(self.within, [(f"within {night} night{'s' * (night > 1)}", night) for night in WITHIN], 1)
        _offer(self.where, [("on all nights", ANY), ("in a phase", PHASE)], 0)
        self._fit_nights()
        self.nights_of_phase = QWidget()
        nights, to, after = (label(text, "quiet", wrap=False) for text in ("nights", "to", "after"))
        # One thing, that goes on in a further row as a whole.
        self.nights_of_phase.setLayout(row(nights, self.begins, to, self.ends, after, self.of_phase))
        return self.second, self.within, label("after", "quiet", wrap=False), self.first, self.where, self.nights_of_phase

    def _nights(self, name: str, begins_as: str) -> QLineEdit:
        made = QLineEdit(begins_as)
        made.setAccessibleName(name)
        made.setValidator(QIntValidator(0, LONGEST_PHASE, made))
        made.editingFinished.connect(self._phase_typed)
        return made

    def dress(self) -> None:
        super().dress()
        self._fit_nights()

    def _fit_nights(self) -> None:
        for edit in (self.begins, self.ends):
            edit.setFixedWidth(self.desk.look.px(2.4))

    def make_charts(self) -> Sequence[QWidget]:
        self.chart = AfterChart(self.desk.look)
        return (self.chart,)

    def fill(self, askable: Askable) -> bool:
        for place, choice in enumerate((self.first, self.second, self.of_phase)):
            fill_choice(choice, askable.marks, place, self.wanted_at(place))
        self._show_phase()
        return bool(askable.marks)

    def phase(self) -> PhaseAsked | None:
        """The phase as it is typed; None for all nights."""
        if self.where.currentData() == ANY:
            return None
        first, last = (int(edit.text() or 0) for edit in (self.begins, self.ends))
        return PhaseAsked(self.of_phase.currentData(), first, last)

    def question(self) -> Callable:
        first, second, within, phase = self.first.currentData(), self.second.currentData(), self.within.currentData(), self.phase()
        return lambda store, task: after_mark(store, first, second, within, phase)

    def show_told(self, told: AfterTold) -> None:
        self.chart.show_told(told)
        self.tell(told.sentences, (told.figures,), METHOD, told.first.of_the_body or told.second.of_the_body)

    def _turn_phase(self) -> None:
        self._show_phase()
        self.ask_chosen()

    def _show_phase(self) -> None:
        self.nights_of_phase.setVisible(self.where.currentData() == PHASE)

    def _phase_typed(self) -> None:
        if self.askable and self.where.currentData() == PHASE:
            self.ask_chosen()


def _offer(choice, its: Sequence[tuple[str, object]], at: int) -> None:
    choice.blockSignals(True)
    for told, one in its:
        choice.addItem(told, one)
    choice.setCurrentIndex(at)
    choice.blockSignals(False)

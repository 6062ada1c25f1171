"""Cycles: a mark that comes in cycles and a reading are picked; cycles are laid under one another, phases can be moved."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QWidget

from keeper.actions.courses import cycles as cycles_asked
from keeper.actions.courses.asked import Askable
from keeper.review.courses.cycles import METHOD, METHOD_OF_RISE, RECORD, CyclesTold
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, quiet_button
from keeper.window.patterns.courses.cycles_chart import MOST, CyclesChart
from keeper.window.patterns.courses.figures import FiguresTable
from keeper.window.patterns.courses.leaf import CourseLeaf, choice_of, fill_choice


class CyclesPage(CourseLeaf):
    """Whole cycles of a mark, and where a second phase begins in them; its thing is the keys of mark and reading."""

    title = "Cycles"
    nothing = "A mark that comes in cycles and another reading are needed. Its cycles are then laid under one another."

    def make_choices(self) -> Sequence[QWidget]:
        self.reading = choice_of(self.desk, "The reading", self.ask_chosen)
        self.mark = choice_of(self.desk, "The mark that begins a cycle", self.ask_chosen)
        return self.reading, label("in the cycles of", "quiet", wrap=False), self.mark

    def make_charts(self) -> Sequence[QWidget]:
        self.of: CyclesTold | None = None
        self.record = label(RECORD, "quiet")
        self.chart = CyclesChart(self.desk.look, "Cycles under one another")
        self.here = quiet_button("Second phase from this day", self.say_rise)
        self.none = quiet_button("No second phase", self.say_no_rise)
        self.rule = quiet_button("As the rule finds it", self.leave_to_rule)
        self.phase = Flow(self.desk.look, self.here, self.none, self.rule, gap=1.2)
        self.drawn = label("", "quiet")
        return self.record, self.chart, self.drawn, self.phase

    def make_tables(self) -> Sequence[FiguresTable]:
        return FiguresTable(self.desk.look, "The days of the cycle"), FiguresTable(self.desk.look, "The cycles")

    def fill(self, askable: Askable) -> bool:
        fill_choice(self.mark, askable.marks_noted, wanted=self.wanted_at(0))
        fill_choice(self.reading, askable.readings, wanted=self.wanted_at(1))
        return bool(askable.marks_noted and askable.readings)

    def question(self) -> Callable:
        mark, reading = self.mark.currentData(), self.reading.currentData()
        return lambda store, task: cycles_asked.cycles_of(store, mark, reading)

    def show_told(self, told: CyclesTold) -> None:
        self.of = told
        self.chart.show_told(told)
        known, warm = bool(told.cycles), told.temperature is not None
        self.record.setVisible(known)
        self.phase.setVisible(known and warm)
        more = len(told.cycles) - MOST
        self.drawn.setText(f"The latest {MOST} are drawn; the numbers have all." if more > 0 else "")
        self.drawn.setVisible(more > 0)
        method = f"{METHOD} {METHOD_OF_RISE}" if warm else METHOD
        self.tell(told.sentences, (told.by_day, told.by_cycle), method, True)

    # where a second phase begins

    def say_rise(self) -> None:
        """Let the second phase begin on the day that is pointed at."""
        one, spot = self.chart.cycle, self.chart.spot
        if one and spot is not None and spot >= len(one.values):
            self.desk.said.emit("That day is after the end of the cycle.")
            return
        self._say(lambda store, mark, begins, day: cycles_asked.say_rise(store, mark, begins, day))

    def say_no_rise(self) -> None:
        """Let the cycle that is pointed at have none."""
        self._say(lambda store, mark, begins, day: cycles_asked.say_no_rise(store, mark, begins))

    def leave_to_rule(self) -> None:
        """Let the rule say it again of the cycle that is pointed at."""
        self._say(lambda store, mark, begins, day: cycles_asked.leave_to_rule(store, mark, begins))

    def _say(self, say: Callable) -> None:
        one, spot = self.chart.cycle, self.chart.spot
        if one is None or spot is None:
            self.desk.said.emit("Point at a day of a cycle first: by the arrow keys in the drawing, or by a click.")
            return
        mark = self.of.mark.id
        self.desk.write(lambda store: say(store, mark, one.begins, spot + 1), lambda _: self.desk.changed.emit())

"""Around a mark: mark, reading and nights are picked; the course is drawn and told."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QWidget

from keeper.actions.courses.around import around_mark
from keeper.actions.courses.asked import Askable
from keeper.review.courses.around import METHOD, AroundTold
from keeper.window.parts.small import label
from keeper.window.patterns.courses.around_chart import AroundChart
from keeper.window.patterns.courses.leaf import CourseLeaf, choice_of, fill_choice

SPANS = (3, 7, 14, 30)


class AroundPage(CourseLeaf):
    """The course of a reading in the nights before and after each night with a mark; its thing is both keys."""

    title = "Around a mark"
    nothing = "A mark and another reading are needed, each noted on some nights. Around the nights with the mark the reading is then looked at."
    goes_together = True

    def make_choices(self) -> Sequence[QWidget]:
        self.mark = choice_of(self.desk, "The mark", self.ask_chosen)
        self.reading = choice_of(self.desk, "The reading", self.ask_chosen)
        self.span = choice_of(self.desk, "Nights before and after", self.ask_chosen)
        self.span.blockSignals(True)
        for span in SPANS:
            self.span.addItem(f"{span} nights", span)
        self.span.setCurrentIndex(SPANS.index(7))
        self.span.blockSignals(False)
        around, before_and_after = (label(text, "quiet", wrap=False) for text in ("around", "before and after"))
        return self.reading, around, self.mark, self.span, before_and_after

    def make_charts(self) -> Sequence[QWidget]:
        self.chart = AroundChart(self.desk.look, "Course around the mark")
        return (self.chart,)

    def fill(self, askable: Askable) -> bool:
        fill_choice(self.mark, askable.marks, wanted=self.wanted_at(0))
        fill_choice(self.reading, askable.readings, wanted=self.wanted_at(1))
        return bool(askable.marks and askable.readings)

    def question(self) -> Callable:
        mark, reading, span = self.mark.currentData(), self.reading.currentData(), self.span.currentData()
        return lambda store, task: around_mark(store, mark, reading, span, task.progress)

    def show_told(self, told: AroundTold) -> None:
        self.chart.show_told(told)
        self.tell(told.sentences, (told.figures,), METHOD, told.reading.body or told.mark.of_the_body)

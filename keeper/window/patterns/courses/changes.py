"""Changes: a reading is picked; when its level shifted is drawn and told, and how the month stands to the usual."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QWidget

from keeper.actions.courses.asked import Askable
from keeper.actions.courses.changes import changes_of
from keeper.review.courses.changes import METHOD, ChangesTold
from keeper.window.parts.small import label
from keeper.window.patterns.courses.changes_strip import ChangesStrip
from keeper.window.patterns.courses.leaf import CourseLeaf, choice_of, fill_choice


class ChangesPage(CourseLeaf):
    """When the level of a reading shifted; its thing is the reading's key alone, in a tuple."""

    title = "Changes"
    nothing = "A reading other than a mark is needed. When its level shifted is then told."

    def make_choices(self) -> Sequence[QWidget]:
        self.reading = choice_of(self.desk, "The reading", self.ask_chosen)
        return label("the level of", "quiet", wrap=False), self.reading

    def make_charts(self) -> Sequence[QWidget]:
        self.strip = ChangesStrip(self.desk.look, "Levels of the reading")
        return (self.strip,)

    def fill(self, askable: Askable) -> bool:
        fill_choice(self.reading, askable.readings, wanted=self.wanted_at(0))
        return bool(askable.readings)

    def question(self) -> Callable:
        reading = self.reading.currentData()
        return lambda store, task: changes_of(store, reading, task.progress, task.stopped)

    def show_told(self, told: ChangesTold) -> None:
        self.strip.show_told(told)
        self.tell(told.sentences, (told.figures,), METHOD, told.reading.body)

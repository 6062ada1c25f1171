"""What can be saved of a broken keeper, and the way to a mended one; in the window, or before there can be one."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.damage import mending, telling
from keeper.errors import KeeperError
from keeper.window.desk.lanes import Lane
from keeper.window.desk.look import Look
from keeper.window.mending.doubtful import DoubtfulBox
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import breakable, emptied, label, plain_button, quiet_button, row

FIRST = (
    "Nothing is changed by looking. What can be saved is counted and shown first; then a new keeper is made of it if you "
    "say so, and the broken file is kept beside it."
)
DOUBTFUL = "These stand in the file, but some of their letters may not be what you wrote. Take those that read right."
LEFT_OVER = "These stand where only lines stand that were taken out. Take those that you miss."


class MendingView(QWidget):
    """Looks when asked, shows what was found, mends. ``mended`` is called when a new keeper waits to be put into place."""

    def __init__(self, look: Look, folder: Path, lane: Lane, mended: Callable[[], None]) -> None:
        super().__init__()
        self._look, self._folder, self._mended = look, folder, mended
        self._errand = Errand(lane)
        self.survey: mending.Survey | None = None
        self.why = label("", "plain")
        self.first = label(FIRST, "quiet")
        self.see = plain_button("See what can be saved", self.look_at_it)
        self.stop = quiet_button("Stop", self._stop)
        self.progress = label("", "quiet")
        self.saved = QVBoxLayout()
        self.doubtful = DoubtfulBox(look, "Doubtful", DOUBTFUL)
        self.left_over = DoubtfulBox(look, "Left over", LEFT_OVER)
        self.mend = plain_button("Make the mended keeper", self._mend)
        self._lay_out()
        self._show_working("")

    def _lay_out(self) -> None:
        px = self._look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(px(0.6))
        self.saved.setSpacing(px(0.3))
        for part in (self.why, self.first):
            body.addWidget(part)
        body.addLayout(row(self.see, self.progress, self.stop, None))
        body.addLayout(self.saved)
        body.addWidget(self.doubtful)
        body.addWidget(self.left_over)
        body.addLayout(row(self.mend, None))
        self.mend.hide()

    def say_why(self, sentence: str) -> None:
        """Tell what is wrong with the keeper."""
        self.why.setText(breakable(sentence))

    def look_at_it(self) -> None:
        """Count what can be saved."""
        folder = self._folder
        self._errand.anew(lambda store, task: mending.look(folder, task.progress), self._show, self._fail, self._hear)
        self._show_working("Looking\u2026")

    def _mend(self) -> None:
        survey, taken = self.survey, telling.takeable((*self.doubtful.taken(), *self.left_over.taken()))
        self._errand.anew(
            lambda store, task: mending.mend(survey, taken, datetime.now(), task.progress),
            lambda _: self._mended(), self._fail, self._hear,
        )  # fmt: skip
        self._show_working("Mending\u2026")

    def _stop(self) -> None:
        self._errand.stop()
        self._show_working("")
        (self.mend if self.survey else self.see).setFocus()

    def _hear(self, share: float, words: str) -> None:
        self.progress.setText(f"{words}: {share:.0%}")

    def _fail(self, error: KeeperError) -> None:
        self._show_working("")
        self.progress.setText(str(error))
        self.progress.show()

    def _show(self, survey: mending.Survey) -> None:
        self.survey = survey
        self._show_working("")
        emptied(self.saved)
        told = telling.told(survey)
        for sentence in told.saved:
            self.saved.addWidget(label(sentence, "plain"))
        for sentence in told.lacking:
            self.saved.addWidget(label(breakable(sentence), "quiet"))
        self.doubtful.show_lines(survey, survey.choice.doubtful)
        self.left_over.show_lines(survey, survey.choice.left_over)
        self.first.setVisible(False)
        self.see.setText("Look again")
        self.mend.setFocus()

    def _show_working(self, words: str) -> None:
        self.progress.setText(words)
        for part in (self.progress, self.stop):
            part.setVisible(bool(words))
        self.see.setVisible(not words)
        self.mend.setVisible(not words and self.survey is not None)

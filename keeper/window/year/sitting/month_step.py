"""A month in the sitting: its photo and its lines, each to be kept, changed or dropped."""

from collections.abc import Callable

from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from keeper.actions.years import shown as years
from keeper.actions.years import sitting
from keeper.actions.years.shown import LINES_OF_A_MONTH
from keeper.model import Line
from keeper.review.year import MonthStep
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row, rule
from keeper.window.parts.typing.month_words import MonthWordsBox
from keeper.window.year.lines import LineRows
from keeper.window.year.photos import LargePhoto


class MonthStepView(QWidget):
    """One month. ``write`` queues what the person decides."""

    def __init__(self, desk: Desk, write: Callable[[Callable], None]) -> None:
        super().__init__()
        self.desk = desk
        self.step: MonthStep | None = None
        self._year, self._write = 0, write
        self.words = MonthWordsBox(desk)
        self.held = label("The words about this month rest.", "quiet")
        self.photo = LargePhoto(desk)
        self.caption = label("", "quiet")
        self.change = quiet_button("Another photo", self._change, "Choose another photo for the month")
        self.drop = quiet_button("No photo", self._drop, "Let the month have no photo")
        self.rows = LineRows(desk, self._another, self._leave_out)
        self.none = label("", "quiet")
        self.more = quiet_button("One more line", lambda: self._another(None), "Choose one more line for the month")
        self.again = quiet_button("As proposed", self._again, "Propose the photo and lines of the month again")
        self._lay_out()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, px(0.4), 0, 0)
        body.setSpacing(px(0.4))
        body.addWidget(self.words)
        body.addWidget(self.held)
        body.addSpacing(px(0.4))
        body.addWidget(self.photo)
        body.addWidget(self.caption)
        body.addLayout(row(self.change, self.drop, None, gap=px(1.2)))
        body.addSpacing(px(0.6))
        body.addWidget(label("Lines to keep of this month", "quiet"))
        body.addWidget(rule())
        body.addWidget(self.rows)
        body.addWidget(self.none)
        body.addLayout(row(self.more, self.again, None, gap=px(1.2)))

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.words.dress()
        self.photo.updateGeometry()
        self.photo.resizeEvent(None)

    def show_step(self, year: int, step: MonthStep) -> None:
        """Show a month of a year."""
        self._year, self.step = year, step
        shown = step.shown
        self.words.show_words(shown.month, shown.words)
        # What is held back must not be typed over unseen.
        self.words.setVisible(not step.words_rest)
        self.held.setVisible(step.words_rest)
        self.photo.show_photo(shown.photo)
        self.caption.setText(self._captioned(step))
        others = any(photo != shown.photo for photo in step.photos)
        self.change.setText("Another photo" if shown.photo else "Choose a photo")
        self.change.setVisible(others)
        self.drop.setVisible(shown.photo is not None)
        self.rows.show_lines(shown.lines)
        self.none.setText("No line is kept." if step.others else "There are no lines in this month.")
        self.none.setVisible(not shown.lines)
        free = len(shown.lines) < LINES_OF_A_MONTH and len(shown.lines) < len(step.others)
        self.more.setVisible(free)

    def first_field(self) -> QWidget | None:
        """Where words go that are typed anywhere in the step."""
        return None if self.step is None or self.words.isHidden() else self.words.field

    def _captioned(self, step: MonthStep) -> str:
        if step.shown.photo:
            return step.shown.photo.caption
        return "No photo for this month." if step.photos else "There is no photo in this month."

    # deciding

    def _number(self) -> tuple[int, int]:
        return self._year, self.step.shown.month.month

    def _change(self) -> None:
        from keeper.window.year.dialogs import PhotoDialog

        others = [photo for photo in self.step.photos if photo != self.step.shown.photo]
        dialog = PhotoDialog(self.desk, others, self)
        if dialog.exec() == QDialog.DialogCode.Accepted and dialog.chosen:
            year, month = self._number()
            photo_id = dialog.chosen.id
            self._write(lambda store: sitting.keep_photo(store, year, month, photo_id))

    def _drop(self) -> None:
        year, month = self._number()
        self._write(lambda store: sitting.keep_photo(store, year, month, None))

    def _another(self, line: Line | None) -> None:
        from keeper.window.year.dialogs import LineDialog

        year, month = self._number()
        shown = {one.id for one in self.step.shown.lines}
        dialog = LineDialog(self.desk, year, month, [month], shown, self.step.place_names, self)
        if dialog.exec() == QDialog.DialogCode.Accepted and dialog.chosen:
            old, new = line.id if line else "", dialog.chosen.id
            self._write(lambda store: years.replace_line(store, year, month, old, new))

    def _leave_out(self, line: Line) -> None:
        year, month = self._number()
        self._write(lambda store: years.replace_line(store, year, month, line.id, ""))

    def _again(self) -> None:
        year, month = self._number()
        self._write(lambda store: years.propose_again(store, year, month))

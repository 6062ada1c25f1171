"""The parts of a year's page, each shown anew only when what it tells has changed."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper import cautions, settings
from keeper.review.year import YearMonth, YearReview
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, headed, label, quiet_button, row, rule
from keeper.window.year import wording as year_wording
from keeper.window.year.lines import LineRows
from keeper.window.year.photos import MonthPhotos


class YearPart(QWidget):
    """A part of the page under a small heading; hidden when there is nothing to tell."""

    title = ""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._shown: object = None
        self.body: QVBoxLayout | None = None
        self.hide()

    def _begin(self) -> None:
        # Not before there is something to tell: the page opens the sooner.
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, self.desk.look.px(1.4), 0, 0)
        self.body.setSpacing(self.desk.look.px(0.5))
        if self.title:
            self.body.addWidget(label(self.title, "quiet", wrap=False))
            self.body.addWidget(rule())
        self.build()

    def build(self) -> None:
        """Make what the part consists of."""
        raise NotImplementedError

    def told(self, review: YearReview) -> object:
        """What of a year this part tells; None for nothing."""
        raise NotImplementedError

    def show_told(self, review: YearReview) -> None:
        """Show it."""
        raise NotImplementedError

    def show_review(self, review: YearReview) -> bool:
        """Show this part of a year; whether there was anything to do."""
        told = self.told(review)
        if told == self._shown:
            return False
        self._shown = told
        if told is not None:
            if self.body is None:
                self._begin()
            self.show_told(review)
        self.setVisible(told is not None)
        return True

    def forget(self) -> None:
        """Show it anew the next time, in another palette or size."""
        self._shown = ...


class PhotosPart(YearPart):
    """The months, each with its photo."""

    def build(self) -> None:
        self.photos = MonthPhotos(self.desk)
        self.none = label("No photo was kept.", "quiet")
        self.body.addWidget(self.photos)
        self.body.addWidget(self.none)

    def told(self, review: YearReview) -> object:
        return tuple((one.month, one.photo, one.nights) for one in review.shown_months) or None

    def show_told(self, review: YearReview) -> None:
        any_photo = any(one.photo for one in review.shown_months)
        # A year of empty frames tells nothing.
        self.photos.show_months(review.shown_months if any_photo else ())
        self.photos.setVisible(any_photo)
        self.none.setVisible(not any_photo)


class LinesPart(YearPart):
    """The lines that stand for the year."""

    title = "Lines that stand for the year"

    def __init__(self, desk: Desk, another: Callable, leave_out: Callable, again: Callable) -> None:
        super().__init__(desk)
        self._another, self._leave_out, self._propose_again = another, leave_out, again

    def build(self) -> None:
        self.rows = LineRows(self.desk, self._another, self._leave_out)
        self.again = quiet_button("As proposed", self._propose_again, "Propose the lines of the year again")
        self.more = quiet_button("One more line", lambda: self._another(None), "Choose one more line for the year")
        self.body.addWidget(self.rows)
        self.body.addLayout(row(self.more, self.again, None, gap=self.desk.look.px(1.2)))

    def told(self, review: YearReview) -> object:
        if review.brief and not review.own_lines:
            return None
        return (review.lines, review.own_lines) if review.lines or review.own_lines else None

    def show_told(self, review: YearReview) -> None:
        from keeper.actions.years.shown import LINES_OF_THE_YEAR

        self.rows.show_lines(review.lines)
        self.again.setVisible(review.own_lines)
        self.more.setVisible(len(review.lines) < LINES_OF_THE_YEAR)


class KeptPart(YearPart):
    """What the person kept of a month, gone through in the sitting; each month is a part of its own."""

    def __init__(self, desk: Desk, month: int) -> None:
        super().__init__(desk)
        self.month = month

    def build(self) -> None:
        px = self.desk.look.px
        self.body.setContentsMargins(0, px(0.4), 0, 0)
        self.over = label("Month by month, as you kept it", "quiet")
        self.over.setContentsMargins(0, px(1.0), 0, 0)
        self.line = rule()
        self.rows = LineRows(self.desk)
        for part in (self.over, self.line, label(year_wording.MONTHS[self.month - 1], "quiet"), self.rows):
            self.body.addWidget(part)

    def told(self, review: YearReview) -> object:
        kept = [one for one in review.settled if one.lines]
        mine = next((one for one in kept if one.month.month == self.month), None)
        return (mine.lines, mine is kept[0]) if mine else None

    def show_told(self, review: YearReview) -> None:
        lines, first = self.told(review)
        self.over.setVisible(first)
        self.line.setVisible(first)
        self.rows.show_lines(lines)


class FlowPart(YearPart):
    """The themes through the months."""

    title = "What it was about"

    def __init__(self, desk: Desk, open_one: Callable) -> None:
        super().__init__(desk)
        self._open = open_one

    def build(self) -> None:
        from keeper.window.year.flow import FlowView

        self.view = FlowView(self.desk.look)
        self.view.picked.connect(self._open)
        self.scale = label("", "quiet")
        self.body.addWidget(self.view)
        self.body.addWidget(self.scale)

    def told(self, review: YearReview) -> object:
        return (review.flow, _numbers(review.shown_months)) if review.flow else None

    def show_told(self, review: YearReview) -> None:
        self.view.show_flow(review.flow, _numbers(review.shown_months))
        self.scale.setText(year_wording.scale_of_flow(self.view.most()))


class PlacesPart(YearPart):
    """Where the nights were spent."""

    title = "Where"

    def __init__(self, desk: Desk, open_one: Callable) -> None:
        super().__init__(desk)
        self._open = open_one

    def build(self) -> None:
        from keeper.window.year.places import YearPlaces

        self.sentence = label("")
        self.places = YearPlaces(self.desk, self._open)
        self.body.addWidget(self.sentence)
        self.body.addWidget(self.places)

    def told(self, review: YearReview) -> object:
        return (review.places, review.travels) if review.places.nights else None

    def show_told(self, review: YearReview) -> None:
        self.sentence.setText(year_wording.whereabouts(review.places, review.travels))
        self.places.show_year(review.places, review.travels)

    def forget(self) -> None:
        super().forget()
        if self.body:
            self.places.dress()


class ReadingsPart(YearPart):
    """The readings by month or by week, against the year before."""

    title = "Readings"

    def build(self) -> None:
        from keeper.window.parts.choice import Choice

        self.by = Choice(self.desk.look, "Readings by month or by week")
        for part in ("month", "week"):
            self.by.addItem(f"by {part}", part)
        self.by.setCurrentIndex(self.by.findData(settings.read(self.desk.kept, "year_readings")))
        self.by.activated.connect(lambda _: self._choose())
        self.legend = label("", "quiet")
        self.strips = QVBoxLayout()
        self.strips.setSpacing(self.desk.look.px(0.6))
        self.body.addLayout(headed(self.legend, self.by))
        self.body.addLayout(self.strips)
        self.caution = label("", "quiet")
        self.body.addWidget(self.caution)

    def told(self, review: YearReview) -> object:
        return (review.year, review.readings) if review.readings else None

    def show_told(self, review: YearReview) -> None:
        from keeper.window.year.readings import ReadingStrip

        then = any(one.nights for of in review.readings for one in of.before)
        marks = any(of.tracker.form == "mark" for of in review.readings)
        self.legend.setText(year_wording.legend(review.year, then, marks))
        self.caution.setText(cautions.under(any(of.tracker.body for of in review.readings)))
        emptied(self.strips)
        for of in review.readings:
            self.strips.addWidget(ReadingStrip(self.desk.look, of, review.year, self.by.currentData()))

    def _choose(self) -> None:
        self.desk.change_setting("year_readings", self.by.currentData())
        for place in range(self.strips.count()):
            self.strips.itemAt(place).widget().show_by(self.by.currentData())


class WordsPart(YearPart):
    """The words that rose and fell."""

    title = "Words"

    def build(self) -> None:
        self.rose, self.fell = label("", "plain"), label("", "plain")
        self.body.addWidget(self.rose)
        self.body.addWidget(self.fell)

    def told(self, review: YearReview) -> object:
        comparable = review.counts.lines and review.before.lines and not review.brief
        return (review.rose, review.fell) if comparable else None

    def show_told(self, review: YearReview) -> None:
        rose = f"More often than the year before: {year_wording.moved(review.rose)}" if review.rose else ""
        fell = f"Less often: {year_wording.moved(review.fell)}" if review.fell else ""
        self.rose.setText(rose or ("" if fell else "No word stands out against the year before."))
        self.fell.setText(fell)
        self.rose.setVisible(bool(self.rose.text()))
        self.fell.setVisible(bool(fell))


class AnswersPart(YearPart):
    """The closing questions that were answered."""

    title = "At the end of the year"

    def build(self) -> None:
        self.answers = QVBoxLayout()
        self.answers.setSpacing(self.desk.look.px(0.5))
        self.body.addLayout(self.answers)

    def told(self, review: YearReview) -> object:
        return review.answers or None

    def show_told(self, review: YearReview) -> None:
        emptied(self.answers)
        for one in review.answers:
            said = label(one.answer, "words")
            said.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self.answers.addWidget(label(one.question, "question"))
            self.answers.addWidget(said)


def _numbers(months: Sequence[YearMonth]) -> tuple[int, ...]:
    return tuple(one.month.month for one in months)



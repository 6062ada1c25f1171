"""The year: what it held, what it was about, where it was spent, and the way into its sitting."""

from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialog

from keeper.actions.years import shown as years
from keeper.days import FIRST_NIGHT
from keeper.model import Line
from keeper.review.year import YearReview
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.page_stack import PageStack
from keeper.window.parts.small import Paper, headed, label, quiet_button
from keeper.window.year import sections
from keeper.window.year import wording as year_wording
from keeper.window.year.sitting.offer import SIT

if TYPE_CHECKING:
    from keeper.window.parts.word_picture.page import WordPicturePage
    from keeper.window.year.sitting.page import YearSitting


class YearOverview(BasicPage, AsksAgain, Paper):
    """A year's page.

    ``sitting_wanted`` comes when the person sits down with it, ``words_wanted``
    when they ask for its picture of words, ``theme_wanted`` and
    ``place_wanted`` when they open a theme or a place of it.
    """

    sitting_wanted = Signal()
    words_wanted = Signal()
    theme_wanted = Signal(int)
    place_wanted = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, ems=50)
        self.desk = desk
        self.year = desk.tonight().year
        self.review: YearReview | None = None
        self._errand = Errand(desk.reader)
        self._coming: list[sections.YearPart] = []
        self._next = once_after(self, 0, self._show_one)
        self._build()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _build(self) -> None:
        self.heading = label("", "head", wrap=False)
        self.before = quiet_button("\u2039 earlier", lambda: self._turn(-1), "The year before")
        self.after = quiet_button("later \u203a", lambda: self._turn(1), "The year after")
        self.years = Choice(self.desk.look, "Year")
        self.years.currentIndexChanged.connect(lambda _: self._pick())
        self.counted = label("", "quiet")
        self.sit = quiet_button("", self.sitting_wanted.emit, "Sit down with the year")
        self.picture = quiet_button("Picture of words", self.words_wanted.emit, "Picture of the year\u2019s words")
        self.book = quiet_button("Make the book\u2026", self._want_book, "Make the book of the year")
        self.send = quiet_button("Send\u2026", self._send, "Make the year into a page to send")
        self.ways = Flow(self.desk.look, self.sit, self.picture, self.book, self.send, gap=1.2)
        self.ways.hide()
        self.lines = sections.LinesPart(self.desk, self._another, self._leave_out, self._propose_again)
        kept = [sections.KeptPart(self.desk, month) for month in range(1, 13)]
        self.sections = [
            sections.PhotosPart(self.desk), self.lines, *kept, sections.AnswersPart(self.desk),
            sections.FlowPart(self.desk, self.theme_wanted.emit), sections.PlacesPart(self.desk, self.place_wanted.emit),
            sections.ReadingsPart(self.desk), sections.WordsPart(self.desk),
        ]  # fmt: skip
        self.body.addLayout(headed(self.heading, self.years, self.before, self.after))
        self.body.addWidget(self.counted)
        self.body.addWidget(self.ways)
        for section in self.sections:
            self.body.addWidget(section)
        self.body.addStretch(1)
        self.lead_with(self.before)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        for section in self.sections:
            section.forget()
        if self.review:
            self._show_sections()

    # asking

    def show_year(self, year: int) -> None:
        """Show a year."""
        if year != self.year:
            self.verticalScrollBar().setValue(0)
        self.year = year
        self.heading.setText(str(year))
        self.ask()

    def ask(self) -> None:
        """Ask for all of the year: of another one first what is quickly told."""
        if self.review is None or self.review.year != self.year:
            self._ask(brief=True)
        else:
            self._ask(brief=False)

    def _ask(self, brief: bool) -> None:
        year = self.year
        self._errand.anew(lambda store, task: years.year_page(store, year, brief=brief), self._show)

    def _show(self, review: YearReview) -> None:
        if review.year != self.year or review == self.review:
            return
        self.review = review
        self.counted.setText(year_wording.counted(review))
        short, told = year_wording.sit(review)
        self.sit.setText(short)
        self.sit.setAccessibleName(told)
        self.ways.setVisible(bool(review.counts.lines))
        self._fill_years(review)
        self._show_sections()

    def _show_sections(self) -> None:
        # One part at a time, so that none of them holds the window up.
        self._coming = list(self.sections)
        self._show_one()

    def _show_one(self) -> None:
        # A section that cannot be shown keeps none of the others back.
        try:
            while self._coming and not self._coming.pop(0).show_review(self.review):
                pass
        finally:
            self._go_on()

    def _go_on(self) -> None:
        if self._coming:
            self._next.start()
        elif self.review.brief:
            # Not while the page is being laid out: the two would get in each
            # other's way.
            self._ask(brief=False)

    def _settled(self, review: YearReview) -> bool:
        return review.year == self.year and not review.brief

    def _fill_years(self, review: YearReview) -> None:
        first, last = review.years or (self.year, self.year)
        last = max(last, self.desk.tonight().year)
        wanted = list(range(last, min(first, self.year) - 1, -1))
        self.years.blockSignals(True)
        if [self.years.itemData(place) for place in range(self.years.count())] != wanted:
            self.years.clear()
            for year in wanted:
                self.years.addItem(str(year), year)
        self.years.setCurrentIndex(self.years.findData(self.year))
        self.years.blockSignals(False)
        self.before.setEnabled(self.year > max(first, FIRST_NIGHT.year))
        self.after.setEnabled(self.year < last)

    # going on

    def _want_book(self) -> None:
        self.desk.book_wanted.emit(self.year)

    def _send(self) -> None:
        self.desk.go("printing", date(self.year, 1, 1), ("year", ""))

    def _pick(self) -> None:
        year = self.years.currentData()
        if year is not None and year != self.year:
            self._go(year)

    def _turn(self, by: int) -> None:
        self._go(self.year + by)

    def _go(self, year: int) -> None:
        self.desk.go("year", min(date(year, 12, 31), self.desk.tonight()))

    # the lines that stand for the year

    def _another(self, line: Line | None) -> None:
        from keeper.window.year.dialogs import LineDialog

        if self.review is None:
            return
        months = [one.month.month for one in self.review.months if one.nights]
        month = line.night.month if line else (months[-1] if months else 1)
        shown = {one.id for one in self.review.lines}
        dialog = LineDialog(self.desk, self.year, month, months, shown, {}, self)
        if dialog.exec() == QDialog.DialogCode.Accepted and dialog.chosen:
            old, new = line.id if line else "", dialog.chosen.id
            self._write(lambda store, year: years.replace_line(store, year, 0, old, new))

    def _leave_out(self, line: Line) -> None:
        self._write(lambda store, year: years.replace_line(store, year, 0, line.id, ""))

    def _propose_again(self) -> None:
        self._write(lambda store, year: years.propose_again(store, year, 0))

    def _write(self, work: Callable) -> None:
        year = self.year
        self.desk.write(lambda store: work(store, year), lambda _: self.desk.changed.emit())


class YearPages(PageStack):
    """A year's page, its picture of words and the sitting with it."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, overview := YearOverview(desk))
        self.overview = overview
        self.sitting: YearSitting | None = None
        self.words: WordPicturePage | None = None
        self.overview.sitting_wanted.connect(self.sit_down)
        self.overview.words_wanted.connect(self.show_words)
        self.overview.theme_wanted.connect(lambda number: desk.go("themes", thing=number))
        self.overview.place_wanted.connect(lambda place_id: desk.go("places", thing=place_id))

    def show_night(self, night: date) -> None:
        """Show the year of a night; a sitting with it that is open stays open."""
        if self.currentWidget() is self.sitting and self.sitting.year == night.year:
            self.sitting.ask()
            return
        self.see(self.overview)
        self.overview.show_year(night.year)

    def show_thing(self, thing: object) -> None:
        """``SIT``: sit down with the year shown."""
        if thing == SIT:
            self.sit_down()

    def sit_down(self) -> None:
        """Sit down with the year shown, where it was left."""
        if self.sitting is None:
            # Not before it is wanted.
            from keeper.window.year.sitting.page import YearSitting

            sitting = YearSitting(self.desk)
            self.sitting = self.join(sitting, self._back, by_escape=sitting.go_back)
        self.sitting.begin(self.overview.year)
        self.turn_to(self.sitting)

    def show_words(self) -> None:
        """Show the picture of words of the year shown."""
        if self.words is None:
            from keeper.window.parts.word_picture.page import WordPicturePage

            self.words = self.join(WordPicturePage(self.desk, "the year"), self._back_from_words)
        self.words.of_year(self.overview.year)
        self.turn_to(self.words)

    def _back(self) -> None:
        self.see(self.overview)
        self.overview.show_year(self.sitting.year)
        self.overview.sit.setFocus()

    def _back_from_words(self) -> None:
        self.see(self.overview)
        self.overview.ask()
        self.overview.picture.setFocus()

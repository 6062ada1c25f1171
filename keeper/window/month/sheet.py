"""The sheet of a month: what was chosen, asked and written, and what the lines tell of it."""

from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QVBoxLayout, QWidget

from keeper.days import first_of_month, last_month, last_of_month, next_month
from keeper.review.month import MonthTheme, MonthView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.month import sections
from keeper.window.month import wording as month_wording
from keeper.window.month.folded import AnswersBox, ThemesBox
from keeper.window.month.goals import GoalsBox
from keeper.window.month.nights import NightColumn
from keeper.window.month.photo import PhotoBox
from keeper.window.month.readings_section import ReadingsSection
from keeper.window.month.sections import Section
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.notebook_link import NotebookLink
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, Pieces
from keeper.window.parts.small import Paper, headed, label, quiet_button
from keeper.window.parts.typing.month_words import MonthWordsBox
from keeper.window.parts.typing.question import QuestionRow

if TYPE_CHECKING:
    from keeper.window.month.photo_choosing import PhotoChooser

FIRSTS_FIRST = 8
"""First times shown before one asks for all."""

NOTHING = "Nothing is kept of this month."


class MonthOverview(BasicPage, AsksAgain, Paper):
    """One month. ``asked`` comes with the name of what is asked for beside it."""

    asked = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, ems=68)
        self.desk = desk
        self.month: date = first_of_month(desk.tonight())
        self.view: MonthView | None = None
        self.with_resting = False
        self._folded = True
        self._errand = Errand(desk.reader)
        self._coming = Piecemeal(self)
        self._make_parts()
        self._lay_out()
        self.lead_with(self.before)
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)
        self.words.dress()

    # building

    def _make_parts(self) -> None:
        desk = self.desk
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self.step(-1), "The month before")
        self.after = quiet_button("later \u203a", lambda: self.step(1), "The month after")
        self.held = label("", "quiet")
        self.on_paper = NotebookLink(desk)
        self.ways = [
            quiet_button(words, lambda name=name: self.asked.emit(name))
            for words, name in (("Side by side", "beside"), ("Every year", "years"),
                                ("Picture of words", "words"), ("Turn the month", "turn"),
                                ("Print the month\u2026", "print"))
        ]  # fmt: skip
        self.ways.append(quiet_button("Send\u2026", self._send, "Make the month into a page to send"))
        self.photo = PhotoBox(desk)
        self.caption = label("", "quiet")
        self.choose = quiet_button("Choose a photo", self._choose_photo, "Choose the photo of the month")
        self.question = QuestionRow(desk)
        self.question.hide()
        self.answers = AnswersBox(desk, self._unfold)
        self.goals = GoalsBox(desk)
        self.goals_section = Section(desk, "Goals")
        self.words = MonthWordsBox(desk)
        self.nights = NightColumn(desk)
        self.nights.moved_to.connect(self._follow)
        self.resting = quiet_button("Show what rests", self._bring_in)
        self.readings = ReadingsSection(desk)
        self.readings.sheet_wanted.connect(lambda: desk.go("sheet", self.month))
        self.strips = self.readings.strips
        self.places, self.themes = Section(desk, "Places"), ThemesBox(desk, self._unfold, self._open_theme)
        self.apart, self.firsts = Section(desk, "What set it apart"), Section(desk, "For the first time")

    def _lay_out(self) -> None:
        px, add = self.desk.look.px, self.body
        add.addLayout(headed(self.heading, self.before, self.after))
        add.addWidget(self.held)
        add.addWidget(self.on_paper)
        add.addWidget(Flow(self.desk.look, *self.ways, gap=1.2))
        self.upper, self.lower = QHBoxLayout(), QHBoxLayout()
        self.left = self._column(self.photo, self.caption, self.choose, self.question, self.answers)
        self.goals_section.body.addWidget(self.goals)
        self.left.addStretch(1)
        self.right = self._column(self.nights, self.resting, self.goals_section, self.words)
        self.right.addStretch(1)
        below = [self._column(part) for part in (self.places, self.apart, self.firsts)]
        for pair, columns in ((self.upper, [self.left, self.right]), (self.lower, below)):
            for column in columns:
                pair.addLayout(column, 1)
            pair.setSpacing(px(2.6))
        for column in below:
            column.addStretch(1)
        add.addLayout(self.upper)
        add.addWidget(self.readings)
        add.addLayout(self.lower)
        add.addWidget(self.themes)
        add.addStretch(1)
        # Not before it has its place: it would open a window of its own.
        self.goals_section.show()

    def _column(self, *parts: QWidget) -> QVBoxLayout:
        made = QVBoxLayout()
        made.setContentsMargins(0, self.desk.look.px(0.6), 0, 0)
        made.setSpacing(self.desk.look.px(0.3))
        for part in parts:
            made.addWidget(part)
        return made

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        self.fit()
        self.nights.fit()
        self.words.dress()
        self.readings.dress()
        self._turn()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._turn()

    def _turn(self) -> None:
        narrow = self.width() < self.desk.look.px(54)
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        for pair in (self.upper, self.lower, self.themes.beside):
            if pair.direction() != way:
                pair.setDirection(way)

    # asking

    def show_month(self, month: date) -> None:
        """Show another month."""
        month = first_of_month(month)
        if month != self.month:
            self.keep()
            self._put_away_chooser()
            self.with_resting, self._folded = False, True
            self.verticalScrollBar().setValue(0)
        self.month = month
        self.heading.setText(wording.month_and_year(month))
        self.after.setEnabled(next_month(month) <= self.desk.tonight())
        self.ask()

    def ask(self) -> None:
        """Ask for what the month holds."""
        month, with_resting = self.month, self.with_resting
        self._errand.anew(lambda store, task: _kept_of(store, month, with_resting), self._show)
        self.on_paper.follow(month, last_of_month(month))

    def step(self, by: int) -> None:
        """Go to the month before or after."""
        month = next_month(self.month) if by > 0 else last_month(self.month)
        self.desk.go("month", min(month, self.desk.tonight()))

    def keep(self) -> None:
        """Keep what is being typed."""
        self.words.keep()
        self.goals.keep()

    # showing, in pieces, so that the window is never held up

    def _show(self, view: MonthView) -> None:
        if view.month != self.month or view == self.view:
            return
        self.view = view
        self._show_head(view)
        self.nights.show_nights(view.nights if view.kept or view.places else ())
        self.nights.setVisible(bool(view.kept or view.places))
        self._coming.begin([
            *self.answers.pieces(view, self._folded), lambda: self.readings.show_view(view),
            lambda: self._show_places(view), lambda: self._show_told(view), *self.themes.pieces(view, self._folded),
        ])  # fmt: skip

    def is_shown(self) -> bool:
        """Whether all of the month is on the page."""
        return self.view is not None and self.view.month == self.month and self._coming.over()

    def _show_head(self, view: MonthView) -> None:
        self.held.setText(month_wording.held(view) or (NOTHING if view.empty else ""))
        self.held.setVisible(bool(self.held.text()))
        for button in self.ways:
            button.setVisible(view.kept > 0)
        self.photo.show_photo(view.photo)
        self.caption.setText(view.photo.caption if view.photo else "")
        self.caption.setVisible(bool(view.photo and view.photo.caption))
        self.choose.setText("Another photo" if view.photo else "Choose a photo")
        if "chooser" in self.__dict__ and self.chooser.isVisible():
            self.chooser.show_month(view.month, view.page.photo_id)
        held = frozenset() if self.with_resting else view.rests
        self.question.show_question(view.month, view.page.question)
        # What is held back must not be typed over unseen.
        self.question.setVisible("question" not in held)
        self.goals.show_goals(view.month, view.page.goals)
        self.goals_section.title.setVisible(bool(view.page.goals))
        self.words.show_words(view.month, view.page.words)
        self.words.setVisible("words" not in held)
        self.resting.setText("Hide what rests" if self.with_resting else "Show what rests")
        self.resting.setAccessibleName(self.resting.text())
        self.resting.setVisible(view.holds_back)

    def _show_places(self, view: MonthView) -> None:
        self.places.show_parts(sections.places(self.desk, view))

    def _show_told(self, view: MonthView) -> None:
        self._show_firsts(view)
        self.apart.show_parts(sections.apart(self.desk, view, self._find))

    def _show_firsts(self, view: MonthView) -> None:
        # In a keeper's first month, all is for the first time.
        shown = view.firsts[:FIRSTS_FIRST] if self._folded else view.firsts
        parts = sections.firsts(self.desk, shown)
        if len(shown) < len(view.firsts):
            rest = f"and {len(view.firsts) - len(shown)} more"
            parts.append(quiet_button(rest, lambda: self._unfold([lambda: self._show_firsts(view)]), "Show all of these"))
        self.firsts.show_parts(parts)

    def _unfold(self, pieces: Pieces) -> None:
        self._folded = False
        self._coming.add(pieces)

    # going on

    def _find(self, sought: str) -> None:
        from keeper.actions.finding import Sought

        self.desk.go("find", thing=Sought(typed=sought, first=self.month, last=last_of_month(self.month)))

    def _send(self) -> None:
        self.desk.go("printing", self.month, ("month", ""))

    def _open_theme(self, theme: MonthTheme) -> None:
        self.desk.go("themes", thing=theme.number)

    @cached_property
    def chooser(self) -> "PhotoChooser":
        """The photos of the month to choose from, hidden; made when it is first wanted."""
        from keeper.window.month.photo_choosing import PhotoChooser

        made = PhotoChooser(self.desk)
        made.hide()
        self.left.insertWidget(self.left.indexOf(self.choose) + 1, made)
        return made

    def _put_away_chooser(self) -> None:
        if "chooser" in self.__dict__:
            self.chooser.hide()

    def _choose_photo(self) -> None:
        self.chooser.setVisible(self.chooser.isHidden())
        if self.chooser.isVisible() and self.view:
            self.chooser.show_month(self.month, self.view.page.photo_id)
            self.chooser.setFocus()

    def _bring_in(self) -> None:
        self.with_resting = not self.with_resting
        self.ask()

    def _follow(self, area: QRect) -> None:
        middle = self.nights.mapTo(self.widget(), area.center())
        self.ensureVisible(middle.x(), middle.y(), 0, area.height() // 2 + self.desk.look.px(2))


def _kept_of(store, month: date, with_resting: bool) -> MonthView:
    # On the reader's lane, since what makes a month brings much along.
    from keeper.actions.months.shown import month_page

    return month_page(store, month, with_resting)

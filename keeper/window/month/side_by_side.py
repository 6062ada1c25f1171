"""Months on the same axes, night under night: two to four of them, or one month of every year."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout

from keeper.actions.months import shown as months
from keeper.days import last_month
from keeper.review.month import MonthView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.month import wording as month_wording
from keeper.window.month.photo import PhotoBox
from keeper.window.month.reading_strips import ReadingStrips
from keeper.window.month.sections import words_label
from keeper.window.month.strip import Strip, strip_of, strip_of_lines, strip_of_places
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row

LINES, PLACES = "lines", "places"

_AT_ONCE = 8
_THEMES = 5
_SAID = 8
"""Years whose words are shown for the night pointed at."""


class SideBySide(BasicPage, Paper):
    """Several months. ``left`` comes when the person goes back to the month."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, ems=68)
        self.desk = desk
        self.wanted: list[date] = []
        self.every_year = False
        self.views: list[MonthView] = []
        self._errand = Errand(desk.reader)
        self._coming = Piecemeal(self)
        self.heading = label("", "head")
        self.back = quiet_button("\u2039 the month", self.left.emit, "Back to the month")
        self.more = Choice(desk.look, "Add a month")
        self.more.activated.connect(lambda _: self._add())
        self.what = Choice(desk.look, "What is shown of each year")
        self.what.activated.connect(lambda _: self._draw())
        self.heads = QHBoxLayout()
        self.heads.setSpacing(desk.look.px(1.6))
        self.strips = ReadingStrips(desk.look, "The months, night under night")
        self.strips.pointed.connect(self._tell_night)
        self.said = QVBoxLayout()
        self.caution = label("", "quiet")
        self.body.addLayout(row(self.back, None))
        self.body.addLayout(headed(self.heading, self.more, self.what))
        self.body.addLayout(self.heads)
        self.body.addSpacing(desk.look.px(0.6))
        self.body.addWidget(self.strips)
        self.body.addWidget(self.caution)
        self.body.addLayout(self.said)
        self.body.addStretch(1)
        self.lead_with(self.strips)
        desk.dressed.connect(self.dress)
        desk.changed.connect(self.refresh)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        self.fit()
        self.strips.show_strips(self.strips.strips, self.strips.accessibleDescription())

    # asking

    def show_months(self, wanted: Sequence[date]) -> None:
        """Show two to four months."""
        self.every_year, self.wanted = False, sorted(set(wanted))
        self.heading.setText("Side by side")
        self._ask_which()
        self._ask()

    def beside(self, month: date) -> None:
        """Show a month beside that of the year before; where that is empty, beside the month before."""
        a_year_ago = month.replace(year=month.year - 1)

        def choose(same: tuple[date, ...]) -> None:
            self.show_months([a_year_ago if a_year_ago in same else last_month(month), month])

        self._errand.also(lambda store, task: months.same_months(store, month), choose)

    def show_every_year(self, month: date) -> None:
        """Show the same month of every year."""
        self.every_year, self.wanted = True, [month]
        self.heading.setText(f"{wording.month_and_year(month).split()[0]} of every year")
        self._ask()

    def refresh(self) -> None:
        """Ask again, when the page is seen."""
        if self.isVisible() and self.wanted:
            self._ask()

    def _ask(self) -> None:
        self._errand.stop()
        self.more.setVisible(not self.every_year)
        self.what.setVisible(self.every_year)
        if self.every_year:
            month = self.wanted[0]
            self._errand.also(lambda store, task: months.same_months(store, month), self._ask_years)
        else:
            wanted = tuple(self.wanted)
            self._errand.also(lambda store, task: months.side_by_side(store, wanted), self._show)

    def _ask_years(self, same: tuple[date, ...]) -> None:
        gathered: list[MonthView] = []

        def take(some: tuple[MonthView, ...]) -> None:
            gathered.extend(some)
            if len(gathered) == len(same):
                self._show(tuple(gathered))

        for at in range(0, len(same), _AT_ONCE):
            some = same[at : at + _AT_ONCE]
            self._errand.also(lambda store, task, some=some: months.plain_pages(store, some), take)

    def _ask_which(self) -> None:
        self.desk.reader.run(lambda store, task: months.kept_months(store), self._fill_more)

    def _fill_more(self, kept: tuple[date, ...]) -> None:
        self.more.clear()
        self.more.addItem("Add a month", "")
        for month in kept:
            if month not in self.wanted:
                self.more.addItem(wording.month_and_year(month), month.isoformat())
        self.more.setEnabled(len(self.wanted) < months.SIDE_BY_SIDE)

    def _add(self) -> None:
        month = self.more.currentData()
        if month and len(self.wanted) < months.SIDE_BY_SIDE:
            self.show_months([*self.wanted, date.fromisoformat(month)])

    def _take_away(self, month: date) -> None:
        if len(self.wanted) > 2:
            self.show_months([one for one in self.wanted if one != month])

    # showing

    def _show(self, views: tuple[MonthView, ...]) -> None:
        self.views = list(views)
        emptied(self.heads)
        self._fill_what()
        heads = [] if self.every_year else few_at_a_time(1, self._add_head, views)
        self._coming.begin([self._draw, *heads])

    def is_shown(self) -> bool:
        """Whether all that was asked for is on the page."""
        return bool(self.views) and self._coming.over()

    def _add_head(self, view: MonthView) -> None:
        column = QVBoxLayout()
        column.setSpacing(self.desk.look.px(0.4))
        name = wording.month_and_year(view.month)
        opened = quiet_button(name, lambda: self.desk.go("month", view.month), f"Open {name}")
        opened.setProperty("named", True)
        away = quiet_button("Remove", lambda: self._take_away(view.month), f"Remove {name}")
        column.addLayout(row(opened, away, None))
        column.addWidget(label(month_wording.held(view), "quiet"))
        photo = PhotoBox(self.desk, tallest=11)
        column.addWidget(photo)
        if view.page.question:
            column.addWidget(words_label(view.page.question, "asked"))
        for theme in view.themes[:_THEMES]:
            column.addWidget(label(f"{theme.name}, {month_wording.theme_told(theme, view.kept)}", "quiet"))
        column.addStretch(1)
        self.heads.addLayout(column, 1)
        away.setVisible(len(self.wanted) > 2)
        photo.show_photo(view.photo)

    def _draw(self) -> None:
        strips = self._years() if self.every_year else self._all()
        told = f"{len(self.views)} months. Left and right point at a night."
        self.strips.show_strips(strips, told)
        self._tell_night(self.strips.day)
        self.caution.setText(month_wording.caution(one for view in self.views for one in view.series))
        self.caution.setVisible(any(strip.band or strip.how in ("line", "mark") for strip in strips))

    def _all(self) -> list[Strip]:
        names = [f"{wording.month_letter(one.month.month)} {one.month.year}" for one in self.views]
        strips = self._group("Lines", [strip_of_lines(view, name) for view, name in zip(self.views, names, strict=True)])
        strips += self._group("Places", [strip_of_places(v, name) for v, name in zip(self.views, names, strict=True)])
        for tracker_id, title in self._trackers():
            strips += self._group(title, self._of(tracker_id, names))
        return strips

    def _years(self) -> list[Strip]:
        names = [str(one.month.year) for one in self.views]
        chosen = self.what.currentData() or LINES
        if chosen not in (LINES, PLACES):
            return self._group(self.what.currentText(), self._of(chosen, names))
        made, title = (strip_of_lines, "Lines") if chosen == LINES else (strip_of_places, "Places")
        return self._group(title, [made(view, name) for view, name in zip(self.views, names, strict=True)])

    def _group(self, title: str, strips: list[Strip]) -> list[Strip]:
        return [replace(strip, heading="" if n else title) for n, strip in enumerate(strips)]

    def _of(self, tracker_id: str, names: list[str]) -> list[Strip]:
        found = []
        for view, name in zip(self.views, names, strict=True):
            series = next((one for one in view.series if one.tracker.id == tracker_id and one.here), None)
            if series:
                found.append(strip_of(series, name))
        return found

    def _trackers(self) -> list[tuple[str, str]]:
        known = {one.tracker.id: one.tracker for view in self.views for one in view.series if one.here}
        return [(one.id, f"{one.name}, {one.unit}" if one.unit else one.name) for one in known.values()]

    def _fill_what(self) -> None:
        chosen = self.what.currentData()
        self.what.clear()
        if any(view.places for view in self.views):
            self.what.addItem("Places", PLACES)
        self.what.addItem("Lines", LINES)
        for tracker_id, title in self._trackers():
            self.what.addItem(title, tracker_id)
        self.what.setCurrentIndex(max(0, self.what.findData(chosen)))

    def _tell_night(self, day: int) -> None:
        emptied(self.said)
        if not day:
            return
        said = [(view, view.nights[day - 1]) for view in self.views if day <= len(view.nights)]
        for view, night in [one for one in said if one[1].lines][:_SAID]:
            when = label(str(view.month.year) if self.every_year else wording.month_and_year(view.month), "quiet", wrap=False)
            when.setMinimumWidth(self.desk.look.px(7.6))
            beside = row(when, words_label(month_wording.first_words(night), "spoken"), gap=self.desk.look.px(0.6))
            beside.setStretch(1, 1)
            self.said.addLayout(beside)

"""What this night's date held in other years."""

from datetime import date

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout

from keeper.actions import writing
from keeper.actions.remembering import ways
from keeper.actions.remembering.bringing_up import looking_back
from keeper.model import Line, Night
from keeper.review.looking_back import AT_THE_PLACE, NEAR_THE_DAY, ON_THE_DAY, LookingBack
from keeper.review.remembering.ways import WaysBack
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.looking_back.night import RememberedNight
from keeper.window.looking_back.ways import WaysShown
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.later.field import LaterField
from keeper.window.parts.page import BasicPage
from keeper.window.parts.people.named import PeopleNamed
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row
from keeper.window.parts.typing.undo_keys import is_text

AT_A_TIME = 1

AT_FIRST, MORE = 5, 10
"""So many nights are shown before the older ones are asked for, and so many come with each asking.

What else tonight brings up stands below them, and must be met without fifty years of nights to pass.
"""


class LookingBackPage(BasicPage, AsksAgain, Paper):
    """The same day in other years, newest first; honest stand-ins when there is nothing."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.night = desk.tonight()
        self.found: LookingBack | None = None
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self._step(-1), "The day before")
        self.after = quiet_button("later \u203a", lambda: self._step(1), "The day after")
        self.why = label("", "quiet")
        self._coming = Piecemeal(self)
        self.nights = QVBoxLayout()
        self.nights.setSpacing(0)
        self.body.addLayout(headed(self.heading, self.before, self.after))
        self.body.addWidget(self.why)
        self.body.addLayout(self.nights)
        self._most, self._on_from = AT_FIRST, None
        self._of_other_sizes = False
        self.older = quiet_button("", self._show_older)
        self.older.hide()
        self.body.addLayout(row(self.older, None))
        self.ways = WaysShown(desk, self._rest, self._speak)
        self.body.addWidget(self.ways)
        self.named = PeopleNamed(desk)
        self.body.addWidget(self.named)
        self.later = LaterField(desk)
        self.body.addWidget(self.later)
        self.body.addStretch(1)
        self.lead_with(self.before)
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self._be_of_these_sizes)

    def show_night(self, night: date) -> None:
        """Look back from another night."""
        self.night = night
        self.heading.setText(wording.day_and_month(night))
        self.after.setEnabled(night < self.desk.tonight())
        self.ask()

    def _be_of_these_sizes(self) -> None:
        # Names of kinds have the room that they had at the text size they were made in.
        self._of_other_sizes = True
        self.refresh()

    def ask(self) -> None:
        """Ask for what is shown."""
        night = self.night
        self.desk.reader.run(lambda store, task: looking_back(store, night), self._show)

    def _show(self, found: LookingBack) -> None:
        if found.night != self.night:
            return
        before, self.found = self.found, found
        self.why.setText(_said(found))
        self._ask_ways(found)
        self._offer_later()
        if before == found and self._coming.over() and not self._of_other_sizes:
            # What is being typed below them must not lose its place.
            self._show_later_words()
            return
        emptied(self.nights)
        other_night = before is None or before.night != found.night
        if other_night:
            self._most = AT_FIRST
        if other_night or self._of_other_sizes:
            self.ways.clear()
            self._of_other_sizes = False
        self._coming.begin([*few_at_a_time(AT_A_TIME, self._add_night, found.nights[: self._most]), self._go_on], at_once=1)
        self._offer_older()

    def _offer_older(self) -> None:
        shown, more = self.found.nights[: self._most], len(self.found.nights) - self._most
        self.named.ask([line.text for night in shown for line in night.lines])
        self.older.setVisible(more > 0)
        self.older.setText(wording.counted(more, "older night"))
        self.older.setAccessibleName(f"Show older nights of this date, {wording.counted(more, 'more', 'more')}")

    def _show_older(self) -> None:
        first = self._most
        # Whoever goes by keys goes on from the first of those that come.
        self._on_from = first if self.older.hasFocus() else None
        self._most += MORE
        more = self.found.nights[first : self._most]
        self._coming.add([*few_at_a_time(AT_A_TIME, self._add_night, more), self._go_on])
        self._offer_older()
        self._note([night.date for night in more])

    def _go_on(self) -> None:
        there = None if self._on_from is None else self.nights.itemAt(self._on_from)
        self._on_from = None
        if there is not None:
            there.widget().heading.setFocus()

    def _ask_ways(self, found: LookingBack) -> None:
        night, tonight = found.night, self.desk.tonight()
        dates = [one.date for one in found.nights]
        self.desk.reader.run(lambda store, task: ways.ways(store, night, tonight, dates), lambda more: self._show_ways(dates, more))

    def _show_ways(self, dates: list[date], more: WaysBack) -> None:
        if more.night != self.night:
            return
        self.ways.show_ways(more)
        self._offer_later()
        self._show_later_words()
        if self.isVisible():
            self._note([*dates[: self._most], *(way.night.date for way in more.found)], more)

    def _note(self, brought: list[date], more: WaysBack | None = None) -> None:
        tonight = self.desk.tonight()
        self.desk.write(lambda store: ways.note(store, brought, more, tonight), failed=lambda error: None)

    def _add_night(self, night: Night) -> None:
        photo = self.found.photos.get(night.date)
        shown = RememberedNight(self.desk, night, self.desk.tonight(), self._rest, self._speak, photo)
        shown.show_later(night, self.later.line.id if self.later.line else "", self.desk.tonight())
        self.nights.addWidget(shown)

    def _show_later_words(self) -> None:
        of = self.later.line.id if self.later.line else ""
        for place in range(self.nights.count()):
            self.nights.itemAt(place).widget().show_later(self.found.nights[place], of, self.desk.tonight())
        self.ways.show_later(of)

    def _offer_later(self) -> None:
        """Let the field at the end be for the line it was for, if that is still shown, else for the first."""
        shown = [line for night in self.found.nights for line in night.lines] + self.ways.lines()
        of = self.later.line.id if self.later.line else ""
        self.later.show_line(next((line for line in shown if line.id == of), next(iter(shown), None)))

    def _speak(self, line: Line) -> None:
        self.later.show_line(line)
        self._show_later_words()
        self.later.field.setFocus()
        self.ensureWidgetVisible(self.later)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_text(event) and self.later.line:
            # One key away: whatever is typed on the page is a later word.
            self._speak(self.later.line)
            self.later.field.keyPressEvent(event)
        else:
            super().keyPressEvent(event)

    def leave(self) -> None:
        """What is typed is kept before another page or night comes."""
        self.later.keep()

    keep = leave

    def _rest(self, line: Line) -> None:
        self.desk.write(lambda store: writing.rest_line(store, line.id), lambda _: self._on_rested())

    def _on_rested(self) -> None:
        self.desk.said.emit("Resting. It will not be brought up again; you can still find it, and wake it on its night.")
        self.desk.changed.emit()

    def _step(self, days: int) -> None:
        self.desk.go("looking back", self.desk.shifted(self.night, days))


def _said(found: LookingBack) -> str:
    if found.why == ON_THE_DAY:
        return "The same night, years apart"
    if found.why == NEAR_THE_DAY:
        return "Nothing on this date in earlier years. The nearest nights of that week:"
    if found.why == AT_THE_PLACE:
        return f"Nothing from this week in earlier years. The last time at {found.place_name}:"
    return "Nothing from this week in earlier years yet."

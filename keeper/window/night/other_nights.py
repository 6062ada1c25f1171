"""Other nights, below those of a page: those without a line, and the same night of other years."""

from datetime import date

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from keeper.review.night import NightPage
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, label, quiet_button

YEARS_NAMED = 6


class OtherNights(QObject):
    """Ways to other nights from the one shown; other years are asked for once one can type."""

    def __init__(self, desk: Desk, page: QWidget) -> None:
        super().__init__(page)
        self.desk = desk
        self.night: date = desk.tonight()
        self._looks_back = False
        self._body: QVBoxLayout | None = None
        self.still_open = QHBoxLayout()
        self.still_open.setContentsMargins(0, 0, 0, 0)
        self.on_this_day = quiet_button("", lambda: desk.go("looking back", self.night))
        self.on_this_day.hide()

    def lay_into(self, body: QVBoxLayout) -> None:
        """Take up the end of a page."""
        self._body = body
        body.addLayout(self.still_open)
        body.addWidget(self.on_this_day)

    def show_page(self, page: NightPage) -> None:
        """Show which other nights there are to go to."""
        self.night = page.night.date
        self._show_still_open([night for night in page.still_open if night != self.night])
        if self._looks_back:
            self._ask_other_years()

    def look_back(self) -> None:
        """From now on, ask whether other years hold something of this day, and whether it stands on paper."""
        from keeper.window.parts.notebook_link import NotebookLink

        if not self._looks_back:
            self.on_paper = NotebookLink(self.desk)
            self._body.insertWidget(self._body.indexOf(self.on_this_day) + 1, self.on_paper)
        self._looks_back = True
        self._ask_other_years()

    def _show_still_open(self, nights: list[date]) -> None:
        emptied(self.still_open)
        if not nights:
            return
        self.still_open.addWidget(label("Without a line:", "quiet", wrap=False))
        for night in nights:
            name = wording.weekday_and_day(night)
            button = quiet_button(name, lambda night=night: self.desk.go("night", night), f"Open the night of {name}")
            self.still_open.addWidget(button)
        self.still_open.addStretch(1)

    def _ask_other_years(self) -> None:
        from keeper.actions.remembering.bringing_up import looking_back

        night = self.night
        self.on_paper.follow(night, night)
        self.desk.reader.run(
            lambda store, task: looking_back(store, night), lambda found: self._show_looking_back(found)
        )

    def _show_looking_back(self, found) -> None:
        if found.night != self.night:
            return
        years = [str(night.date.year) for night in found.nights] if found.on_the_day else []
        more = f" and {len(years) - YEARS_NAMED} more" if len(years) > YEARS_NAMED else ""
        self.on_this_day.setText("The same night, years apart: " + " \u00b7 ".join(years[:YEARS_NAMED]) + more)
        self.on_this_day.setVisible(bool(years))

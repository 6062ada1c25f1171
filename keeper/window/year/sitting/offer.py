"""The sitting with the year, offered on the page of the night around the turn of the year."""

from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from keeper.window.parts.small import quiet_button

if TYPE_CHECKING:
    from keeper.window.desk.desk import Desk


SIT = "sit down"
"""The thing that the page of a year shows: the sitting with it."""


class YearOffer:
    """A quiet button for the page of the night that opens the sitting with a year."""

    def __init__(self, desk: "Desk") -> None:
        self.desk = desk
        self._year = 0
        self.button = quiet_button("", self._sit)
        self.button.hide()
        desk.changed.connect(self.ask)
        self.ask()

    def ask(self) -> None:
        """Ask whether there is a year to sit down with tonight."""
        tonight = self.desk.tonight()

        def year_to_offer(store, task) -> tuple[int, str] | None:
            # Away from the window's thread: it brings in all that a year is made of.
            from keeper.actions.years.sitting import year_to_offer

            return year_to_offer(store, tonight)

        self.desk.reader.run(year_to_offer, partial(self._show, tonight))

    def _show(self, tonight: date, offered: tuple[int, str] | None) -> None:
        if offered:
            from keeper.window.year import wording as year_wording

            self._year = offered[0]
            self.button.setText(year_wording.offer(*offered))
            self.button.setAccessibleName(self.button.text())
        self.button.setVisible(offered is not None)

    def _sit(self) -> None:
        self.desk.go("year", min(date(self._year, 12, 31), self.desk.tonight()), SIT)

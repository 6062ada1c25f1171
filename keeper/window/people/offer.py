"""The quiet line at the foot of the Tonight page for a day to remember, on its morning and in the week before.

Kept light: it is imported while the program starts.
"""

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from keeper.window.desk.desk import Desk
from keeper.window.parts.small import plainly, quiet_button

if TYPE_CHECKING:
    from keeper.actions.one_person.tonight import DaysTold

LATER = 600
"""Milliseconds after the start before it is looked for: typing comes first."""


class DaysOffer:
    """A quiet button for the page of the night, there only while a day is told that the person wished to be told; it opens who is named first."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._person_id = ""
        self.button = quiet_button("", lambda: desk.go("people", None, self._person_id))
        self.button.hide()
        desk.changed.connect(self.ask)
        QTimer.singleShot(LATER, self.button, self.ask)

    def ask(self) -> None:
        """Ask whether a day is to be told."""
        tonight = self._desk.tonight()

        def told(store, task) -> "DaysTold":
            from keeper.actions.one_person import tonight as days

            return days.told(store, tonight)

        self._desk.reader.run(told, self._show)

    def _show(self, told: "DaysTold") -> None:
        self._person_id = told.person_id
        self.button.setText(plainly(told.line))
        self.button.setAccessibleName(told.line)
        self.button.setVisible(bool(told.line))

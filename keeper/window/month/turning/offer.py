"""The offer to turn the month, at the foot of the Tonight page on its first evenings.

Kept light: it is imported while the program starts.
"""

from datetime import date

from PySide6.QtCore import QTimer

from keeper.window.desk.desk import Desk
from keeper.window.parts.small import quiet_button

TURN = "turn"
"""The thing that the page of a month shows: the sitting that turns it."""

LATER = 500
"""Milliseconds after the start before it is looked for: typing comes first."""


class TurnOffer:
    """A quiet button for the page of the night; there only while it may be wanted."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._month: date | None = None
        self.button = quiet_button("", self._begin)
        self.button.hide()
        desk.changed.connect(self.ask)
        QTimer.singleShot(LATER, self.button, self.ask)

    def ask(self) -> None:
        """Ask whether there is a month to turn."""
        tonight = self._desk.tonight()

        def to_turn(store, task) -> date | None:
            # Away from the window's thread: the page of a month then opens at once.
            from keeper.actions.months.shown import to_turn

            return to_turn(store, tonight)

        self._desk.reader.run(to_turn, self._show)

    def _show(self, month: date | None) -> None:
        self._month = month
        kept = self._desk.kept.get("turn", "")
        begun, _, step = kept.partition(" ")
        here = month is not None and begun == month.isoformat()[:7]
        self.button.setVisible(month is not None and not (here and step == "done"))
        if month:
            from keeper.window.desk import wording

            name = wording.month_and_year(month)
            self.button.setText(f"Go on turning {name}" if here else f"Turn the month: {name}, in a few minutes")
            self.button.setAccessibleName(self.button.text())

    def _begin(self) -> None:
        month = self._month
        if month:
            self._desk.go("month", month, TURN)

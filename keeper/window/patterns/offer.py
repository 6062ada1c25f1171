"""The quiet line at the foot of the Tonight page when an eye was kept on a pattern and the nights are in.

Kept light: it is imported while the program starts.
"""

from PySide6.QtCore import QTimer

from keeper.window.desk.desk import Desk
from keeper.window.parts.small import quiet_button

LATER = 700
"""Milliseconds after the start before it is looked for: typing comes first."""


class PatternOffer:
    """A quiet button for the page of the night; there only while something is due."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.button = quiet_button("The nights are in for a pattern you keep an eye on", lambda: desk.go("patterns", None, ""))
        self.button.hide()
        desk.changed.connect(self.ask)
        QTimer.singleShot(LATER, self.button, self.ask)

    def ask(self) -> None:
        """Ask whether anything is due."""

        def anything_due(store, task) -> bool:
            from keeper.actions.patterns import deciding

            return deciding.anything_due(store)

        self._desk.reader.run(anything_due, self.button.setVisible)

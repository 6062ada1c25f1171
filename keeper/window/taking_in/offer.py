"""The offer to take in what waits in the in-tray, at the foot of the page of the night.

FileKept light: it is imported while the program starts.
"""

from PySide6.QtCore import QTimer

from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import quiet_button

LATER = 700
"""Milliseconds after the start before it is looked for: typing comes first, and the folder may lie on a slow disk."""

KEY = "Ctrl+I"


class TrayOffer:
    """A quiet button for the page of the night; there only while something waits."""

    def __init__(self, desk: Desk) -> None:
        self._desk, self._work = desk, Errand(desk.worker)
        self.button = quiet_button("", self.take)
        self.button.hide()
        desk.changed.connect(self.ask)
        desk.ending.connect(self._work.stop)
        QTimer.singleShot(LATER, self.button, self.ask)

    def ask(self) -> None:
        """Ask whether anything waits."""
        # Without an in-tray nothing is asked, and nothing is brought in.
        if not self._desk.kept.get("in_tray"):
            self.button.hide()
            return

        def waiting(store, task):
            from keeper.actions.taking_in import tray

            return tray.waiting(store)

        self._desk.worker.run(waiting, self._show)

    def _show(self, there) -> None:
        self.button.setVisible(bool(there and (there.texts or there.photos)))
        if there and there.told:
            self.button.setText(f"In the in-tray: {there.told}. Take in ({KEY})")
            self.button.setAccessibleName(f"Take in what is in the in-tray: {there.told}")
            left = len(there.left)
            self.button.setToolTip(f"{left} more left alone: still being written, or a conflict\u2019s copy" if left else "")

    def take(self) -> None:
        """Take in what waits, if anything does."""
        if self.button.isHidden() or self._work.under_way:
            return
        from keeper.window.taking_in.tray_box import take_in

        self.button.setEnabled(False)
        take_in(self._desk, self._work, self._taken, self._fail, self._hear)

    def _hear(self, share: float, words: str) -> None:
        self.button.setText(f"Taking in {words}\u2026")

    def _taken(self, taken) -> None:
        self.button.setEnabled(True)
        self.button.hide()
        self._desk.said.emit(taken.sentence)
        self._desk.changed.emit()

    def _fail(self, error: Exception) -> None:
        self.button.setEnabled(True)
        self._desk.said.emit(str(error))

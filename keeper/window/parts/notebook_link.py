"""The way from a night or a month to the pages of the notebook on which it stands."""

from datetime import date

from PySide6.QtWidgets import QHBoxLayout, QWidget

from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import quiet_button


class NotebookLink(QWidget):
    """Hidden where no page belongs to the nights."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk, self._errand = desk, Errand(desk.reader)
        self._first = desk.tonight()
        self.button = quiet_button("", self._go)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.button)
        layout.addStretch(1)
        self.hide()

    def follow(self, first: date, last: date) -> None:
        """Ask whether pages belong to these nights."""
        self._first = first
        self._errand.anew(lambda store, task: _count(store, first, last), self._show)

    def _show(self, pages: int) -> None:
        self.button.setText(f"On paper: {wording.counted(pages, 'page')} of the notebook")
        self.setVisible(pages > 0)

    def _go(self) -> None:
        # Who comes this way wants to see them.
        if self._desk.kept.get("sheet_pages") == "put away":
            self._desk.change_setting("sheet_pages", "beside")
        self._desk.go("sheet", self._first, self._first)


def _count(store, first: date, last: date) -> int:
    # Brought in where nobody waits for it.
    from keeper.actions.scans import kept

    return kept.count(store, first, last)

"""What was merged into a place, each with a button that takes it apart again."""

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from keeper.review.places import MergedInto
from keeper.window.desk import wording
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.small import emptied, headed, label, quiet_button

AT_FIRST = 3
"""How many are shown until more are asked for."""


class PlaceMerges(QWidget):
    """One line for each merge, latest first; hidden when there was none.

    ``wanted`` is called with the merge to take apart, ``filled`` whenever there are other buttons.
    """

    def __init__(self, wanted: Callable[[str], None], filled: Callable[[], None]) -> None:
        super().__init__()
        self._wanted, self._filled = wanted, filled
        self._shown: tuple[MergedInto, ...] = ()
        self._all = False
        self.buttons: list[QPushButton] = []
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(0)
        self.hide()

    def show_merges(self, found: tuple[MergedInto, ...]) -> None:
        """Show these, in this order."""
        self.setEnabled(True)
        if found != self._shown:
            self._shown, self._all = found, False
            self._fill()

    def _fill(self) -> None:
        emptied(self._rows)
        self.buttons = []
        shown = self._shown if self._all else self._shown[:AT_FIRST]
        for one in shown:
            self._rows.addLayout(self._row(one))
        if more := len(self._shown) - len(shown):
            self.buttons.append(quiet_button(f"{wording.counted(more, 'earlier merge')} \u203a", self._show_all))
            self._rows.addLayout(headed(label(), self.buttons[-1]))
        self.setVisible(bool(self._shown))
        self._filled()

    def _row(self, one: MergedInto) -> QHBoxLayout:
        told = f"Take {one.name} apart from this place again"
        self.buttons.append(quiet_button("Take apart", lambda: self._wanted(one.id), told))
        return headed(label(place_wording.merged(one), "quiet"), self.buttons[-1])

    def _show_all(self) -> None:
        self._all = True
        self._fill()
        self.buttons[AT_FIRST].setFocus()

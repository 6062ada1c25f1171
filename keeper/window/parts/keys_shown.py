"""All keys and what they do, as the sheet of keys and the settings show them."""

from PySide6.QtWidgets import QGridLayout

from keeper.window.desk.keys import KEYS, Key
from keeper.window.desk.look import Look
from keeper.window.parts.piecemeal import Pieces, few_at_a_time
from keeper.window.parts.small import label

_AT_A_TIME = 8


class KeysShown(QGridLayout):
    """Each key beside what it does; ``pieces`` bring them, some at a time."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.setContentsMargins(0, 0, 0, 0)
        self.setHorizontalSpacing(look.px(1.5))
        self.setVerticalSpacing(look.px(0.4))
        self.setColumnStretch(1, 1)

    def pieces(self) -> Pieces:
        """Nothing is shown before these are done."""
        return few_at_a_time(_AT_A_TIME, self._add, KEYS)

    def _add(self, key: Key) -> None:
        place = self.rowCount()
        self.addWidget(label(key.told, wrap=False), place, 0)
        self.addWidget(label(key.does, "quiet"), place, 1)

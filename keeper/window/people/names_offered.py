"""Names that recur in the lines, each to be marked with one key."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.actions import people
from keeper.actions.people import Suggestion
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import emptied, label, quiet_button

OFFERED, IN_RESERVE = 8, 32


class NamesOffered(QWidget):
    """A few names at a time, from the lines; ``taken`` comes with one that is to be marked.

    Asked for once. ``after`` is what one comes from with Tab, and goes back to when no name is left.
    """

    taken = Signal(str)

    def __init__(self, desk: Desk, after: QWidget) -> None:
        super().__init__()
        self._desk, self._after = desk, after
        self._likely: list[Suggestion] | None = None
        self._errand = Errand(desk.reader)
        self.buttons: list[QPushButton] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(desk.look.px(0.3))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._likely is None:
            self._errand.anew(lambda store, task: people.suggestions(store, IN_RESERVE), self._on_likely)

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        # It reads thousands of lines: no other page should wait for that.
        self._errand.stop()

    def _on_likely(self, found: Sequence[Suggestion]) -> None:
        self._likely = list(found)
        self._offer()

    def _offer(self) -> None:
        emptied(self._layout)
        self.buttons = [self._button(one) for one in self._likely[:OFFERED]]
        if self.buttons:
            self._layout.addWidget(label("Often in your lines; press one to mark it:", "quiet"))
            self._layout.addWidget(Flow(self._desk.look, *self.buttons))
        for before, after in zip([self._after, *self.buttons], self.buttons, strict=False):
            self.setTabOrder(before, after)

    def _button(self, one: Suggestion) -> QPushButton:
        lines = wording.counted(one.lines, "line")
        text = f"{one.name} \u00b7 {lines}".replace("&", "&&")
        return quiet_button(text, lambda: self._take(one), f"Mark {one.name}, in {lines}")

    def _take(self, one: Suggestion) -> None:
        self._likely.remove(one)
        self._offer()
        (self.buttons[0] if self.buttons else self._after).setFocus()
        self.taken.emit(one.name)

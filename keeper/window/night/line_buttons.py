"""The buttons of a line in its kind's block, each made when there is first something to be done by it."""

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton

from keeper.model import LineKind
from keeper.window.parts.small import quiet_button


class _Button(NamedTuple):
    text: str
    told: str
    keys: str = ""


KEPT, EARLIER, MOVE, LIKE, REST, LATER = "kept", "earlier", "move", "like", "rest", "later"

_BUTTONS = {
    KEPT: _Button("Show the kept wording", "Show the kept wording of {}"),
    EARLIER: _Button("Earlier wordings", "Earlier wordings of {}"),
    MOVE: _Button("Move", "Move {} to another night or kind", "Ctrl+M"),
    LIKE: _Button("More like this", "More like {}, from other years"),
    REST: _Button("Let rest", "Let {} rest"),
    LATER: _Button("Later word", "A later word under {}", "Ctrl+J"),
}
"""In their order; the last one stands below the line."""


class LineButtons(QObject):
    """What can be done with a line; ``pressed`` comes with the name of the button.

    Tonight, before the first line, there are none: they are not made then.
    """

    pressed = Signal(str)

    def __init__(self, block: QObject, kind: LineKind, beside: QHBoxLayout, below: QHBoxLayout) -> None:
        super().__init__(block)
        self._kind, self._beside, self._below = kind, beside, below
        self._made: dict[str, QPushButton] = {}

    def call(self, kind: LineKind) -> None:
        """Take up the kind's name."""
        self._kind = kind
        for name, button in self._made.items():
            button.setAccessibleName(_BUTTONS[name].told.format(kind.in_sentence))

    def show(self, **wanted: bool) -> bool:
        """Show or hide these, by name; whether one came that was not there before."""
        before = len(self._made)
        for name, seen in wanted.items():
            if seen or name in self._made:
                self.button(name).setVisible(seen)
        return len(self._made) > before

    def button(self, name: str) -> QPushButton:
        """One of them, seen or not."""
        if name not in self._made:
            self._make(name)
        return self._made[name]

    def all_made(self) -> list[QPushButton]:
        """Those that are there, in their order."""
        return [self._made[name] for name in _BUTTONS if name in self._made]

    def beside(self) -> list[QPushButton]:
        """Those of them that stand beside the heading."""
        return [button for button in self.all_made() if button is not self._made.get(LATER)]

    def _make(self, name: str) -> None:
        text, told, keys = _BUTTONS[name]
        made = quiet_button(text, lambda: self.pressed.emit(name), told.format(self._kind.in_sentence))
        made.setToolTip(keys)
        made.hide()
        self._made[name] = made
        if name == LATER:
            self._below.insertWidget(0, made)
        else:
            beside = self.beside()
            self._beside.insertWidget(self._beside.count() - len(beside) + beside.index(made) + 1, made)

"""What answers besides lines, in a short block of its own: each says what it is and opens where it belongs."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.finding import Sought, everywhere
from keeper.actions.finding.everywhere import EACH, Beside
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import emptied, plainly, quiet_button

PAUSE = 120
"""Milliseconds without a key before they are asked for."""

_LONGEST, _ALL = 44, 15


class Besides(QWidget):
    """Hidden while nothing but lines answers."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._typed, self._within, self._each = "", Sought(), EACH
        self._low = False
        self._errand = Errand(desk.seeker)
        self._wait = once_after(self, PAUSE, self._go)
        self._body = QVBoxLayout(self)
        self._body.setContentsMargins(0, 0, 0, 0)
        self.shown: tuple[Beside, ...] = ()
        self.hide()

    def be_low(self, low: bool) -> None:
        """In a low window, or with large letters, one of each sort is told: the lines would be out of sight beneath."""
        self._low = low

    def ask(self, typed: str, within: Sought) -> None:
        """Ask, after a pause, for what answers to these words; to none, nothing. ``within`` narrows the lines told of."""
        self._errand.stop()
        self._wait.stop()
        self._typed, self._within, self._each = typed, within, 1 if self._low else EACH
        if typed.strip():
            self._wait.start()
        else:
            self._show((), 0)

    def _go(self) -> None:
        typed, within, each, tonight, spelling = self._typed, self._within, self._each, self._desk.tonight(), own_spelling()
        self._errand.anew(
            lambda store, task: everywhere.everywhere(store, typed, tonight, spelling, each, task.stopped, within),
            lambda found: self._show(*found),
        )  # fmt: skip

    def _show(self, found: tuple[Beside, ...], more: int) -> None:
        self.shown = found
        emptied(self._body)
        parts = [self._button(one) for one in found]
        if more and self._each != _ALL:
            parts.append(quiet_button("More of these", self._widen))
        if parts:
            self._body.addWidget(Flow(self._desk.look, *parts, gap=1))
        self.setVisible(bool(parts))

    def _button(self, one: Beside) -> QWidget:
        text = " ".join(one.text.split())
        short = text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "\u2026"
        told = f"{one.what}: {short}"
        made = quiet_button(plainly(told), lambda: self._desk.go(one.page, one.night, one.thing), f"Open {one.what}: {text}")
        return made

    def _widen(self) -> None:
        self._each = _ALL
        self._go()

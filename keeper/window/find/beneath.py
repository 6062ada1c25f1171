"""What is near to the words sought, or to a line: asked for when the typing pauses, in a lane of its own."""

from collections.abc import Callable

from PySide6.QtCore import QObject

from keeper.actions import finding
from keeper.actions.finding import FEW, Like, Sought
from keeper.model import Found
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand

PAUSE = 120
"""Milliseconds without a key before anything near is looked for."""

Shown = Callable[[tuple[Found, ...]], None]


class Beneath:
    """Asks for the nearest lines, once what has every word is shown."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        self._errand = Errand(desk.seeker)
        self._said = desk.said
        self._wait = once_after(parent, PAUSE, self._go)
        self._asked: tuple[Sought, tuple[Found, ...], Shown] | None = None

    def ask(self, sought: Sought, found: tuple[Found, ...], shown: Shown) -> None:
        """Look, after a pause, for the nearest besides those ``found``, where they are few."""
        self._asked = (sought, found, shown)
        if len(found) < FEW and sought.typed.strip():
            self._wait.start()

    def ask_like(self, like: Like, shown: Shown) -> None:
        """Look for the lines of other years that are nearest to one."""
        self.stop()
        self._errand.also(
            lambda store, task: finding.more_like(store, like.line.id, task.stopped), shown,
            lambda error: self._said.emit(str(error)),
        )  # fmt: skip

    def stop(self) -> None:
        """Break off whatever is asked for."""
        self._wait.stop()
        self._errand.stop()

    def _go(self) -> None:
        sought, found, shown = self._asked
        self._errand.anew(lambda store, task: finding.nearest_beneath(store, sought, found, stopped=task.stopped), shown)

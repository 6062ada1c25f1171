"""What the words sought say otherwise, and what is near to them or to a line: asked for when the typing pauses, in a lane of its own."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QObject

from keeper.actions import finding
from keeper.actions.finding import FEW, AsRead, Like, Sought
from keeper.model import Found
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand

PAUSE = 120
"""Milliseconds without a key before anything near is looked for."""

Shown = Callable[[tuple[Found, ...]], None]
Read = Callable[[AsRead | None], None]
Nights = Callable[[frozenset[date]], None]

_READ = 20
"""So many lines of what was read otherwise are listed; its words lead to all."""


class Beneath:
    """Asks for the nearest lines, once what has every word is shown."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        self._errand = Errand(desk.seeker)
        self._said, self._tonight = desk.said, desk.tonight
        self._wait = once_after(parent, PAUSE, self._go)
        self._asked: tuple[Sought, tuple[Found, ...], Read, Shown, Nights] | None = None

    def ask(self, sought: Sought, found: tuple[Found, ...], read: Read, shown: Shown, nights: Nights) -> None:
        """Look, after a pause, for all nights that answer; and, where those ``found`` are few, for what is beneath.

        That is what the words say otherwise, then the nearest lines.
        """
        self._asked = (sought, found, read, shown, nights)
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
        sought, found, read, shown, nights = self._asked
        tonight, spelling = self._tonight(), own_spelling()
        self._errand.stop()
        few = len(found) < FEW and bool(sought.typed.strip())

        def both(store, task) -> tuple[AsRead | None, frozenset[date]]:
            told = finding.otherwise_read(store, sought, tonight, spelling, _READ) if few else None
            return told, finding.nights_found(store, sought) | (finding.nights_found(store, told.sought) if told else frozenset())

        def show(told: tuple[AsRead | None, frozenset[date]]) -> None:
            read(told[0])
            nights(told[1])

        self._errand.also(both, show)
        if few:
            self._errand.also(lambda store, task: finding.nearest_beneath(store, sought, found, stopped=task.stopped), shown)

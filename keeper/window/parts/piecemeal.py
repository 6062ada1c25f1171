"""Making a page piece by piece, so that the window is never held up."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from PySide6.QtCore import QObject

from keeper.window.desk.timers import once_after

Pieces = list[Callable[[], object]]
Thing = TypeVar("Thing")


class Piecemeal(QObject):
    """Does pieces of work in their order, each in a turn of the event loop of its own.

    One that fails stops none of the others; what it raised goes to
    ``sys.excepthook``, which tells it to the person.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._coming: Pieces = []
        self._next = once_after(self, 0, self._do_next)

    def begin(self, pieces: Pieces, at_once: int = 0) -> None:
        """Do these in place of what is still to come, so many of them at once."""
        self._coming = list(pieces)
        try:
            for _ in range(min(at_once, len(self._coming))):
                self._coming.pop(0)()
        finally:
            self._next.start()

    def add(self, pieces: Pieces) -> None:
        """Do these too, after what is still to come."""
        self._coming += pieces
        self._next.start()

    def stop(self) -> None:
        """Do nothing of what is still to come."""
        self._coming = []

    def over(self) -> bool:
        """Whether nothing is to come."""
        return not self._coming

    def _do_next(self) -> None:
        if not self._coming:
            return
        try:
            self._coming.pop(0)()
        finally:
            self._next.start()


def few_at_a_time(number: int, make: Callable[[Thing], object], things: Sequence[Thing]) -> Pieces:
    """Pieces that each make so many of the things."""

    def some(first: int) -> None:
        for thing in things[first : first + number]:
            make(thing)

    return [lambda first=first: some(first) for first in range(0, len(things), number)]

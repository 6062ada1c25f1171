"""What one does with a photo that is there: choose it, turn it, let it rest, take it from its night."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QObject
from shiboken6 import isValid

from keeper.actions.history import undoing
from keeper.actions.photos import kept as photos
from keeper.model import Photo
from keeper.window.desk.desk import Desk


def while_alive(thing: QObject, act: Callable) -> Callable:
    """The act, done only while the thing is there: an answer may come after its window has gone."""
    return lambda *told: act(*told) if isValid(thing) else None


class PhotoActs:
    """Each act writes, tells the pages, and then calls ``then``.

    ``failed`` hears the KeeperError; without it the window says it.
    """

    def __init__(self, desk: Desk, failed: Callable | None = None) -> None:
        self._desk = desk
        self._failed = failed

    def choose(self, night: date, photo: Photo, then: Callable[[], None]) -> None:
        """Make it the photo of the night."""
        clock = self._desk.clock
        self._write(lambda store: photos.choose_for_night(store, night, photo.id, clock), lambda _: then())

    def rest_or_wake(self, photo: Photo, then: Callable[[], None] = lambda: None) -> None:
        """Let it rest, or wake it."""
        act = photos.wake_photo if photo.resting else photos.rest_photo
        self._write(lambda store: act(store, photo.id), lambda _: then())

    def turn(self, photo: Photo, quarters: int, then: Callable[[Photo], None] = lambda turned: None) -> None:
        """Turn it by quarters to the right; ``then`` hears it as it is now."""
        self._write(lambda store: photos.turn(store, photo.id, quarters), then)

    def take_out(self, night: date, photo: Photo, then: Callable[[int | None], None]) -> None:
        """Take it from the night; ``then`` hears the number of that act."""

        def work(store) -> int | None:
            photos.take_from(store, night, photo.id)
            return undoing.last_noted(store)

        self._write(work, then)

    def _write(self, work: Callable, then: Callable) -> None:
        def done(outcome: object) -> None:
            self._desk.changed.emit()
            then(outcome)

        self._desk.write(work, done, self._failed)

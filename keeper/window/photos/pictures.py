"""Pictures for the full view, unpacked off the window's thread and held while they are near."""

from collections.abc import Callable

from PySide6.QtGui import QImage

from keeper.actions.photos import kept as photos
from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Task

HELD = 4
"""Pictures of the window's size held in memory."""

LARGE = 3000
"""Pixels of the longer side from which on a picture is held only while it is looked at."""

MOST = 6000
"""Pixels of the longer side: beyond that a picture takes more memory than it shows."""


Seen = tuple[str, int]
"""A photo's id, and how it is turned."""

_NONE: Seen = ("", 0)


class Pictures:
    """Unpacks photos; ``show`` and ``fail`` are called for the one last asked for."""

    def __init__(self, desk: Desk, show: Callable[[QImage], None], fail: Callable[[KeeperError], None]) -> None:
        self._desk = desk
        self._show, self._fail = show, fail
        self._asked = _NONE
        self._held: dict[Seen, QImage] = {}
        self._under_way: dict[Seen, tuple[int, Task]] = {}

    def ask(self, photo: Photo, pixels: int) -> None:
        """Show a photo, its longer side so many pixels or as many as it has."""
        self._asked = _seen(photo)
        self._leave_others(self._asked)
        held = self._held.get(self._asked)
        if held is not None:
            self._show(held)
        if held is None or not _enough(held, photo, min(pixels, MOST)):
            self._unpack(photo, min(pixels, MOST))

    def ready(self, photo: Photo, pixels: int) -> None:
        """Unpack one that will likely be asked for next."""
        if _seen(photo) not in self._held:
            self._unpack(photo, pixels)

    def stop(self) -> None:
        """Answer no more what was asked."""
        self._asked = _NONE
        self._leave_others(_NONE)

    def _leave_others(self, wanted: Seen) -> None:
        for other in [one for one in self._under_way if one != wanted]:
            self._under_way.pop(other)[1].stop()
        for other in [one for one, image in self._held.items() if one != wanted and _side(image) > LARGE]:
            del self._held[other]

    def _unpack(self, photo: Photo, pixels: int) -> None:
        wanted = _seen(photo)
        if self._under_way.get(wanted, (0, None))[0] >= pixels:
            return
        task = self._desk.reader.run(
            lambda store, task: _unpacked(store, photo, pixels),
            lambda image: self._on_done(wanted, image),
            lambda error: self._on_failed(wanted, error),
        )
        self._under_way[wanted] = (pixels, task)

    def _on_done(self, wanted: Seen, image: QImage) -> None:
        self._under_way.pop(wanted, None)
        self._held.pop(wanted, None)
        self._held[wanted] = image
        while len(self._held) > HELD:
            self._held.pop(next(iter(self._held)))
        if wanted == self._asked:
            self._show(image)

    def _on_failed(self, wanted: Seen, error: KeeperError) -> None:
        self._under_way.pop(wanted, None)
        if wanted == self._asked:
            self._fail(error)


def _seen(photo: Photo) -> Seen:
    return photo.id, photo.turns


def _side(image: QImage) -> int:
    return max(image.width(), image.height())


def _enough(image: QImage, photo: Photo, wanted: int) -> bool:
    return _side(image) >= min(wanted, max(photo.width or wanted, photo.height or wanted))


def _unpacked(store, photo: Photo, pixels: int) -> QImage:
    seen = photos.pixels_of(store, photo, pixels)
    image = QImage(seen.rgb, seen.width, seen.height, seen.width * 3, QImage.Format.Format_RGB888)
    # A copy of its own, in the form in which it is drawn.
    return image.convertToFormat(QImage.Format.Format_RGB32)

"""Pages of the notebook as pictures: drawn off the window's thread, and held while they are near."""

from collections.abc import Callable

from PySide6.QtGui import QImage

from keeper.actions.scans import kept
from keeper.errors import KeeperError
from keeper.model.scans import Scan
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand

SIDE = 2400
"""Dots of the longer side of a page: a hand is read at that, however close."""

_HELD = 4

Seen = tuple[str, int, float, tuple]


class PagePictures:
    """Draws pages; ``show`` and ``fail`` are called for the one last asked for."""

    def __init__(self, desk: Desk, show: Callable[[QImage], None], fail: Callable[[KeeperError], None]) -> None:
        self._folder, self._errand = desk.folder, Errand(desk.darkroom)
        self._show, self._fail = show, fail
        self._held: dict[Seen, QImage] = {}

    def ask(self, scan: Scan) -> None:
        """Show a page as it is to be seen."""
        seen = _seen(scan)
        if held := self._held.get(seen):
            self._errand.stop()
            self._show(held)
            return
        folder = self._folder
        self._errand.anew(lambda store, task: _drawn(folder, scan), lambda image: self._on_drawn(seen, image), self._fail)

    def _on_drawn(self, seen: Seen, image: QImage) -> None:
        self._held[seen] = image
        while len(self._held) > _HELD:
            self._held.pop(next(iter(self._held)))
        self._show(image)


def _seen(scan: Scan) -> Seen:
    return scan.id, scan.turns, scan.angle, scan.cut


def _drawn(folder, scan: Scan) -> QImage:
    page = kept.as_seen(folder, scan, SIDE)
    image = QImage(page.tobytes(), page.width, page.height, page.width * 3, QImage.Format.Format_RGB888)
    # A copy of its own, in the form in which it is drawn.
    return image.convertToFormat(QImage.Format.Format_RGB32)

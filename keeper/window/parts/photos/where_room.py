"""A page with a row of photos among its words, where the window is high enough for both."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtGui import QResizeEvent

from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.photos.links import PhotoLinks

_HIGH = 26
"""From so many heights of a letter on there is room for photos too."""


class PhotosWhereRoom(LowWindow):
    """The page has a ``desk`` and its row, ``photos``, and says in ``_order_tabs`` what Tab reaches."""

    desk: Desk
    photos: PhotoLinks

    def _show_photos(self, found: Sequence[tuple[Photo, date]]) -> None:
        self.photos.show_photos(found)
        self._make_room()
        self._order_tabs()

    def _order_tabs(self) -> None:
        raise NotImplementedError

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        # On a low window the words come first.
        self.photos.show_all(self.height() >= self.desk.look.px(_HIGH))

"""A photo on the page: as large as the column, read in the background."""

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand

_TALLEST = 26
"""Ems above which an upright photo is made no taller."""


def image_of(store, photo: Photo, longest_side: int) -> QImage:
    """A photo as Qt draws it; for a lane. Raises DamagedPhoto, UnreadablePhoto."""
    # On the lane, since it brings along what reads pictures.
    from keeper.actions.photos.kept import pixels_of

    seen = pixels_of(store, photo, longest_side)
    # Copied, since the bytes go when this function is left.
    return QImage(seen.rgb, seen.width, seen.height, 3 * seen.width, QImage.Format.Format_RGB888).copy()


def _same(photo: Photo, other: Photo) -> bool:
    return (photo.id, photo.turns) == (other.id, other.turns)


class PhotoBox(QWidget):
    """A photo, fitted to the width it is given. ``trouble`` comes with a sentence when it cannot be read."""

    trouble = Signal(str)

    def __init__(self, desk: Desk, tallest: float = _TALLEST) -> None:
        super().__init__()
        self._desk = desk
        self._tallest = tallest
        self.photo: Photo | None = None
        self._pixels: QPixmap | None = None
        self._asked = 0
        self._errand = Errand(desk.darkroom)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.hide()

    def show_photo(self, photo: Photo | None) -> None:
        """Show another photo; none for None."""
        self.setVisible(photo is not None)
        if photo is None or (self.photo and _same(photo, self.photo)):
            self.photo = photo
            return
        self.photo, self._pixels, self._asked = photo, None, 0
        self.setAccessibleName(f"Photo. {photo.caption or photo.name}".strip())
        self._fit()
        self._ask()

    def _ask(self) -> None:
        wanted = int(max(self.width(), self.height()) * self.devicePixelRatioF())
        if self.photo is None or wanted <= self._asked or self.width() < 40:
            return
        # A little more than now, so that not every pull at the window reads it anew.
        photo, self._asked = self.photo, wanted * 5 // 4
        side = self._asked
        self._errand.anew(
            lambda store, task: image_of(store, photo, side), lambda image: self._take(photo, image), self._failed
        )

    def _take(self, photo: Photo, image: QImage) -> None:
        if self.photo and _same(photo, self.photo):
            self._pixels = QPixmap.fromImage(image)
            self._fit()
            self.update()

    def _failed(self, error: KeeperError) -> None:
        self.setAccessibleDescription(str(error))
        self.trouble.emit(str(error))

    def _fit(self) -> None:
        self.setFixedHeight(max(1, round(self._size().height())))

    def _size(self) -> QRectF:
        photo, tallest = self.photo, self._desk.look.px(self._tallest)
        if photo is None:
            return QRectF()
        wide, high = (photo.width or 3), (photo.height or 2)
        scale = min(self.width() / wide, tallest / high)
        return QRectF(0, 0, wide * scale, high * scale)

    def sizeHint(self) -> QSize:
        return QSize(self._desk.look.px(20), max(1, self.height()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()
            self._ask()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._pixels is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(self._size().toRect(), self._pixels)
        painter.end()

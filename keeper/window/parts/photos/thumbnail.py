"""A small photo one can press, made in the darkroom and remembered for a while."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton

from keeper.actions.photos import kept as photos
from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.study.taken import taken_there
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import stopping
from keeper.window.parts.kept_room import BELOW

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QPaintEvent

REMEMBERED = 60
"""Small pictures held in memory: they are there at once when the page is drawn anew."""

WIDEST, NARROWEST = 2.2, 0.5
"""Of the height; what is longer still is made to fit."""

_seen: dict[tuple[str, int], QImage] = {}
"""By SHA-256 and quarters turned."""


class Thumbnail(QAbstractButton):
    """A photo as tall as so many times the text, pressed by mouse, Enter or Space.

    ``marked`` underlines it; other keys than those go to the widget around it.
    """

    def __init__(self, desk: Desk, photo: Photo, ems: float, marked: bool = False) -> None:
        super().__init__()
        self.photo = photo
        self.marked = marked
        self.problem = ""
        self._desk, self._look, self._ems = desk, desk.look, ems
        self._image: QImage | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._fetch()
        self.describe(photo)

    def describe(self, photo: Photo) -> None:
        """Take up another caption, rest or turn of the same photo."""
        turned = photo.turns != self.photo.turns
        self.photo = photo
        if turned:
            self._fetch()
        name = photo.caption or "a photo without a caption"
        more = ", the photo of the night" * self.marked + ", resting" * photo.resting
        self.setAccessibleName(f"Photo: {name}{more}")
        self.setToolTip(self.problem or photo.caption)

    def _fetch(self) -> None:
        photo = self.photo
        self.setFixedSize(self._size(self._look.px(self._ems)))
        self._image = seen_small(photo)
        self.update()
        if self._image is not None:
            return
        task = self._desk.darkroom.run(
            lambda store, task: _small(store, photo), lambda image: self._show(photo, image), self._fail
        )
        # It may be gone from the page before its picture comes.
        self.destroyed.connect(stopping(task))

    def _show(self, photo: Photo, image: QImage) -> None:
        _seen[photo.sha256, photo.turns] = image
        if photo.turns == self.photo.turns:
            # Else it was turned on while this picture came.
            self._image = image
        while len(_seen) > REMEMBERED:
            _seen.pop(next(iter(_seen)))
        self.update()

    def _fail(self, error: KeeperError) -> None:
        self.problem = str(error)
        self.setAccessibleDescription(self.problem)
        self.setToolTip(self.problem)
        self.update()

    def _size(self, height: int) -> QSize:
        wide, high = self.photo.width or 4, self.photo.height or 3
        width = min(max(wide / high, NARROWEST), WIDEST) * height
        return QSize(round(width), height + BELOW)

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        elif event.key() == Qt.Key.Key_Space:
            super().keyPressEvent(event)
        else:
            event.ignore()

    def paintEvent(self, event: "QPaintEvent") -> None:
        painter, ink = QPainter(self), QColor(self._look.palette.ink)
        room = self.rect().adjusted(0, 0, 0, -BELOW)
        place = self._drawn(painter, room.adjusted(4, 4, -4, -4) if self.hasFocus() else room)
        if self.marked:
            painter.fillRect(room.left(), self.height() - 3, place.right() - room.left() + 1, 3, ink)
        if self.hasFocus():
            painter.setPen(QPen(ink, 2))
            painter.drawRect(place.adjusted(-3, -3, 3, 3))
        painter.end()

    def _drawn(self, painter: QPainter, room: QRect) -> QRect:
        if self._image is None or self._image.isNull():
            painter.fillRect(room, QColor(self._look.palette.wash))
            if self.problem:
                painter.setPen(QColor(self._look.palette.quiet))
                painter.setFont(self._look.sans(0.85))
                wrapped = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(room.adjusted(4, 4, -4, -4), wrapped, "cannot be shown")
            return room
        place = QRect(room.topLeft(), self._image.size().scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio))
        place.moveBottom(room.bottom())
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(place, self._image)
        return place


def seen_small(photo: Photo) -> QImage | None:
    """The small picture of a photo, where it has been seen of late."""
    return _seen.get((photo.sha256, photo.turns))


def said_of(photo: Photo) -> str:
    """When a photo was taken, by the clocks of where it was, and whether that is a guess; "" when it does not say."""
    taken = taken_there(photo)
    if taken is None:
        return ""
    hour = "" if photo.day_only else f", {taken.hour}:{taken.minute:02d}"
    return f"Taken {wording.long_date(taken.date())}{hour}{' (from its name: a guess)' if photo.dated_by == 'name' else ''}"


def _small(store, photo: Photo) -> QImage:
    return QImage.fromData(photos.thumbnail_of(store, photo))

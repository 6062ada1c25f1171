"""A picture: whole, or closer and moved about."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QWidget

from keeper.window.desk.look import Look

if TYPE_CHECKING:
    from PySide6.QtCore import QSize
    from PySide6.QtGui import QMouseEvent, QPaintEvent, QResizeEvent, QWheelEvent

STEP = 1.25
CLOSEST = 4.0
"""Pixels of the screen to one of the photo."""


class PhotoCanvas(QWidget):
    """Shows one picture, or a sentence in its place.

    ``zoom`` is pixels of the screen to one of the photo, None for the whole
    picture; ``resized`` comes when another size would fit, ``came_closer``
    when more pixels would be seen.
    """

    resized = Signal()
    came_closer = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.image: QImage | None = None
        self.sentence = ""
        self.zoom: float | None = None
        self._full = QSizeF(1, 1)
        self._middle = QPointF(0.5, 0.5)
        self._held: QPointF | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(look.px(12), look.px(8))

    def begin(self, width: int | None, height: int | None, for_now: QImage | None = None) -> None:
        """Another photo, so many pixels large, whose picture is still to come."""
        self.image, self.sentence, self.zoom = for_now, "", None
        self._full = QSizeF(width or 4, height or 3)
        self._middle = QPointF(0.5, 0.5)
        self.update()

    def go_on(self, image: QImage) -> None:
        """Another picture of the same kind, or the same one seen otherwise, as close as the last one was."""
        self.image, self.sentence, self._full = image, "", QSizeF(image.size())
        self._hold_middle()

    def seen_part(self) -> tuple[float, float, float, float]:
        """What is seen of the picture: left, top, right and bottom, in parts of it."""
        place = self._place()
        seen = place.intersected(QRectF(self.rect()))
        left, top = (seen.left() - place.left()) / place.width(), (seen.top() - place.top()) / place.height()
        return left, top, left + seen.width() / place.width(), top + seen.height() / place.height()

    def look_at(self, down: float) -> None:
        """Bring what lies so far down, in parts of the whole, to the middle, as far as there is more than is seen."""
        self._middle = QPointF(self._middle.x(), down)
        self._hold_middle()

    def show_image(self, image: QImage) -> None:
        """The picture, or the same one with more pixels."""
        self.image = image
        self.update()

    def say(self, sentence: str) -> None:
        """A sentence in place of the picture."""
        self.image, self.sentence = None, sentence
        self.update()

    # sizes

    def fitting(self) -> float:
        """The zoom at which the whole picture is seen; never larger than it is."""
        seen = self._seen()
        return min(seen.width() / self._full.width(), seen.height() / self._full.height(), 1.0)

    def pixels_wanted(self) -> int:
        """Pixels of the longer side that can be told apart now; when it is close, all there are."""
        return max(1, round(max(self._full.width(), self._full.height()) * (1.0 if self.zoom else self.fitting())))

    def pixels_at_most(self) -> int:
        """Pixels of the longer side that a whole picture can have here."""
        return round(max(self._seen().width(), self._seen().height()))

    def _seen(self) -> QSizeF:
        return QSizeF(self.width(), self.height()) * self.devicePixelRatioF()

    def _place(self) -> QRectF:
        """Where the whole picture lies, in the widget's own measure."""
        size = self._full * ((self.zoom or self.fitting()) / self.devicePixelRatioF())
        left = _lying(size.width(), self.width(), self._middle.x())
        top = _lying(size.height(), self.height(), self._middle.y())
        return QRectF(QPointF(left, top), size)

    # closer and farther

    def go_closer(self, by: float, at: QPointF | None = None) -> None:
        """Come closer (more than 1) or go back; ``at`` stays where it is."""
        fitting, now = self.fitting(), self.zoom or self.fitting()
        wanted = min(now * by, max(CLOSEST, fitting))
        self.set_zoom(None if wanted <= fitting * 1.001 else wanted, at)

    def set_zoom(self, zoom: float | None, at: QPointF | None = None) -> None:
        """Show the whole picture (None), or so many pixels of the screen to one of it."""
        at = at or QPointF(self.width() / 2, self.height() / 2)
        before = self._place()
        under = QPointF((at.x() - before.left()) / before.width(), (at.y() - before.top()) / before.height())
        self.zoom = zoom
        size = self._place().size()
        self._middle = QPointF(under.x() - (at.x() - self.width() / 2) / size.width(),
                               under.y() - (at.y() - self.height() / 2) / size.height())  # fmt: skip
        self._hold_middle()
        self.came_closer.emit()

    def move_by(self, x: float, y: float) -> None:
        """Move the picture by so many pixels."""
        size = self._place().size()
        self._middle -= QPointF(x / size.width(), y / size.height())
        self._hold_middle()

    def _hold_middle(self) -> None:
        size = self._place().size()
        self._middle = QPointF(_held(self._middle.x(), self.width() / size.width()),
                               _held(self._middle.y(), self.height() / size.height()))  # fmt: skip
        self.update()

    # events

    def paintEvent(self, event: "QPaintEvent") -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._look.palette.paper))
        if self.sentence:
            painter.setPen(QColor(self._look.palette.quiet))
            painter.setFont(self._look.serif(1.15))
            edge = self._look.px(2)
            room = self.rect().adjusted(edge, edge, -edge, -edge)
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.sentence)
        elif self.image is not None:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.drawImage(self._place(), self.image, QRectF(self.image.rect()))
        if self.hasFocus() and not self.sentence:
            painter.fillRect(0, self.height() - 2, self.width(), 2, QColor(self._look.palette.faint))
        painter.end()

    def resizeEvent(self, event: "QResizeEvent") -> None:
        if self.zoom is not None and self.zoom <= self.fitting():
            self.zoom = None
        self._hold_middle()
        self.resized.emit()

    def wheelEvent(self, event: "QWheelEvent") -> None:
        turned = event.angleDelta().y() / 120
        if turned:
            self.go_closer(STEP**turned, event.position())

    def mousePressEvent(self, event: "QMouseEvent") -> None:
        self._held = event.position()

    def mouseMoveEvent(self, event: "QMouseEvent") -> None:
        if self._held is not None:
            moved = event.position() - self._held
            self._held = event.position()
            self.move_by(moved.x(), moved.y())

    def mouseReleaseEvent(self, event: "QMouseEvent") -> None:
        self._held = None

    def mouseDoubleClickEvent(self, event: "QMouseEvent") -> None:
        self.set_zoom(1.0 if self.zoom is None else None, event.position())

    def sizeHint(self) -> "QSize":
        return QSizeF(self._look.px(40), self._look.px(28)).toSize()


def _lying(size: float, room: float, middle: float) -> float:
    return (room - size) / 2 if size <= room else room / 2 - size * middle


def _held(middle: float, share: float) -> float:
    """The middle, kept so that no paper shows beside a picture larger than its room."""
    return 0.5 if share >= 1 else min(max(middle, share / 2), 1 - share / 2)

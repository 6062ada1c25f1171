"""What the charts of closer looks share: an axis, a spot one points at, and its words."""

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.tips import plain_tip

LEFT, RIGHT, TOP, BELOW = 4.2, 1.0, 0.8, 2.6
"""Room around the drawing, in times the text's height."""


class CourseChart(QWidget):
    """Spots from left to right, each of which is told when it is pointed at, by mouse or arrow keys.

    A chart says how many ``spots`` it has, where each lies, what is ``told`` of it, and draws itself into ``area``.
    """

    ems_high = 14.0

    def __init__(self, look: Look, name: str) -> None:
        super().__init__()
        self._look = look
        self.spot: int | None = None
        self.low, self.high = 0.0, 1.0
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    # what a chart says of itself

    def spots(self) -> int:
        """How many spots there are."""
        raise NotImplementedError

    def x(self, spot: float) -> float:
        """Where a spot lies."""
        area = self.area()
        return area.left() + (spot + 0.5) * area.width() / max(1, self.spots())

    def told(self, spot: int) -> str:
        """A spot in words."""
        raise NotImplementedError

    def draw(self, painter: QPainter, area: QRectF) -> None:
        """Everything within the area, and what stands below it."""
        raise NotImplementedError

    # where things are

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(36), self._look.px(self.ems_high))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(20), self._look.px(self.ems_high))

    def area(self) -> QRectF:
        """Where values are drawn."""
        px = self._look.px
        return QRectF(px(LEFT), px(TOP), self.width() - px(LEFT + RIGHT), self.height() - px(TOP + BELOW))

    def y(self, value: float, area: QRectF | None = None) -> float:
        """The height of a value."""
        area = area or self.area()
        part = (min(max(value, self.low), self.high) - self.low) / max(self.high - self.low, 1e-12)
        return area.bottom() - part * area.height()

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.spots():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.draw(painter, self.area())
        self._paint_pointed(painter)
        painter.end()

    def _paint_pointed(self, painter: QPainter) -> None:
        if self.spot is None:
            return
        colours, area = self._look.palette, self.area()
        painter.setPen(QPen(QColor(colours.ink if self.hasFocus() else colours.line), 1))
        painter.drawLine(QLineF(self.x(self.spot), area.top(), self.x(self.spot), area.bottom()))

    def words(self, painter: QPainter, at: QPointF, text: str, *, side: str = "middle", ink: str = "", scale: float = 0.75) -> QRectF:
        """Small words that end, begin or stand in the middle at a point; where they are."""
        painter.setFont(self._look.sans(scale))
        painter.setPen(QColor(ink or self._look.palette.quiet))
        wide, high = painter.fontMetrics().horizontalAdvance(text) + 2, painter.fontMetrics().height()
        left = at.x() - {"middle": wide / 2, "right": wide, "left": 0}[side]
        room = QRectF(min(max(left, 0), self.width() - wide), at.y() - high / 2, wide, high)
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, text)
        return room

    def line(self, painter: QPainter, colour: str, one: QPointF, other: QPointF, wide: float = 1.0) -> None:
        """A straight line."""
        painter.setPen(QPen(QColor(colour), wide))
        painter.drawLine(one, other)

    # pointing

    def point_at(self, spot: int | None) -> None:
        """Point at a spot, or at none."""
        if spot != self.spot:
            self.spot = spot
            self.update()

    def _nearest(self, x: float) -> int:
        return min(range(self.spots()), key=lambda spot: abs(self.x(spot) - x))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self.spots() or event.position().x() < self.area().left() - self._look.px(0.6):
            return
        self.point_at(self._nearest(event.position().x()))
        QToolTip.showText(event.globalPosition().toPoint(), plain_tip(self.told(self.spot)), self)

    def leaveEvent(self, event) -> None:
        if not self.hasFocus():
            self.point_at(None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.spots() or (to := self._by_key(event.key())) is None:
            super().keyPressEvent(event)
            return
        self.point_at(min(max(to, 0), self.spots() - 1))
        self.say()

    def _by_key(self, key: int) -> int | None:
        at, last = self.spot, self.spots() - 1
        steps = {
            Qt.Key.Key_Left: last if at is None else at - 1, Qt.Key.Key_Right: 0 if at is None else at + 1,
            Qt.Key.Key_Home: 0, Qt.Key.Key_End: last,
        }  # fmt: skip
        return steps.get(Qt.Key(key))

    def say(self) -> None:
        """Tell what is pointed at, to eye and ear."""
        told = self.told(self.spot)
        self.setAccessibleDescription(told)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, told))
        where = self.mapToGlobal(QPointF(self.x(self.spot), self.area().bottom()).toPoint())
        QToolTip.showText(where, plain_tip(told), self)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.spot is None and self.spots():
            self.point_at(self.begins_at())

    def begins_at(self) -> int:
        """Which spot is pointed at first."""
        return 0

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        QToolTip.hideText()
        self.point_at(None)

"""Readings as small strips: a night of the month stands at the same spot in every month."""

from collections.abc import Sequence
from itertools import groupby

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.month.strip import LINE, MARK, PLACE, STICK, Strip
from keeper.window.parts.places.mark import HATCHINGS

NIGHTS = 31

class ReadingStrips(QWidget):
    """Strips under one another; pointing at a night, by mouse or arrow keys, tells its values.

    ``pointed`` comes with the day of the month, 1 to 31, or 0.
    """

    pointed = Signal(int)

    def __init__(self, look: Look, name: str = "Readings of the month") -> None:
        super().__init__()
        self._look = look
        self.strips: tuple[Strip, ...] = ()
        self.day = 0
        self._spots: list[QRectF] = []
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def show_strips(self, strips: Sequence[Strip], described: str = "") -> None:
        """Show other strips."""
        self.strips = tuple(strips)
        self.setAccessibleDescription(described)
        self.updateGeometry()
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(30), int(self._bottom() + self._look.px(1.4)))

    # where things are

    def _left(self) -> float:
        return self._look.px(8.2)

    def _tall(self, strip: Strip) -> float:
        return self._look.px(strip.ems or (1.15 if strip.how in (MARK, PLACE) else 2.7))

    def _bottom(self) -> float:
        return sum(self._tall(one) + self._above(one) for one in self.strips)

    def _above(self, strip: Strip) -> float:
        return self._look.px(1.9 if strip.heading else 0.5)

    def _x(self, day: int) -> float:
        """The middle of a day."""
        right = self._look.px(1.8)
        return self._left() + (day - 0.5) * (self.width() - self._left() - right) / NIGHTS

    def _step(self) -> float:
        return self._x(2) - self._x(1)

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        top = 0.0
        for strip in self.strips:
            self._paint_heading(painter, strip, top)
            top += self._above(strip)
            self._paint_strip(painter, strip, QRectF(self._x(1) - self._step() / 2, top,
                              self._step() * NIGHTS, self._tall(strip)))  # fmt: skip
            top += self._tall(strip)
        self._paint_days(painter, top)
        self._paint_pointed(painter, top)
        painter.end()

    def _paint_heading(self, painter: QPainter, strip: Strip, top: float) -> None:
        if strip.heading:
            painter.setFont(self._look.sans(0.95))
            painter.setPen(QColor(self._look.palette.ink))
            room = QRectF(0, top, self.width(), self._above(strip) - self._look.px(0.15))
            painter.drawText(room, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft, strip.heading)

    def _paint_strip(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours = self._look.palette
        if strip.band:
            top, bottom = self._y(strip, area, strip.band[1]), self._y(strip, area, strip.band[0])
            painter.fillRect(QRectF(area.left(), top, area.width(), bottom - top), QColor(colours.wash))
        painter.setPen(QPen(QColor(colours.faint), 1))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        self._paint_name(painter, strip, area)
        draw = {LINE: self._paint_line, STICK: self._paint_sticks, MARK: self._paint_marks, PLACE: self._paint_places}
        draw[strip.how](painter, strip, area)

    def _paint_name(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours, px = self._look.palette, self._look.px
        flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
        painter.setFont(self._look.sans(0.9))
        painter.setPen(QColor(colours.ink))
        room = QRectF(0, area.top(), self._left() - px(0.6), area.height())
        if strip.note and area.height() > px(2):
            painter.drawText(QRectF(0, area.top(), room.width(), area.height() / 2), flags, self._elided(painter, strip.name, room))
            painter.setFont(self._look.sans(0.72))
            painter.setPen(QColor(colours.quiet))
            lower = QRectF(0, area.center().y(), room.width(), area.height() / 2)
            painter.drawText(lower, Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap, strip.note)
        else:
            painter.drawText(room, flags, self._elided(painter, strip.name, room))
        if strip.how in (LINE, STICK) and not strip.ems:
            self._paint_ends(painter, strip, area)

    def _elided(self, painter: QPainter, words: str, room: QRectF) -> str:
        return painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room.width()))

    def _paint_ends(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        painter.setFont(self._look.sans(0.68))
        painter.setPen(QColor(self._look.palette.quiet))
        beside = QRectF(area.right() + self._look.px(0.3), area.top(), self._look.px(1.5), area.height())
        painter.drawText(beside, Qt.AlignmentFlag.AlignTop, wording.shortest(strip.high))
        painter.drawText(beside, Qt.AlignmentFlag.AlignBottom, wording.shortest(strip.low))

    def _y(self, strip: Strip, area: QRectF, value: float) -> float:
        share = (min(max(value, strip.low), strip.high) - strip.low) / (strip.high - strip.low)
        return area.bottom() - 1 - share * (area.height() - 3)

    def _paint_line(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        ink, dot = QColor(self._look.palette.ink), max(1.6, self._look.px(0.13))
        for noted, run in groupby(enumerate(strip.values, 1), key=lambda one: one[1] is not None):
            if not noted:
                continue
            points = [QPointF(self._x(day), self._y(strip, area, value)) for day, value in run]
            painter.setPen(QPen(QColor(self._look.palette.line), 1.1))
            painter.drawPolyline(points)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ink)
            for point in points:
                painter.drawEllipse(point, dot, dot)
            painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_sticks(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        painter.setPen(QPen(QColor(self._look.palette.ink), max(2.0, self._look.px(0.2))))
        base = area.bottom() - 1
        for day, value in enumerate(strip.values, 1):
            if value is not None:
                # None at all is noted too: a stick of no height, but seen.
                top = min(self._y(strip, area, value), base - 0.5)
                painter.drawLine(QPointF(self._x(day), base), QPointF(self._x(day), top))

    def _paint_marks(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours = self._look.palette
        for day, value in enumerate(strip.values, 1):
            if value:
                painter.setPen(QPen(QColor(colours.ink), max(2.0, self._look.px(0.2))))
                painter.drawLine(QPointF(self._x(day), area.bottom() - 1), QPointF(self._x(day), area.top() + 1))
            elif value is not None:
                painter.setPen(QPen(QColor(colours.line), 1.4))
                painter.drawPoint(QPointF(self._x(day), area.bottom() - self._look.px(0.3)))

    def _paint_places(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours, day = self._look.palette, 1
        painter.setFont(self._look.sans(0.72))
        for place, run in groupby(strip.values):
            nights = len(list(run))
            if place:
                left = self._x(day) - self._step() / 2
                room = QRectF(left + 1, area.top(), self._step() * nights - 2, area.height())
                hatch, tint = divmod(place.place.mark or 0, len(colours.tints))
                under = QRectF(room.left(), room.bottom() - self._look.px(0.24), room.width(), self._look.px(0.24))
                painter.fillRect(under, QBrush(QColor(colours.tints[tint]), HATCHINGS[hatch % len(HATCHINGS)]))
                painter.setPen(QColor(colours.quiet))
                painter.drawText(room, Qt.AlignmentFlag.AlignTop, self._elided(painter, place.place.name, room))
            day += nights

    def _paint_days(self, painter: QPainter, top: float) -> None:
        painter.setFont(self._look.sans(0.72))
        painter.setPen(QColor(self._look.palette.quiet))
        for day in (1, 5, 10, 15, 20, 25, 30):
            spot = QRectF(self._x(day) - self._look.px(1), top, self._look.px(2), self._look.px(1.2))
            painter.drawText(spot, Qt.AlignmentFlag.AlignCenter, str(day))

    def _paint_pointed(self, painter: QPainter, top: float) -> None:
        if not self.day:
            return
        colours = self._look.palette
        painter.setPen(QPen(QColor(colours.ink if self.hasFocus() else colours.line), 1))
        painter.drawLine(QPointF(self._x(self.day), 0), QPointF(self._x(self.day), top))
        painter.setFont(self._look.sans(0.8))
        above = 0.0
        for strip in self.strips:
            above += self._above(strip)
            self._paint_value(painter, strip, above)
            above += self._tall(strip)

    def _paint_value(self, painter: QPainter, strip: Strip, top: float) -> None:
        told = strip.told[self.day - 1] if self.day <= len(strip.told) else ""
        if not told or strip.how == PLACE:
            return
        colours, metrics, gap = self._look.palette, painter.fontMetrics(), self._look.px(0.3)
        wide = metrics.horizontalAdvance(told) + gap
        left = self._x(self.day) + gap
        # In the last nights there is room only on the other side.
        if left + wide > self.width():
            left = self._x(self.day) - gap - wide
        room = QRectF(left, top, wide, metrics.height())
        painter.fillRect(room, QColor(colours.paper))
        painter.setPen(QColor(colours.ink))
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, told)

    # telling

    def told(self, day: int) -> str:
        """The values of a day in words."""
        parts, group = [str(day)], ""
        for strip in self.strips:
            group = strip.heading or group
            if day <= len(strip.told) and strip.told[day - 1]:
                parts.append(f"{group} {strip.name} {strip.told[day - 1]}".strip())
        return " \u00b7 ".join(parts) if len(parts) > 1 else f"{day} \u00b7 nothing noted"

    def point_at(self, day: int) -> None:
        """Point at a day of the month; 0 at none."""
        if day != self.day:
            self.day = day
            self.setToolTip("")
            self.pointed.emit(day)
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        day = round((event.position().x() - self._x(1)) / max(1.0, self._step())) + 1
        self.point_at(day if 1 <= day <= NIGHTS and event.position().x() >= self._left() else 0)

    def leaveEvent(self, event) -> None:
        if not self.hasFocus():
            self.point_at(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: self.day - 1, Qt.Key.Key_Right: self.day + 1, Qt.Key.Key_Home: 1, Qt.Key.Key_End: NIGHTS}
        if event.key() not in steps:
            super().keyPressEvent(event)
            return
        self.point_at(min(max(steps[event.key()], 1), NIGHTS))
        self.setAccessibleDescription(self.told(self.day))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.point_at(self.day or 1)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.point_at(0)

"""Readings as small strips: a night of the month stands at the same spot in every month."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
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
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.review.readings.axes import crossings_told
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.month import wording as month_wording
from keeper.window.month.strip import LINE, MARK, PLACE, STICK, Strip
from keeper.window.month.strip_painting import Drawing, line_pen, paint, paint_spot

NIGHTS = 31

_SHARED, _ROW, _BELOW = 3.9, 1.15, 1.25
"""Height of a shared axis, of a name beside it, and of the words below it, in times the text's height."""


class ReadingStrips(QWidget):
    """Strips under one another; pointing at a night, by mouse or arrow keys, tells its values.

    ``pointed`` comes with the day of the month, 1 to 31, or 0; ``opened`` when
    Enter is pressed on one, with its night, where a month is known.
    """

    pointed = Signal(int)
    opened = Signal(object)

    def __init__(self, look: Look, name: str = "Readings of the month") -> None:
        super().__init__()
        self._look = look
        self.strips: tuple[Strip, ...] = ()
        self.month: date | None = None
        self.day = 0
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def show_strips(self, strips: Sequence[Strip], described: str = "", month: date | None = None) -> None:
        """Show other strips; of a ``month`` all its nights are told with their date."""
        self.strips, self.month = tuple(strips), month
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
        if strip.shares:
            return self._look.px(max(_SHARED, _ROW * len(strip.lines) + 0.6))
        return self._look.px(strip.ems or (1.15 if strip.how in (MARK, PLACE) else 2.7))

    def _bottom(self) -> float:
        return sum(self._tall(one) + self._above(one) + self._below(one) for one in self.strips)

    def _above(self, strip: Strip) -> float:
        return self._look.px(1.9 if strip.heading else 0.5)

    def _below(self, strip: Strip) -> float:
        # The same room in every month, whether anything crosses or not.
        return self._look.px(_BELOW) if strip.shares else 0.0

    def _x(self, day: float) -> float:
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
            area = QRectF(self._x(1) - self._step() / 2, top, self._step() * NIGHTS, self._tall(strip))
            self._paint_strip(painter, strip, area)
            top += self._tall(strip) + self._below(strip)
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
        if strip.shares:
            self._paint_names(painter, strip, area)
        else:
            self._paint_name(painter, strip, area)
        here = strip.in_force is None or strip.in_force or any(value is not None for value in strip.values)
        if strip.how in (LINE, STICK) and not strip.ems and here:
            self._paint_ends(painter, strip, area)
        paint(Drawing(painter, self._look, strip, area, self._x, self._step()))

    def _paint_name(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours, px = self._look.palette, self._look.px
        flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
        painter.setFont(self._look.sans(0.9))
        absent = strip.in_force is not None and not strip.in_force
        painter.setPen(QColor(colours.quiet if absent else colours.ink))
        room = QRectF(0, area.top(), self._left() - px(0.6), area.height())
        if strip.note and area.height() > px(2):
            painter.drawText(QRectF(0, area.top(), room.width(), area.height() / 2), flags, self._elided(painter, strip.name, room))
            painter.setFont(self._look.sans(0.72))
            painter.setPen(QColor(colours.quiet))
            lower = QRectF(0, area.center().y(), room.width(), area.height() / 2)
            painter.drawText(lower, Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap, strip.note)
            return
        painter.drawText(room, flags, self._elided(painter, strip.name, room))
        if absent and strip.note:
            painter.setFont(self._look.sans(0.72))
            painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, strip.note)

    def _paint_names(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        colours, px = self._look.palette, self._look.px
        for number, line in enumerate(strip.lines):
            middle = area.top() + px(0.7) + number * px(_ROW)
            painter.setPen(line_pen(self._look, number))
            painter.drawLine(QLineF(0, middle, px(1.5), middle))
            paint_spot(painter, self._look, QPointF(px(0.75), middle), number)
            painter.setFont(self._look.sans(0.9))
            painter.setPen(QColor(colours.ink))
            room = QRectF(px(1.9), middle - px(0.6), self._left() - px(2.5), px(1.2))
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self._elided(painter, line.name, room))
        painter.setFont(self._look.sans(0.72))
        painter.setPen(QColor(colours.quiet))
        told = crossings_told(strip.crossed)
        below = QRectF(area.left(), area.bottom() + px(0.32), area.width(), px(0.95))
        painter.drawText(below, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self._elided(painter, told, below))

    def _elided(self, painter: QPainter, words: str, room: QRectF) -> str:
        return painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room.width()))

    def _paint_ends(self, painter: QPainter, strip: Strip, area: QRectF) -> None:
        painter.setFont(self._look.sans(0.68))
        painter.setPen(QColor(self._look.palette.quiet))
        beside = QRectF(area.right() + self._look.px(0.3), area.top(), self._look.px(1.5), area.height())
        painter.drawText(beside, Qt.AlignmentFlag.AlignTop, wording.shortest(strip.high))
        painter.drawText(beside, Qt.AlignmentFlag.AlignBottom, wording.shortest(strip.low))

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
            for number, line in enumerate(strip.lines):
                self._paint_value(painter, line, above + number * self._look.px(_ROW), strip.shares)
            above += self._tall(strip) + self._below(strip)

    def _paint_value(self, painter: QPainter, strip: Strip, top: float, named: bool) -> None:
        told = strip.told[self.day - 1] if self.day <= len(strip.told) else ""
        if not told or strip.how == PLACE:
            return
        told = f"{strip.name} {told}" if named else told
        colours, metrics, gap = self._look.palette, painter.fontMetrics(), self._look.px(0.3)
        wide = metrics.horizontalAdvance(told) + gap
        left = self._x(self.day) + gap
        # In the last nights there is room only on the other side.
        if left + wide > self.width():
            left = self._x(self.day) - gap - wide
        room = QRectF(left, top, wide, metrics.height())
        painter.fillRect(room, QColor(colours.paper))
        painter.setPen(QColor(colours.quiet if month_wording.NOT_NOTED in told else colours.ink))
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, told)

    # telling

    def told(self, day: int) -> str:
        """The values of a day in words; of a month's night also what was not noted, unless that is all."""
        when, parts, group = self._when(day), [], ""
        for strip in self.strips:
            group = strip.heading or group
            lines = [line for line in strip.lines if day <= len(line.told) and line.told[day - 1]]
            parts += [f"{group} {line.name} {line.told[day - 1]}".strip() for line in lines]
            parts += [month_wording.crossed_told(one) for one in strip.crossed if one.crossing.day == day]
        something = [part for part in parts if not part.endswith(month_wording.NOT_NOTED)]
        return " \u00b7 ".join([when, *parts] if something else [when, "nothing noted"])

    def _when(self, day: int) -> str:
        known = self.month and self.strips and day <= len(self.strips[0].values)
        return wording.weekday_and_day(self.month.replace(day=day)) if known else str(day)

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
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._when(self.day) != str(self.day):
            self.opened.emit(self.month.replace(day=self.day))
        elif event.key() in steps:
            self.point_at(min(max(steps[event.key()], 1), NIGHTS))
            self.setAccessibleDescription(self.told(self.day))
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self.told(self.day)))
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.point_at(self.day or 1)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.point_at(0)

"""A tracker's year: the median of each month or week and the middle half of its nights, with the year before behind it."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.review.readings.year import week_begins
from keeper.review.year import YearReadings
from keeper.study.readings.spread import Spread
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.tips import plain_tip
from keeper.window.year import wording as year_wording

_NAME, _CURVE, _FIGURES, _HIGH = 8.3, 3.4, 2.3, 7.7
"""Width of the name; heights of the curve, of the figures below it, and of all; in times the text's height."""

MONTH, WEEK = "month", "week"


class ReadingStrip(QWidget):
    """One tracker through the months or the weeks of a year: this year drawn through, the year before in dashes.

    ``part`` is the number of the month or week pointed at, or None.
    """

    def __init__(self, look: Look, of: YearReadings, year: int, by: str = MONTH) -> None:
        super().__init__()
        self._look = look
        self.of, self.year = of, year
        self.by, self.part = by, None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.show_by(by)

    def show_by(self, by: str) -> None:
        """Show it by MONTH or by WEEK."""
        self.by, self.part = by, None
        self.setAccessibleName(f"{self.of.tracker.name}, {year_wording.about(self.of)}, {by} by {by} in {self.year}")
        noted = [number for number, one in enumerate(self._now(), 1) if one.nights]
        self.setAccessibleDescription("; ".join(self.told(number) for number in noted) + ".")
        self.update()

    def told(self, part: int) -> str:
        """How the nights of a month or week were, in words."""
        return year_wording.of_month(self.of, part) if self.by == MONTH else year_wording.of_week(self.of, self.year, part)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(36), self._look.px(_HIGH))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(26), self._look.px(_HIGH))

    def scale(self) -> tuple[float, float]:
        """The lowest and highest value that can be drawn; the same for both years, and on the pages of the months."""
        return self.of.low, self.of.high

    def _now(self) -> Sequence[Spread]:
        return self.of.months if self.by == MONTH else self.of.weeks

    def _then(self) -> Sequence[Spread]:
        return self.of.before if self.by == MONTH else self.of.weeks_before

    # where things are

    def _x(self, part: float) -> float:
        left, right = self._look.px(_NAME), self.width() - self._look.px(0.4)
        return left + (right - left) * (part - 0.5) / len(self._now())

    def _y(self, value: float) -> float:
        low, high = self.scale()
        value, top = min(max(value, low), high), self._look.px(0.5)
        return top + self._look.px(_CURVE) * (1 - (value - low) / max(high - low, 1e-9))

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_name(painter)
        self._paint_ends(painter)
        self._paint_halves(painter)
        colours, dot = self._look.palette, self._look.px(0.17 if self.by == MONTH else 0.11)
        then = QPen(QColor(colours.quiet), 1.1, Qt.PenStyle.DashLine)
        self._paint_curve(painter, self._then(), then, 0.0)
        self._paint_curve(painter, self._now(), QPen(QColor(colours.ink), 1.7 if self.by == MONTH else 1.1), dot)
        self._paint_below(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.ink), 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()

    def _paint_name(self, painter: QPainter) -> None:
        px, colours = self._look.px, self._look.palette
        left = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.setFont(self._look.serif(1.1))
        painter.setPen(QColor(colours.ink))
        room = QRectF(px(0.2), px(0.4), px(_NAME - 2.7), px(1.4))
        name = painter.fontMetrics().elidedText(self.of.tracker.name, Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(room, left, name)
        painter.setFont(self._look.sans(0.8))
        painter.setPen(QColor(colours.quiet))
        below = QRectF(px(0.2), px(1.8), px(_NAME - 2.7), px(2.4))
        words = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap
        painter.drawText(below, words, year_wording.about(self.of))

    def _paint_ends(self, painter: QPainter) -> None:
        px, colours = self._look.px, self._look.palette
        painter.setFont(self._look.sans(0.72))
        for end in self.scale():
            y = self._y(end)
            painter.setPen(QPen(QColor(colours.faint), 1))
            painter.drawLine(QPointF(px(_NAME), y), QPointF(self.width() - px(0.4), y))
            painter.setPen(QColor(colours.quiet))
            room = QRectF(px(_NAME - 2.5), y - px(0.6), px(2.3), px(1.2))
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, self._end(end))

    def _end(self, end: float) -> str:
        if self.of.tracker.form == "mark":
            return year_wording.value("mark", end)
        return wording.shortest(end, 1)

    def _paint_halves(self, painter: QPainter) -> None:
        wide = self._look.px(0.5 if self.by == MONTH else 0.22)
        for part, one in enumerate(self._now(), 1):
            if one.middle is not None:
                top, bottom = self._y(one.high), self._y(one.low)
                painter.fillRect(QRectF(self._x(part) - wide / 2, top, wide, max(bottom - top, 1.0)), QColor(self._look.palette.faint))
                painter.setPen(QPen(QColor(self._look.palette.line), 1))
                for y in (top, bottom):
                    painter.drawLine(QLineF(self._x(part) - wide / 2, y, self._x(part) + wide / 2, y))

    def _paint_curve(self, painter: QPainter, spreads: Sequence[Spread], pen: QPen, dot: float) -> None:
        painter.setPen(pen)
        painter.setBrush(pen.color())
        last: QPointF | None = None
        for part, one in enumerate(spreads[: len(self._now())], 1):
            # A month that was not noted parts the line: nothing is made up.
            spot = None if one.middle is None else QPointF(self._x(part), self._y(one.middle))
            if spot is not None and last is not None:
                painter.drawLine(last, spot)
            if spot is not None:
                painter.drawEllipse(spot, max(dot, 1.0), max(dot, 1.0))
            last = spot
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_below(self, painter: QPainter) -> None:
        if self.by == MONTH:
            for month in range(1, 13):
                self._paint_figures(painter, month)
                self._paint_letters(painter, month, self._x(month))
            return
        painter.setFont(self._look.sans(0.6))
        painter.setPen(QColor(self._look.palette.quiet))
        for week, one in enumerate(self.of.weeks, 1):
            if one.nights:
                room = QRectF(self._x(week) - self._look.px(0.6), self._look.px(_CURVE + 0.7), self._look.px(1.2), self._look.px(1.0))
                painter.drawText(room, Qt.AlignmentFlag.AlignCenter, str(one.nights))
        for month in range(1, 13):
            weeks = [week for week in range(1, len(self.of.weeks) + 1) if week_begins(self.year, week).month == month]
            self._paint_letters(painter, month, self._x((weeks[0] + weeks[-1]) / 2))

    def _paint_figures(self, painter: QPainter, month: int) -> None:
        one, px, colours = self.of.months[month - 1], self._look.px, self._look.palette
        room = QRectF(self._x(month) - px(1.6), px(_CURVE + 0.8), px(3.2), px(1.1))
        if one.middle is not None:
            painter.setFont(self._look.sans(0.85, bold=month == self.part))
            painter.setPen(QColor(colours.ink))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, year_wording.value(self.of.tracker.form, one.middle))
            painter.setFont(self._look.sans(0.72))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(room.translated(0, px(1.0)), Qt.AlignmentFlag.AlignCenter, f"{one.nights} n")

    def _paint_letters(self, painter: QPainter, month: int, middle: float) -> None:
        px = self._look.px
        room = QRectF(middle - px(1.6), px(_CURVE + 0.8 + _FIGURES - 0.2), px(3.2), px(1.1))
        painter.setFont(self._look.sans(0.72))
        painter.setPen(QColor(self._look.palette.quiet))
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, wording.month_letter(month))

    # looking

    def _tell(self, part: int, where) -> None:
        if part != self.part:
            self.part = part
            self.update()
        QToolTip.showText(where, plain_tip(self.told(part)), self)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.position().x() < self._look.px(_NAME):
            self.leaveEvent(event)
            return
        parts = range(1, len(self._now()) + 1)
        part = min(parts, key=lambda part: abs(self._x(part) - event.position().x()))
        self._tell(part, event.globalPosition().toPoint())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if event.key() in steps:
            last = len(self._now())
            begin = self.part or (0 if steps[event.key()] > 0 else last + 1)
            part = min(max(begin + steps[event.key()], 1), last)
            self._tell(part, self.mapToGlobal(QPointF(self._x(part), self._look.px(_CURVE)).toPoint()))
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self.told(part)))
        else:
            super().keyPressEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.part = None
        QToolTip.hideText()
        self.update()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.leaveEvent(event)

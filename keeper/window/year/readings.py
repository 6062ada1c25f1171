"""A tracker's year: the mean of each month, with the year before behind it, on one scale."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.review.year import MonthMean, YearReadings
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.year import wording as year_wording

_NAME, _CURVE, _FIGURES, _HIGH = 8.3, 3.4, 2.3, 7.7
"""Width of the name; heights of the curve, of the figures below it, and of all; in times the text's height."""


class ReadingStrip(QWidget):
    """One tracker through twelve months: this year drawn through, the year before in dashes."""

    def __init__(self, look: Look, of: YearReadings, year: int) -> None:
        super().__init__()
        self._look = look
        self.of = of
        self.month: int | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(f"{of.tracker.name}, {year_wording.about(of)}, month by month in {year}")
        told = "; ".join(year_wording.month_mean(of, month) for month in range(1, 13) if of.months[month - 1].nights)
        self.setAccessibleDescription(told + ".")

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(36), self._look.px(_HIGH))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(26), self._look.px(_HIGH))

    def scale(self) -> tuple[float, float]:
        """The lowest and highest value that can be drawn; the same for both years, and on the pages of the months."""
        return self.of.low, self.of.high

    # where things are

    def _x(self, month: int) -> float:
        left, right = self._look.px(_NAME), self.width() - self._look.px(0.4)
        return left + (right - left) * (month - 0.5) / 12

    def _y(self, mean: float) -> float:
        low, high = self.scale()
        mean, top = min(max(mean, low), high), self._look.px(0.5)
        return top + self._look.px(_CURVE) * (1 - (mean - low) / max(high - low, 1e-9))

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_name(painter)
        self._paint_ends(painter)
        colours = self._look.palette
        then = QPen(QColor(colours.quiet), 1.1, Qt.PenStyle.DashLine)
        self._paint_curve(painter, self.of.before, then, 0.0)
        self._paint_curve(painter, self.of.months, QPen(QColor(colours.ink), 1.7), self._look.px(0.17))
        for month in range(1, 13):
            self._paint_figures(painter, month)
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

    def _paint_curve(self, painter: QPainter, means: Sequence[MonthMean], pen: QPen, dot: float) -> None:
        painter.setPen(pen)
        painter.setBrush(pen.color())
        last: QPointF | None = None
        for month, one in enumerate(means, 1):
            # A month that was not noted parts the line: nothing is made up.
            spot = None if one.mean is None else QPointF(self._x(month), self._y(one.mean))
            if spot is not None and last is not None:
                painter.drawLine(last, spot)
            if spot is not None:
                painter.drawEllipse(spot, max(dot, 1.0), max(dot, 1.0))
            last = spot

    def _paint_figures(self, painter: QPainter, month: int) -> None:
        one, px, colours = self.of.months[month - 1], self._look.px, self._look.palette
        room = QRectF(self._x(month) - px(1.6), px(_CURVE + 0.8), px(3.2), px(1.1))
        if one.mean is not None:
            painter.setFont(self._look.sans(0.85, bold=month == self.month))
            painter.setPen(QColor(colours.ink))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, year_wording.value(self.of.tracker.form, one.mean))
            painter.setFont(self._look.sans(0.72))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(room.translated(0, px(1.0)), Qt.AlignmentFlag.AlignCenter, f"{one.nights} n")
        painter.setFont(self._look.sans(0.72))
        painter.setPen(QColor(colours.quiet))
        letters = wording.month_letter(month)
        painter.drawText(room.translated(0, px(_FIGURES - 0.2)), Qt.AlignmentFlag.AlignCenter, letters)

    # looking

    def _tell(self, month: int, where) -> None:
        if month != self.month:
            self.month = month
            self.update()
        QToolTip.showText(where, year_wording.month_mean(self.of, month), self)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.position().x() < self._look.px(_NAME):
            self.leaveEvent(event)
            return
        month = min(range(1, 13), key=lambda month: abs(self._x(month) - event.position().x()))
        self._tell(month, event.globalPosition().toPoint())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if event.key() in steps:
            month = min(max((self.month or (0 if steps[event.key()] > 0 else 13)) + steps[event.key()], 1), 12)
            self._tell(month, self.mapToGlobal(QPointF(self._x(month), self._look.px(_CURVE)).toPoint()))
        else:
            super().keyPressEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.month = None
        QToolTip.hideText()
        self.update()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.leaveEvent(event)

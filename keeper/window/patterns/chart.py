"""The chart of a pattern, painted in the one ink: nights as dots, levels as strokes, courses as lines."""

from math import sqrt
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.window.desk.look import Look

if TYPE_CHECKING:
    from keeper.review.patterns.chart import PatternChart

HEIGHT = 15
"""In times the text's height."""

_LARGEST = 0.55
_DASHED = [4, 3]


class PatternChartView(QWidget):
    """Shows one chart; ``accessibleDescription`` says the same."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.chart: PatternChart | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Chart of the pattern")

    def show_chart(self, chart: "PatternChart") -> None:
        """Show another chart."""
        self.chart = chart
        self.setAccessibleDescription(chart.words)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(30), self._look.px(HEIGHT))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.chart is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _Drawing(painter, self._look, self.chart, QRectF(self.rect())).paint()
        painter.end()


class _Drawing:
    """A painter at work on one chart."""

    def __init__(self, painter: QPainter, look: Look, chart: "PatternChart", whole: QRectF) -> None:
        self.painter, self.look, self.chart = painter, look, chart
        painter.setFont(look.sans(0.82))
        metrics = painter.fontMetrics()
        self.row = metrics.height()
        left = max((metrics.horizontalAdvance(words) for _, words in chart.up.ticks), default=0) + look.px(0.6)
        below = self.row * (2 if chart.across.name else 1) + look.px(0.5)
        self.area = whole.adjusted(left, self.row + look.px(0.5), -look.px(0.6), -below)
        self.most = max((spot.share for spot in chart.spots), default=1.0)

    def x(self, value: float) -> float:
        axis = self.chart.across
        return self.area.left() + (value - axis.low) / (axis.high - axis.low) * self.area.width()

    def y(self, value: float) -> float:
        axis = self.chart.up
        return self.area.bottom() - (value - axis.low) / (axis.high - axis.low) * self.area.height()

    def paint(self) -> None:
        """All of it."""
        self._axes()
        self._cut()
        self._spots()
        self._levels()
        self._lines()

    def _pen(self, colour: str, width: float = 1.0) -> QPen:
        pen = QPen(QColor(colour), width)
        self.painter.setPen(pen)
        return pen

    def _axes(self) -> None:
        colours, painter = self.look.palette, self.painter
        for value, words in self.chart.up.ticks:
            self._pen(colours.faint)
            painter.drawLine(QLineF(self.area.left(), self.y(value), self.area.right(), self.y(value)))
            self._pen(colours.quiet)
            room = QRectF(0, self.y(value) - self.row / 2, self.area.left() - self.look.px(0.4), self.row)
            painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, words)
        self._pen(colours.line)
        painter.drawLine(self.area.bottomLeft(), self.area.bottomRight())
        self._pen(colours.quiet)
        painter.drawText(QPointF(2, self.row - painter.fontMetrics().descent()), self.chart.up.name)
        self._across()

    def _across(self) -> None:
        painter, axis = self.painter, self.chart.across
        room = self.area.width() / max(len(axis.ticks), 1) if len(axis.ticks) == 2 else self.area.width()
        free_from = -1e9
        for value, words in axis.ticks:
            words = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(room))
            wide = painter.fontMetrics().horizontalAdvance(words)
            left = min(max(self.x(value) - wide / 2, 2), self.area.right() + self.look.px(0.5) - wide)
            if left >= free_from:
                painter.drawText(QPointF(left, self.area.bottom() + self.row), words)
                free_from = left + wide + self.look.px(0.5)
        if axis.name:
            wide = painter.fontMetrics().horizontalAdvance(axis.name)
            painter.drawText(QPointF(self.area.right() - wide, self.area.bottom() + 2 * self.row), axis.name)

    def _cut(self) -> None:
        if self.chart.cut is None:
            return
        pen = self._pen(self.look.palette.quiet)
        pen.setDashPattern(_DASHED)
        self.painter.setPen(pen)
        self.painter.drawLine(QLineF(self.x(self.chart.cut), self.area.top(), self.x(self.chart.cut), self.area.bottom()))

    def _spots(self) -> None:
        # The area of a dot is as its nights; it is paler than what is drawn upon it.
        colour = QColor(self.look.palette.ink)
        colour.setAlphaF(0.45)
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(colour)
        for spot in self.chart.spots:
            radius = max(1.2, self.look.px(_LARGEST) * sqrt(spot.share / self.most))
            self.painter.drawEllipse(QPointF(self.x(spot.x), self.y(spot.y)), radius, radius)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def _levels(self) -> None:
        for one in self.chart.levels:
            left, right, y = self.x(one.left), self.x(one.right), self.y(one.y)
            if one.filled:
                self.painter.fillRect(QRectF(left, y, right - left, self.area.bottom() - y), QColor(self.look.palette.faint))
            if one.words:
                self._pen(self.look.palette.ink, 2)
                self.painter.drawLine(QLineF(left, y, right, y))
                self._written(one.words, left, right, y)

    def _written(self, words: str, left: float, right: float, y: float) -> None:
        """On the paper, so that it is read among dots; at the end that is farther from the middle."""
        wide = self.painter.fontMetrics().horizontalAdvance(words) + self.look.px(0.4)
        outer = left if left - self.area.left() < self.area.right() - right else right - wide
        room = QRectF(outer, y - self.row - 2, wide, self.row)
        paper = QColor(self.look.palette.paper)
        paper.setAlphaF(0.8)
        self.painter.fillRect(room, paper)
        self.painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)

    def _lines(self) -> None:
        for number, (name, values) in enumerate(self.chart.lines):
            points = [QPointF(self.x(at), self.y(value)) for at, value in enumerate(values)]
            pen = self._pen(self.look.palette.ink, 1.4)
            if number:
                pen.setDashPattern(_DASHED)
                self.painter.setPen(pen)
            self.painter.drawPolyline(points)
            self._pen(self.look.palette.ink, 1.4)
            self.painter.setBrush(QColor(self.look.palette.paper if number else self.look.palette.ink))
            for point in points:
                self.painter.drawEllipse(point, self.look.px(0.2), self.look.px(0.2))
            self.painter.setBrush(Qt.BrushStyle.NoBrush)
            if len(self.chart.lines) > 1:
                self._named(name, number)

    def _named(self, name: str, number: int) -> None:
        """A sample of the line and its name, above the chart."""
        long = self.look.px(2)
        left = self.area.left() + number * self.area.width() / 2
        y = self.area.top() - self.row * 0.6
        pen = self._pen(self.look.palette.ink, 1.4)
        if number:
            pen.setDashPattern(_DASHED)
            self.painter.setPen(pen)
        self.painter.drawLine(QLineF(left, y, left + long, y))
        self._pen(self.look.palette.quiet)
        self.painter.drawText(QPointF(left + long + self.look.px(0.4), y + self.row * 0.3), name)

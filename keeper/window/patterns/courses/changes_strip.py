"""A reading over the whole record: its nights small, its levels as lines, the shifts between them with their dates."""

from datetime import date
from itertools import pairwise
from statistics import median

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from keeper.review.courses import changes
from keeper.review.courses.changes import ChangesTold
from keeper.review.courses.values import value
from keeper.window.desk import wording
from keeper.window.patterns.courses.chart import CourseChart


class ChangesStrip(CourseChart):
    """Each level is a spot to point at."""

    of: ChangesTold | None = None

    def show_told(self, told: ChangesTold | None) -> None:
        """Show another reading, or none."""
        self.of = told if told and told.levels else None
        self.spot = None
        if self.of:
            self.low, self.high = _ends(told)
            self.setAccessibleDescription("; ".join(self.told(spot) for spot in range(self.spots())) + ".")
        self.setVisible(self.of is not None)
        self.update()

    def spots(self) -> int:
        return len(self.of.levels) if self.of else 0

    def told(self, spot: int) -> str:
        return changes.level_told(self.of, spot)

    def begins_at(self) -> int:
        return self.spots() - 1

    def x(self, spot: float) -> float:
        level = self.of.levels[int(spot)]
        return self._at((level.first + level.last) / 2)

    def _at(self, night: float) -> float:
        area = self.area()
        return area.left() + (night + 0.5) * area.width() / max(1, len(self.of.values))

    def draw(self, painter: QPainter, area: QRectF) -> None:
        self._draw_nights(painter, area)
        colours = self._look.palette
        self.line(painter, colours.line, area.bottomLeft(), area.bottomRight())
        self._draw_years(painter, area)
        for end in (self.low, self.high):
            at = QPointF(area.left() - self._look.px(0.5), self.y(end))
            self.words(painter, at, value(self.of.reading, end), side="right")
        for one, other in pairwise(self.of.levels):
            between = self._at((one.last + other.first) / 2)
            self.line(painter, colours.line, QPointF(between, self.y(one.mean)), QPointF(between, self.y(other.mean)))
        for one in self.of.levels:
            ends = (self._at(one.first - 0.5), self._at(one.last + 0.5))
            self.line(painter, colours.ink, *(QPointF(x, self.y(one.mean)) for x in ends), wide=2.4)
        self._draw_means(painter)
        self._draw_dates(painter, area)

    def _draw_nights(self, painter: QPainter, area: QRectF) -> None:
        """A night each, or of a long record the middle of some nights: as many spots as there is room for."""
        many = max(1, -(-len(self.of.values) // max(1, int(area.width() / 2))))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._look.palette.line))
        radius = max(0.9, self._look.px(0.07))
        for first in range(0, len(self.of.values), many):
            noted = [one for one in self.of.values[first : first + many] if one is not None]
            if noted:
                painter.drawEllipse(QPointF(self._at(first + (many - 1) / 2), self.y(median(noted))), radius, radius)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _draw_means(self, painter: QPainter) -> None:
        free_from = 0.0
        for spot, one in enumerate(self.of.levels):
            at = QPointF(self.x(spot), self.y(one.mean) - self._look.px(0.8))
            text = value(self.of.reading, one.mean)
            painter.setFont(self._look.sans(0.85, bold=True))
            wide = painter.fontMetrics().horizontalAdvance(text) + self._look.px(0.4)
            if at.x() - wide / 2 >= free_from:
                room = QRectF(at.x() - wide / 2, at.y() - self._look.px(0.6), wide, self._look.px(1.2))
                painter.fillRect(room, QColor(self._look.palette.paper))
                self.words(painter, at, text, ink=self._look.palette.ink, scale=0.85)
                free_from = at.x() + wide / 2

    def _draw_dates(self, painter: QPainter, area: QRectF) -> None:
        """The date of each shift, above the drawing, where there is room for it."""
        free_from = 0.0
        for one, other in pairwise(self.of.levels):
            x, told = self._at((one.last + other.first) / 2), wording.shorter_date(self.of.night(other.first))
            painter.setFont(self._look.sans(0.75))
            half = painter.fontMetrics().horizontalAdvance(told) / 2 + self._look.px(0.3)
            if x - half >= free_from:
                self.words(painter, QPointF(x, area.top() - self._look.px(0.7)), told, ink=self._look.palette.ink)
                free_from = x + half

    def area(self) -> QRectF:
        return super().area().adjusted(0, self._look.px(0.7), 0, 0)

    def _draw_years(self, painter: QPainter, area: QRectF) -> None:
        painter.setFont(self._look.sans(0.75))
        wide, free_from = painter.fontMetrics().horizontalAdvance("2026") + self._look.px(0.5), area.left()
        for begins, told in self._marks_of_time():
            x = self._at((begins - self.of.first).days - 0.5)
            if x >= free_from and x + wide <= area.right() + self._look.px(1):
                self.line(painter, self._look.palette.line, QPointF(x, area.bottom()), QPointF(x, area.bottom() + 4))
                self.words(painter, QPointF(x + 2, area.bottom() + self._look.px(0.9)), told, side="left")
                free_from = x + wide

    def _marks_of_time(self) -> list[tuple[date, str]]:
        first, last = self.of.first, self.of.night(len(self.of.values) - 1)
        years = [(date(year, 1, 1), str(year)) for year in range(first.year, last.year + 1)]
        if last.year - first.year >= 2:
            return [one for one in years if one[0] >= first]
        months = [date(year, month, 1) for year in range(first.year, last.year + 1) for month in range(1, 13)]
        return [(one, wording.month_letter(one.month)) for one in months if first <= one <= last]


def _ends(told: ChangesTold) -> tuple[float, float]:
    """The reading's axis; of one without ends, as far as it goes."""
    noted = [one for one in told.values if one is not None]
    if told.reading.form in ("scale",):
        return told.low, told.high
    low, high = min(noted), max(noted)
    return low, max(high, low + 1e-9)

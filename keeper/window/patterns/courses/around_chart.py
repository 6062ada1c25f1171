"""The course of a reading around a mark: its means, and the band in which those around other nights lie."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from keeper.review.courses import around
from keeper.review.courses.around import AroundTold
from keeper.review.courses.values import value
from keeper.window.patterns.courses.chart import CourseChart


class AroundChart(CourseChart):
    """Nights before at the left, after at the right; a night that stands out is a dot, another a ring."""

    of: AroundTold | None = None

    def show_told(self, told: AroundTold | None) -> None:
        """Show another course, or none."""
        self.of = told if told and told.found else None
        self.spot = None
        if self.of:
            self.low, self.high = told.low, told.high
            self.setAccessibleDescription("; ".join(self.told(spot) for spot in range(self.spots())) + ".")
        self.setVisible(self.of is not None)
        self.update()

    def spots(self) -> int:
        return len(self.of.found.offsets) if self.of else 0

    def told(self, spot: int) -> str:
        return around.point_told(self.of, spot)

    def begins_at(self) -> int:
        return self.of.found.offsets.index(0)

    def draw(self, painter: QPainter, area: QRectF) -> None:
        found, colours = self.of.found, self._look.palette
        self._draw_band(painter)
        self.line(painter, colours.line, area.bottomLeft(), area.bottomRight())
        at = self.x(found.offsets.index(0))
        self.line(painter, colours.faint, QPointF(at, area.top()), QPointF(at, area.bottom()))
        self._draw_means(painter)
        for end in (self.low, self.high):
            # The ends of the axis lie anywhere between two readings.
            self.words(painter, QPointF(area.left() - self._look.px(0.7), self.y(end)), value(self.of.reading, end), side="right")
        self._draw_offsets(painter, area)

    def _runs(self, *rows) -> list[list[int]]:
        """Spots next to one another at which all of these are known."""
        runs: list[list[int]] = [[]]
        for spot, values in enumerate(zip(*rows, strict=True)):
            if all(one == one for one in values):
                runs[-1].append(spot)
            elif runs[-1]:
                runs.append([])
        return [run for run in runs if run]

    def _draw_band(self, painter: QPainter) -> None:
        found, colours = self.of.found, self._look.palette
        for run in self._runs(found.low, found.high):
            upper = [QPointF(self.x(spot), self.y(found.high[spot])) for spot in run]
            lower = [QPointF(self.x(spot), self.y(found.low[spot])) for spot in run]
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.wash))
            painter.drawPolygon(QPolygonF([*upper, *lower[::-1]]))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.line), 1, Qt.PenStyle.DotLine))
            painter.drawPolyline(upper)
            painter.drawPolyline(lower)

    def _draw_means(self, painter: QPainter) -> None:
        found, colours, radius = self.of.found, self._look.palette, max(2.0, self._look.px(0.2))
        for run in self._runs(found.means):
            painter.setPen(QPen(QColor(colours.ink), 1.4))
            painter.drawPolyline([QPointF(self.x(spot), self.y(found.means[spot])) for spot in run])
            for spot in run:
                painter.setPen(QPen(QColor(colours.ink), 1.3))
                painter.setBrush(QColor(colours.ink if around.stands_out(self.of, spot) else colours.paper))
                painter.drawEllipse(QPointF(self.x(spot), self.y(found.means[spot])), radius, radius)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _draw_offsets(self, painter: QPainter, area: QRectF) -> None:
        found, px = self.of.found, self._look.px
        step = next(step for step in (1, 2, 5, 7, 10, 15, 30) if area.width() / len(found.offsets) * step >= px(2.2) or step == 30)
        for spot, offset in enumerate(found.offsets):
            if offset % step == 0:
                ink = self._look.palette.ink if offset == 0 else ""
                self.words(painter, QPointF(self.x(spot), area.bottom() + px(0.8)), f"{offset:+d}".replace("-", "\u2212") if offset else "0", ink=ink)
        below = area.bottom() + px(1.9)
        self.words(painter, QPointF(area.left(), below), "nights before", side="left")
        self.words(painter, QPointF(self.x(found.offsets.index(0)), below), self.of.mark.name, ink=self._look.palette.ink)
        self.words(painter, QPointF(area.right(), below), "nights after", side="right")

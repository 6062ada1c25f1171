"""Cycles laid under one another: the middle of each day above, then a row a cycle, newest first, the second phase as a shade."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPen, QPolygonF

from keeper.review.courses import cycles
from keeper.review.courses.cycles import LONGEST, Cycle, CyclesTold
from keeper.review.courses.values import value
from keeper.window.desk import wording
from keeper.window.patterns.courses.chart import CourseChart

_NAME, _MIDDLE, _ROW, _GAP = 7.0, 5.5, 1.7, 1.0
"""Width of a row's name; heights of the course above, of a row, and of what lies between, in times the text's height."""

MOST = 24
"""So many cycles are drawn; the table has all."""


class CyclesChart(CourseChart):
    """Left and Right go from day to day, Up and Down from row to row; the first row is the course of all cycles."""

    of: CyclesTold | None = None

    def __init__(self, look, name: str) -> None:
        super().__init__(look, name)
        self.place = -1

    @property
    def cycle(self) -> Cycle | None:
        """The cycle that is pointed at; None for all of them."""
        return self.of.cycles[self.place] if self.of and self.place >= 0 else None

    def show_told(self, told: CyclesTold | None) -> None:
        """Show other cycles, or none; one pointed at stays so while it is there."""
        was = self.cycle.begins if self.cycle else None
        self.of = told if told and told.cycles else None
        self.place = next((place for place, one in enumerate(self.shown()) if one.begins == was), -1)
        if self.of:
            self.low, self.high = told.low, told.high
            self.spot = min(self.spot, self.spots() - 1) if self.spot is not None else None
            self.setAccessibleDescription(told.sentences[0])
        self.setVisible(self.of is not None)
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def shown(self) -> tuple[Cycle, ...]:
        """The cycles that are drawn."""
        return self.of.cycles[:MOST] if self.of else ()

    def spots(self) -> int:
        return len(self.of.days) if self.of else 0

    def told(self, spot: int) -> str:
        return cycles.middle_told(self.of, spot + 1) if self.place < 0 else cycles.day_told(self.of, self.place, spot + 1)

    # where things are

    def sizeHint(self) -> QSize:
        rows = _MIDDLE + _GAP + _ROW * len(self.shown()) + 3.2
        return QSize(self._look.px(36), self._look.px(rows))

    def area(self) -> QRectF:
        px = self._look.px
        return QRectF(px(_NAME), px(0.6), self.width() - px(_NAME + 2.6), self.height() - px(2.6))

    def _top(self) -> QRectF:
        area = self.area()
        return QRectF(area.left(), area.top(), area.width(), self._look.px(_MIDDLE))

    def row_of(self, place: int) -> QRectF:
        """Where a cycle is drawn."""
        area, px = self.area(), self._look.px
        return QRectF(area.left(), area.top() + px(_MIDDLE + _GAP + place * _ROW), area.width(), px(_ROW))

    # drawing

    def draw(self, painter: QPainter, area: QRectF) -> None:
        self._draw_middle(painter, self._top())
        for place, one in enumerate(self.shown()):
            self._draw_cycle(painter, self.row_of(place), one, place)
        below = self.row_of(len(self.shown()) - 1).bottom() + self._look.px(0.9)
        step = 7 if self.spots() <= 45 else 10
        for day in [1, *range(step, self.spots() + 1, step)]:
            self.words(painter, QPointF(self.x(day - 1), below), f"day {day}" if day == 1 else str(day))

    def _draw_middle(self, painter: QPainter, room: QRectF) -> None:
        colours, days = self._look.palette, self.of.days
        known = [spot for spot, one in enumerate(days) if one.middle is not None]
        for run in _runs(known):
            upper = [QPointF(self.x(spot), self.y(days[spot].high, room)) for spot in run]
            lower = [QPointF(self.x(spot), self.y(days[spot].low, room)) for spot in run]
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.wash))
            painter.drawPolygon(QPolygonF([*upper, *lower[::-1]]))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.ink), 1.5))
            painter.drawPolyline([QPointF(self.x(spot), self.y(days[spot].middle, room)) for spot in run])
        self.line(painter, colours.line, room.bottomLeft(), room.bottomRight())
        self.words(painter, QPointF(0, room.top() + self._look.px(0.7)), "all cycles", side="left", ink=colours.ink, scale=0.85)
        for end, y in ((self.high, room.top() + self._look.px(0.3)), (self.low, room.bottom() - self._look.px(0.3))):
            self.words(painter, QPointF(room.right() + self._look.px(0.4), y), value(self.of.reading, end), side="left", scale=0.7)

    def _draw_cycle(self, painter: QPainter, room: QRectF, one: Cycle, place: int) -> None:
        colours, px = self._look.palette, self._look.px
        inner, days = room.adjusted(0, px(0.2), 0, -px(0.1)), min(len(one.values), self.spots())
        half = room.width() / self.spots() / 2
        if one.rise and one.rise <= days:
            left, right = self.x(one.rise - 1) - half, self.x(days - 1) + half
            painter.fillRect(QRectF(left, inner.top(), right - left, inner.height()), QColor(colours.faint))
            self.line(painter, colours.line, QPointF(left, inner.top()), QPointF(left, inner.bottom()))
        self.line(painter, colours.faint, QPointF(room.left(), inner.bottom()), QPointF(self.x(days - 1) + half, inner.bottom()))
        known = [spot for spot in range(days) if one.values[spot] is not None]
        painter.setPen(QPen(QColor(colours.ink), 1.1))
        for run in _runs(known):
            spots = [QPointF(self.x(spot), self.y(one.values[spot], inner)) for spot in run]
            painter.drawPolyline(spots) if len(spots) > 1 else painter.drawEllipse(spots[0], 1, 1)
        ink = colours.ink if place == self.place else colours.quiet
        name = QPointF(0, room.center().y())
        self.words(painter, name, wording.shorter_date(one.begins), side="left", ink=ink, scale=0.8)
        more = "+" if len(one.values) > LONGEST else ""
        self.words(painter, QPointF(self.x(days - 1) + half + 3, room.center().y()), f"{len(one.values)}{more}", side="left", scale=0.7)

    def _paint_pointed(self, painter: QPainter) -> None:
        if self.spot is None:
            return
        room = self._top() if self.place < 0 else self.row_of(self.place)
        painter.setPen(QPen(QColor(self._look.palette.ink if self.hasFocus() else self._look.palette.line), 1))
        painter.drawLine(QPointF(self.x(self.spot), room.top()), QPointF(self.x(self.spot), room.bottom()))

    # pointing

    def point_at_row(self, y: float) -> None:
        """Point at the row that lies there, if one does."""
        for place in range(-1, len(self.shown())):
            room = self._top() if place < 0 else self.row_of(place)
            if room.top() <= y <= room.bottom():
                self.place = place
                self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus()
        self.point_at_row(event.position().y())
        self.mouseMoveEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self.hasFocus() or event.buttons():
            self.point_at_row(event.position().y())
        super().mouseMoveEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        to = {Qt.Key.Key_Up: self.place - 1, Qt.Key.Key_Down: self.place + 1}.get(Qt.Key(event.key()))
        if to is None or not self.spots():
            super().keyPressEvent(event)
            return
        self.place = min(max(to, -1), len(self.shown()) - 1)
        self.spot = self.spot or 0
        self.update()
        self.say()

    def focusOutEvent(self, event) -> None:
        # What is pointed at stays: the buttons below are about it.
        spot = self.spot
        super().focusOutEvent(event)
        self.spot = spot
        self.update()


def _runs(known: list[int]) -> list[list[int]]:
    """Spots next to one another."""
    runs: list[list[int]] = []
    for spot in known:
        if runs and runs[-1][-1] == spot - 1:
            runs[-1].append(spot)
        else:
            runs.append([spot])
    return runs

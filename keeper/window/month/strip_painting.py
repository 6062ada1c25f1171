"""Painting one strip: its rule, its values, and where two readings cross."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from keeper.window.desk.look import Look
from keeper.window.month.strip import LINE, MARK, PLACE, STICK, Strip
from keeper.window.parts.places.mark import HATCHINGS

STYLES = (Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine, Qt.PenStyle.DotLine)
"""The lines of readings on one axis, in their order."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A painter at work on one strip; ``x`` gives the middle of a day, ``step`` the way from day to day."""

    painter: QPainter
    look: Look
    strip: Strip
    area: QRectF
    x: Callable[[float], float]
    step: float

    def y(self, value: float) -> float:
        """The height of a value on the strip's scale."""
        low, high = self.strip.low, self.strip.high
        share = (min(max(value, low), high) - low) / (high - low)
        return self.area.bottom() - 1 - share * (self.area.height() - 3)


def paint(on: Drawing) -> None:
    """All of a strip but its name."""
    if on.strip.band:
        top, bottom = on.y(on.strip.band[1]), on.y(on.strip.band[0])
        on.painter.fillRect(QRectF(on.area.left(), top, on.area.width(), bottom - top), QColor(on.look.palette.wash))
    _paint_rule(on)
    _paint_ends(on)
    draw = {LINE: _paint_lines, STICK: _paint_sticks, MARK: _paint_marks, PLACE: _paint_places}
    draw[on.strip.how](on)


def line_pen(look: Look, number: int) -> QPen:
    """The line of the first, second or third reading on an axis."""
    pen = QPen(QColor(look.palette.ink if number else look.palette.line), 1.3 if number else 1.1, STYLES[number])
    if number == 1:
        pen.setDashPattern([4, 3])
    elif number:
        pen.setDashPattern([1, 2.5])
    return pen


def paint_spot(painter: QPainter, look: Look, at: QPointF, number: int) -> None:
    """A value on a line: a dot, a ring, or a small upright stroke."""
    radius, ink = max(1.6, look.px(0.13)), QColor(look.palette.ink)
    painter.setPen(QPen(ink, 1.2) if number else Qt.PenStyle.NoPen)
    if number == 2:
        painter.drawLine(at - QPointF(0, 1.6 * radius), at + QPointF(0, 1.6 * radius))
        return
    painter.setBrush(QColor(look.palette.paper) if number else ink)
    painter.drawEllipse(at, radius * (1.2 if number else 1), radius * (1.2 if number else 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _paint_rule(on: Drawing) -> None:
    # Ruled where the tracker was under way; a mark's rule is faint where nothing was noted.
    marks, colours = on.strip.how == MARK, on.look.palette
    height = _mark_rule(on) if marks else on.area.bottom()
    _rule(on, colours.faint, height, on.strip.ruled)
    if marks:
        _rule(on, colours.line, height, lambda day: on.strip.values[day - 1] is not None)


def _rule(on: Drawing, colour: str, height: float, wanted: Callable[[int], bool]) -> None:
    on.painter.setPen(QPen(QColor(colour), 1))
    for first, last in _runs(on.strip, wanted):
        on.painter.drawLine(QLineF(on.x(first) - on.step / 2, height, on.x(last) + on.step / 2, height))


def _runs(strip: Strip, wanted: Callable[[int], bool]) -> Iterator[tuple[int, int]]:
    for true, run in groupby(range(1, len(strip.values) + 1), key=wanted):
        days = list(run)
        if true:
            yield days[0], days[-1]


def _paint_ends(on: Drawing) -> None:
    on.painter.setPen(QPen(QColor(on.look.palette.quiet), 1))
    for day, side in ((on.strip.began, -1), (on.strip.ended, 1)):
        if day:
            x, tall = on.x(day) + side * on.step / 2, min(on.area.height(), on.look.px(0.9))
            on.painter.drawLine(QLineF(x, on.area.bottom(), x, on.area.bottom() - tall))
            on.painter.drawLine(QLineF(x, on.area.bottom() - tall, x - side * on.look.px(0.25), on.area.bottom() - tall))


def _paint_lines(on: Drawing) -> None:
    for number, line in enumerate(on.strip.lines):
        points = [None if value is None else QPointF(on.x(day), on.y(value)) for day, value in enumerate(line.values, 1)]
        for noted, run in groupby(points, key=lambda point: point is not None):
            if noted:
                on.painter.setPen(line_pen(on.look, number))
                on.painter.drawPolyline(list(run))
        for point in filter(None, points):
            paint_spot(on.painter, on.look, point, number)
    _paint_crossings(on)


def _paint_crossings(on: Drawing) -> None:
    # A ring round the spot, and below it a stroke that stands on its night.
    radius, colours = on.look.px(0.36), on.look.palette
    for one in on.strip.crossed:
        at = QPointF(on.x(one.crossing.at), on.y(one.crossing.value))
        on.painter.setPen(QPen(QColor(colours.ink), 1.3))
        on.painter.drawEllipse(at, radius, radius)
        foot = on.x(one.crossing.day)
        on.painter.drawLine(QLineF(foot, on.area.bottom(), foot, on.area.bottom() + on.look.px(0.3)))


def _paint_sticks(on: Drawing) -> None:
    base, half = on.area.bottom() - 1, on.step * 0.22
    for day, value in enumerate(on.strip.values, 1):
        if value is None:
            continue
        at = on.x(day)
        if on.y(value) > base - 1:
            # None at all is noted too: a short stroke lying on the rule, and nothing where nothing was noted.
            on.painter.setPen(QPen(QColor(on.look.palette.ink), 1.6))
            on.painter.drawLine(QLineF(at - half, base - 1, at + half, base - 1))
        else:
            on.painter.setPen(QPen(QColor(on.look.palette.ink), max(2.0, on.look.px(0.2))))
            on.painter.drawLine(QLineF(at, base, at, on.y(value)))


def _mark_rule(on: Drawing) -> float:
    return on.area.bottom() - on.look.px(0.28)


def _paint_marks(on: Drawing) -> None:
    # A yes stands on the rule; a no hangs from it, short; where nothing was noted the rule is faint, and bare.
    rule = _mark_rule(on)
    for day, value in enumerate(on.strip.values, 1):
        if value:
            on.painter.setPen(QPen(QColor(on.look.palette.ink), max(2.0, on.look.px(0.2))))
            on.painter.drawLine(QLineF(on.x(day), rule, on.x(day), on.area.top() + 1))
        elif value is not None:
            on.painter.setPen(QPen(QColor(on.look.palette.line), 1))
            on.painter.drawLine(QLineF(on.x(day), rule, on.x(day), rule + on.look.px(0.22)))


def _paint_places(on: Drawing) -> None:
    colours, day = on.look.palette, 1
    on.painter.setFont(on.look.sans(0.72))
    for place, run in groupby(on.strip.values):
        nights = len(list(run))
        if place:
            left = on.x(day) - on.step / 2
            room = QRectF(left + 1, on.area.top(), on.step * nights - 2, on.area.height())
            hatch, tint = divmod(place.place.mark or 0, len(colours.tints))
            under = QRectF(room.left(), room.bottom() - on.look.px(0.24), room.width(), on.look.px(0.24))
            on.painter.fillRect(under, QBrush(QColor(colours.tints[tint]), HATCHINGS[hatch % len(HATCHINGS)]))
            on.painter.setPen(QColor(colours.quiet))
            name = on.painter.fontMetrics().elidedText(place.place.name, Qt.TextElideMode.ElideRight, int(room.width()))
            on.painter.drawText(room, Qt.AlignmentFlag.AlignTop, name)
        day += nights

"""The map as a picture: land, ways, places and their names, drawn on board."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPixmap, QTransform

from keeper.review.places import PlaceKept
from keeper.study.chart import Chart
from keeper.window.desk.look import Look
from keeper.window.desk.palette import mixed
from keeper.window.parts.places.map_hit import Hits
from keeper.window.parts.places.map_shapes import DrawnWay, Shape, together
from keeper.window.parts.places.mark import Marks

MOST_WAYS = 150
"""Ways drawn at once, the latest first."""

MOST_NAMES = 50
"""Names written at once, those of the most nights first."""

MOST_SPOTS = 700
"""Places drawn at once, those of the most nights first."""

_TRIED = 120
"""Places, those of the most nights first, for whose names room is sought."""

_CELL = 6.0
"""Pixels of the net by which places and names keep out of one another's way."""

_BEYOND = 100
"""Columns of the net to the left of the picture: a name may begin out there."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place where it stands on a picture, in pixels."""

    kept: PlaceKept
    x: float
    y: float
    radius: float


_Cells = tuple[int, range]
"""A rectangle of the net: its columns as the bits of a number, and its lines."""


class _Taken:
    """Which cells of the net are taken, line by line: a map full of names asks for tens of thousands."""

    def __init__(self) -> None:
        self._lines: dict[int, int] = {}

    def take(self, cells: _Cells) -> None:
        columns, lines = cells
        for line in lines:
            self._lines[line] = self._lines.get(line, 0) | columns

    def is_free(self, cells: _Cells, but: _Cells) -> bool:
        """Whether none of them is taken, ``but`` these."""
        (columns, lines), (let_be, its) = cells, but
        without = columns & ~let_be
        return not any(self._lines.get(line, 0) & (without if line in its else columns) for line in lines)


class Picture:
    """One drawing of the map, a margin larger than what is seen of it.

    ``spots`` are those drawn, most nights first; ``left_out`` is more than 0
    when there were too many places or ways to draw them all.
    """

    def __init__(self, look: Look, marks: Marks, chart: Chart) -> None:
        self.chart = chart
        self.spots: list[Spot] = []
        self.left_out = 0
        self._written: list[tuple[QRectF, str]] = []
        self._drawn: Sequence[DrawnWay] = ()
        self._hits: Hits | None = None
        self.pixmap = QPixmap(round(chart.width * marks.ratio), round(chart.height * marks.ratio))
        self.pixmap.setDevicePixelRatio(marks.ratio)
        self.pixmap.fill(QColor(look.palette.paper))
        self._look = look
        self._marks = marks

    def draw(self, seen: QRectF, shapes: Sequence[Shape], ways: Sequence[DrawnWay], kept: Iterable[PlaceKept]) -> None:
        """Draw everything; places come with the most nights first.

        No name is cut by the edge of what is seen at first.
        """
        self._seen = seen
        self._drawn = self._in_sight(ways)[:MOST_WAYS]
        painter = QPainter(self.pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        turns = list(self.chart.turns())
        # Land that crosses the date line reaches over from the turn before or after.
        for turn in (turns[0] - 360.0, *turns, turns[-1] + 360.0):
            shown = self._shown(turn)
            painter.setTransform(self._degrees_to_pixels(turn))
            self._land(painter, [shape for shape in shapes if shape.bounds.intersects(shown)])
        for turn in turns:
            shown = self._shown(turn)
            painter.setTransform(self._degrees_to_pixels(turn))
            self._ways(painter, [way for way in ways if way.bounds.intersects(shown)])
        painter.resetTransform()
        self._find_spots(kept)
        self._places(painter)
        painter.end()

    def _in_sight(self, ways: Sequence[DrawnWay]) -> list[DrawnWay]:
        shown = [self._shown(turn) for turn in self.chart.turns()]
        return [way for way in ways if any(way.bounds.intersects(one) for one in shown)]

    def _degrees_to_pixels(self, turn: float) -> QTransform:
        chart = self.chart
        middle = QTransform().translate(chart.width / 2, chart.height / 2)
        return middle.scale(chart.across, -chart.scale).translate(turn - chart.longitude, -chart.latitude)

    def _shown(self, turn: float) -> QRectF:
        west, south, east, north = self.chart.bounds
        return QRectF(west - turn, south, east - west, north - south)

    def _land(self, painter: QPainter, shapes: Sequence[Shape]) -> None:
        colours = self._look.palette
        filled, shores = together(shapes)
        painter.fillPath(filled, QColor(colours.wash))
        pen = QPen(QColor(mixed(colours.faint, colours.line, 0.4)), 0.8)
        pen.setCosmetic(True)
        painter.strokePath(shores, pen)

    def _ways(self, painter: QPainter, ways: Sequence[DrawnWay]) -> None:
        self.left_out += max(0, len(ways) - MOST_WAYS)
        pen = QPen(QColor(self._look.palette.quiet))
        pen.setCosmetic(True)
        for drawn in reversed(ways[:MOST_WAYS]):
            pen.setWidthF(min(0.8 + 0.25 * (drawn.way.times - 1), 2.4))
            pen.setStyle(Qt.PenStyle.SolidLine)
            if drawn.way.unsure:
                pen.setDashPattern([3, 4])
            painter.strokePath(drawn.path, pen)

    def way_at(self, x: float, y: float) -> DrawnWay | None:
        """The way drawn at a spot of the picture, or None."""
        if self._hits is None:
            turns = [self._degrees_to_pixels(turn) for turn in self.chart.turns()]
            self._hits = Hits(QSize(int(self.chart.width), int(self.chart.height)), self._drawn, turns)
        return self._hits.at(x, y)

    def stress(self, painter: QPainter, drawn: DrawnWay, left: float, top: float) -> None:
        """Draw a way in ink over the picture, which lies at ``left`` and ``top``; marks and names stay above it."""
        pen = QPen(QColor(self._look.palette.ink), 2.2)
        pen.setCosmetic(True)
        painter.save()
        for turn in self.chart.turns():
            painter.setTransform(self._degrees_to_pixels(turn) * QTransform().translate(left, top))
            painter.strokePath(drawn.path, pen)
        painter.restore()
        for spot in self.spots:
            if drawn.way.here == spot.kept.point or drawn.way.there == spot.kept.point:
                self._marks.stamp(painter, spot.x + left, spot.y + top, spot.radius, spot.kept.place.mark or 0)
        painter.setFont(self._look.serif(0.95))
        for room, name in self._written:
            write_name(painter, self._look, room.translated(left, top), name)

    def _find_spots(self, kept: Iterable[PlaceKept]) -> None:
        chart, least, most = self.chart, self._look.px(0.26), self._look.px(1.0)
        hidden: set[tuple[int, int]] = set()
        turns = list(chart.turns())
        for one in kept:
            radius = min(least + 0.55 * sqrt(one.nights), most)
            for turn in turns:
                x, y = chart.spot(one.point, turn)
                if not (-20 < x < chart.width + 20 and -20 < y < chart.height + 20):
                    continue
                # Right under one of more nights it could be neither seen nor clicked.
                cell = int(x // _CELL), int(y // _CELL)
                if cell not in hidden:
                    hidden.add(cell)
                    self.spots.append(Spot(one, x, y, radius))
            if len(self.spots) >= MOST_SPOTS:
                self.left_out += 1
                break

    def _places(self, painter: QPainter) -> None:
        for spot in self.spots:
            self._marks.stamp(painter, spot.x, spot.y, spot.radius, spot.kept.place.mark or 0)
        taken = _Taken()
        named = self.spots[:_TRIED]
        for spot in named:
            taken.take(_under(spot))
        painter.setFont(self._look.serif(0.95))
        metrics = QFontMetricsF(painter.font())
        written = 0
        for spot in named:
            written += self._write(painter, spot, metrics, taken)
            if written == MOST_NAMES:
                break

    def _write(self, painter: QPainter, spot: Spot, metrics: QFontMetricsF, taken: _Taken) -> bool:
        name = shortened(spot.kept.place.name)
        # The net is wider than the gap: a mark must not be in the way of its own name.
        own = _under(spot)
        wide, high, gap = metrics.horizontalAdvance(name), metrics.height(), spot.radius + 3
        for left, top in (
            (spot.x + gap, spot.y - high / 2), (spot.x - gap - wide, spot.y - high / 2),
            (spot.x - wide / 2, spot.y + gap - 2), (spot.x - wide / 2, spot.y - gap - high + 2),
        ):  # fmt: skip
            room = QRectF(left, top, wide, high)
            cells = _cells(left + 2, top + 2, wide - 4, high - 4)
            whole = self._seen.contains(room) or not self._seen.intersects(room)
            if whole and taken.is_free(cells, own):
                taken.take(cells)
                write_name(painter, self._look, room, name)
                self._written.append((room, name))
                return True
        return False


def write_name(painter: QPainter, look: Look, room: QRectF, name: str) -> None:
    """Write a place's name, set off from the lines beneath it."""
    paper = QColor(look.palette.paper)
    paper.setAlpha(190)
    painter.fillRect(room.adjusted(-1, 1, 1, -1), paper)
    painter.setPen(QColor(look.palette.ink))
    painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextSingleLine, name)


def shortened(name: str) -> str:
    """A name no longer than the map has room for."""
    return name if len(name) <= 28 else name[:27] + "\u2026"


def _under(spot: Spot) -> _Cells:
    return _cells(spot.x - spot.radius, spot.y - spot.radius, 2 * spot.radius, 2 * spot.radius)


def _cells(left: float, top: float, wide: float, high: float) -> _Cells:
    first, last = max(0, int(left // _CELL) + _BEYOND), max(0, int((left + wide) // _CELL) + _BEYOND)
    return (1 << last + 1) - (1 << first), range(int(top // _CELL), int((top + high) // _CELL) + 1)


def set_off(painter: QPainter, look: Look, spot: Spot, words: str, wide: float) -> None:
    """Ring a place, and tell of it in a slip of paper that keeps within the map's width."""
    painter.setPen(QPen(QColor(look.palette.ink), 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(QPointF(spot.x, spot.y), spot.radius + 3.5, spot.radius + 3.5)
    painter.setFont(look.serif(1.0))
    metrics = QFontMetricsF(painter.font())
    room = QRectF(0, 0, metrics.horizontalAdvance(words) + 12, metrics.height() + 4)
    room.moveCenter(QPointF(spot.x, spot.y - spot.radius - 6 - room.height() / 2))
    if room.top() < 2:
        room.moveTop(spot.y + spot.radius + 6)
    room.moveLeft(min(max(room.left(), 2.0), max(2.0, wide - room.width() - 2)))
    painter.fillRect(room, QColor(look.palette.paper))
    painter.setPen(QPen(QColor(look.palette.line), 1))
    painter.drawRect(room)
    write_name(painter, look, room, words)

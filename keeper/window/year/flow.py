"""The flow of themes through a year: a calm band each, thicker where it came up more."""

from collections.abc import Sequence
from itertools import pairwise

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.review.year import ThemeFlow
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.desk.palette import mixed
from keeper.window.year import wording as year_wording

# Hue alone tells no band apart: each has a hatching and its name as well.
_HATCHINGS = (
    Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.Dense6Pattern, Qt.BrushStyle.VerPattern, Qt.BrushStyle.FDiagPattern,
    Qt.BrushStyle.HorPattern, Qt.BrushStyle.Dense5Pattern, Qt.BrushStyle.DiagCrossPattern,
)  # fmt: skip

_ROW, _NAME, _BELOW = 2.5, 12.5, 1.7
"""Heights of a band and of the months below, and width of the names, in times the text's height."""

_THINNEST = 0.05


class FlowView(QWidget):
    """The bands, on one scale. ``picked`` comes with the number of the theme clicked or entered."""

    picked = Signal(int)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.flow: Sequence[ThemeFlow] = ()
        self.months: Sequence[int] = range(1, 13)
        self.at: tuple[int, int] | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Themes through the months")

    def show_flow(self, flow: Sequence[ThemeFlow], months: Sequence[int]) -> None:
        """Show these themes through these months, in a row."""
        self.flow, self.months, self.at = tuple(flow), tuple(months), None
        self._describe()
        self.updateGeometry()
        self.update()

    def most(self) -> float:
        """The largest share there is: the whole of a row's height."""
        return max((share for one in self.flow for share in one.shares), default=0.0)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(36), self._look.px(len(self.flow) * _ROW + _BELOW))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(20), self.sizeHint().height())

    def _describe(self) -> None:
        names = "; ".join(f"{one.name}, {wording.counted(one.nights, 'night')}" for one in self.flow)
        told = year_wording.share(self.flow[self.at[0]], self.at[1]) + ". " if self.at else ""
        self.setAccessibleDescription(f"{told}{names}. Arrows choose a theme and a month, Enter opens the theme.")

    # where things are

    def _x(self, month: float) -> float:
        left, right = self._look.px(_NAME), self.width() - self._look.px(1.2)
        steps = max(1, len(self.months) - 1)
        return left + (right - left) * (month - self.months[0] + 0.25) / (steps + 0.5)

    def _middle(self, place: int) -> float:
        return self._look.px((place + 0.5) * _ROW)

    def _spot(self, where: QPointF) -> tuple[int, int] | None:
        place = int(where.y() // self._look.px(_ROW))
        if not (self.flow and 0 <= place < len(self.flow)):
            return None
        return place, min(self.months, key=lambda month: abs(self._x(month) - where.x()))

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.flow:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_months(painter)
        for place, one in enumerate(self.flow):
            self._paint_name(painter, place, one)
            self._paint_band(painter, place, one)
        if self.at:
            self._paint_cursor(painter, *self.at)
        painter.end()

    def _paint_months(self, painter: QPainter) -> None:
        colours, bottom = self._look.palette, self._look.px(len(self.flow) * _ROW)
        painter.setFont(self._look.sans(0.8))
        wide = self._look.px(3)
        for month in self.months:
            painter.setPen(QPen(QColor(colours.faint), 1))
            painter.drawLine(QPointF(self._x(month), 0), QPointF(self._x(month), bottom))
            painter.setPen(QColor(colours.quiet))
            room = QRectF(self._x(month) - wide / 2, bottom, wide, self._look.px(_BELOW))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, wording.month_letter(month))

    def _paint_name(self, painter: QPainter, place: int, one: ThemeFlow) -> None:
        px, colours = self._look.px, self._look.palette
        room = QRectF(0, self._middle(place) - px(1.1), px(_NAME - 0.8), px(1.2))
        painter.setPen(QColor(colours.ink))
        painter.setFont(self._look.serif(1.0, bold=bool(self.at) and self.at[0] == place))
        name = QFontMetricsF(painter.font()).elidedText(one.name, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, name)
        painter.setPen(QColor(colours.quiet))
        painter.setFont(self._look.sans(0.8))
        below = room.translated(0, px(1.15))
        nights = wording.counted(one.nights, "night")
        painter.drawText(below, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, nights)

    def _paint_band(self, painter: QPainter, place: int, one: ThemeFlow) -> None:
        colours = self._look.palette
        tint = colours.tints[one.number % len(colours.tints)]
        band = self._band(place, one)
        painter.fillPath(band, QColor(mixed(colours.paper, tint, 0.3)))
        painter.fillPath(band, QBrush(QColor(tint), _HATCHINGS[place % len(_HATCHINGS)]))
        painter.strokePath(band, QPen(QColor(tint), 1.2))

    def _band(self, place: int, one: ThemeFlow) -> QPainterPath:
        half = self._look.px(_ROW) * 0.46 / max(self.most(), 1e-9)
        thin = self._look.px(_THINNEST) / 2
        points = [(self._x(month), max(thin, one.shares[month - 1] * half)) for month in self.months]
        if len(points) == 1:
            # A year of one month still has a band to be seen.
            aside = self._look.px(2)
            points = [(points[0][0] - aside, points[0][1]), (points[0][0] + aside, points[0][1])]
        middle = self._middle(place)
        path = QPainterPath(QPointF(points[0][0], middle - points[0][1]))
        _along(path, [(x, middle - thick) for x, thick in points])
        path.lineTo(points[-1][0], middle + points[-1][1])
        _along(path, [(x, middle + thick) for x, thick in reversed(points)])
        path.closeSubpath()
        return path

    def _paint_cursor(self, painter: QPainter, place: int, month: int) -> None:
        painter.setPen(QPen(QColor(self._look.palette.ink), 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        high = self._look.px(_ROW) - 4
        painter.drawLine(QPointF(self._x(month), self._middle(place) - high / 2),
                         QPointF(self._x(month), self._middle(place) + high / 2))  # fmt: skip

    # looking

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Up: (-1, 0), Qt.Key.Key_Down: (1, 0), Qt.Key.Key_Left: (0, -1), Qt.Key.Key_Right: (0, 1)}
        if self.flow and event.key() in steps:
            self._move(*steps[event.key()])
        elif self.at and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.picked.emit(self.flow[self.at[0]].number)
        else:
            super().keyPressEvent(event)

    def _move(self, down: int, along: int) -> None:
        place, month = self.at or (0 if down >= 0 else 1, self.months[0] - along)
        if self.at is None:
            down = 0
        place = min(max(place + down, 0), len(self.flow) - 1)
        month = min(max(month + along, self.months[0]), self.months[-1])
        self._point_at(place, month)
        spot = QPointF(self._x(month), self._middle(place)).toPoint()
        QToolTip.showText(self.mapToGlobal(spot), year_wording.share(self.flow[place], month), self)

    def _point_at(self, place: int, month: int) -> None:
        if (place, month) != self.at:
            self.at = (place, month)
            self._describe()
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        spot = self._spot(event.position())
        self.setCursor(Qt.CursorShape.PointingHandCursor if spot else Qt.CursorShape.ArrowCursor)
        if spot:
            self._point_at(*spot)
            QToolTip.showText(event.globalPosition().toPoint(), year_wording.share(self.flow[spot[0]], spot[1]), self)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        spot = self._spot(event.position())
        if spot and event.button() == Qt.MouseButton.LeftButton:
            self.picked.emit(self.flow[spot[0]].number)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.at = None
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        QToolTip.hideText()
        self.at = None
        self.update()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        if self.flow and self.at is None and event.reason() != Qt.FocusReason.MouseFocusReason:
            self._point_at(0, self.months[0])


def _along(path: QPainterPath, points: Sequence[tuple[float, float]]) -> None:
    # Level at each month, so the curve never goes beyond what was counted.
    for (x0, y0), (x1, y1) in pairwise(points):
        middle = (x0 + x1) / 2
        path.cubicTo(middle, y0, middle, y1, x1, y1)

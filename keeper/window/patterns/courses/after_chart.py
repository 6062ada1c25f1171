"""How often a mark came after another, and otherwise: two shares, each with its interval."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.review.courses.after import AfterTold, side_told, sides
from keeper.review.courses.values import share
from keeper.window.desk.look import Look

_ROW, _NAME, _BELOW = 2.2, 11.0, 1.6
"""Height of a row, width of its name, and room for the axis, in times the text's height."""


class AfterChart(QWidget):
    """Two rows from nothing to all; what they show is told in words beside it and in the table."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.of: AfterTold | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("How often it came after the mark, and otherwise")

    def show_told(self, told: AfterTold) -> None:
        """Show another answer, or nothing where nothing can be said."""
        self.of = told if told.found else None
        self.setVisible(self.of is not None)
        if self.of:
            self.setAccessibleDescription("; ".join(side_told(told, place) for place in range(2)) + ".")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(30), self._look.px(2 * _ROW + _BELOW))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.of is None:
            return
        px, painter = self._look.px, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        area = QRectF(px(_NAME), 0, self.width() - px(_NAME + 1.2), px(2 * _ROW))
        top = self._top()
        self._draw_axis(painter, area, top)
        for place, one in enumerate(sides(self.of)):
            middle = (place + 0.5) * px(_ROW)
            x = [area.left() + part / top * area.width() for part in (one.low, one.middle, one.high)]
            self._draw_name(painter, QRectF(0, middle - px(0.8), px(_NAME - 0.8), px(1.6)), self.of.figures.rows[place][0])
            painter.setPen(QPen(QColor(self._look.palette.line), 1.4))
            painter.drawLine(QPointF(x[0], middle), QPointF(x[2], middle))
            painter.setPen(QPen(QColor(self._look.palette.ink), 1.3))
            painter.setBrush(QColor(self._look.palette.paper if place else self._look.palette.ink))
            painter.drawEllipse(QPointF(x[1], middle), px(0.26), px(0.26))
        painter.end()

    def _top(self) -> float:
        """The end of the axis: a round share above both intervals."""
        highest = max(one.high for one in sides(self.of))
        return next(top for top in (0.1, 0.2, 0.3, 0.5, 1.0) if highest <= top or top == 1.0)

    def _draw_name(self, painter: QPainter, room: QRectF, name: str) -> None:
        painter.setFont(self._look.sans(0.9))
        painter.setPen(QColor(self._look.palette.ink))
        told = painter.fontMetrics().elidedText(name, Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, told)

    def _draw_axis(self, painter: QPainter, area: QRectF, top: float) -> None:
        painter.setFont(self._look.sans(0.75))
        for part in (0.0, top / 2, top):
            x = area.left() + part / top * area.width()
            painter.setPen(QPen(QColor(self._look.palette.faint), 1))
            painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))
            painter.setPen(QColor(self._look.palette.quiet))
            room = QRectF(x - self._look.px(2), area.bottom(), self._look.px(4), self._look.px(1.4))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, share(part) if part else "never")

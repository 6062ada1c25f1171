"""The months of a person: a thin band from the first to now, a tick for each month in which they were named."""

from collections.abc import Mapping
from datetime import date

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.tips import plain_tip

_FULL = 8
"""So many lines in a month fill the height, or as many as the fullest has."""


class MonthsStrip(QWidget):
    """``picked`` comes with the first day of the month clicked or entered; the arrows go from month to month with lines."""

    picked = Signal(object)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._months: dict[date, int] = {}
        self._first, self._many = 0, 1
        self.cursor: date | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Months")

    def show_months(self, months: Mapping[date, int], tonight: date, told: str) -> None:
        """Show the lines of each month (its first day); ``told`` says the same in words."""
        self._months = dict(sorted(months.items()))
        # Whole years, so that a month lies where it lies in each.
        self._first = min(months, default=tonight).year * 12
        self._many = max(max(months, default=tonight).year, tonight.year) * 12 + 12 - self._first
        if self.cursor not in self._months:
            self.cursor = max(self._months, default=None)
        self.setVisible(bool(months))
        self.setAccessibleDescription(f"{told} Left and Right go from one to the next, Enter opens it.")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(30), self._look.px(3.4))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(8), self._look.px(3.4))

    def told(self, month: date) -> str:
        """A month and its lines, in words."""
        return f"{wording.month_and_year(month)} \u00b7 {wording.counted(self._months.get(month, 0), 'line')}"

    # drawing

    def _band(self) -> QRectF:
        return QRectF(2, 4, max(1, self.width() - 4), self.height() - self._look.px(1.3) - 6)

    def _x(self, month: int) -> float:
        return self._band().left() + self._band().width() * (month - self._first) / self._many

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, colours, band = QPainter(self), self._look.palette, self._band()
        painter.setPen(QPen(QColor(colours.line), 1))
        painter.drawLine(band.bottomLeft(), band.bottomRight())
        top, wide = max([_FULL, *self._months.values()]), band.width() / self._many
        for month, lines in self._months.items():
            # A single line is still seen, and nothing is taller than the band.
            high = band.height() * (0.16 + 0.84 * lines / top)
            left = self._x(_number(month))
            area = QRectF(left, band.bottom() - high, max(1.0, min(wide - 1, self._look.px(0.22))), high)
            painter.fillRect(area, QColor(colours.ink))
            if self.hasFocus() and month == self.cursor:
                painter.setPen(QPen(QColor(colours.ink), 1.5))
                painter.drawRect(area.adjusted(-3, band.top() - area.top() - 2, 3, 3))
        self._paint_years(painter, band)
        painter.end()

    def _paint_years(self, painter: QPainter, band: QRectF) -> None:
        painter.setFont(self._look.sans(0.78))
        painter.setPen(QColor(self._look.palette.quiet))
        free_from, room = band.left(), painter.fontMetrics().horizontalAdvance("2026  ")
        for month in range(self._first, self._first + self._many, 12):
            x = self._x(month)
            painter.drawLine(QPointF(x, band.bottom()), QPointF(x, band.bottom() + 3))
            if x >= free_from and x + room <= band.right() + room / 3:
                painter.drawText(QPointF(x, self.height() - 3), str(month // 12))
                free_from = x + room

    # moving

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(event.key())
        months = list(self._months)
        if step and self.cursor in self._months:
            self.cursor = months[min(max(months.index(self.cursor) + step, 0), len(months) - 1)]
            self._tell()
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End) and months:
            self.cursor = months[0 if event.key() == Qt.Key.Key_Home else -1]
            self._tell()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.cursor:
            self.picked.emit(self.cursor)
        else:
            super().keyPressEvent(event)

    def _tell(self) -> None:
        spot = QPointF(self._x(_number(self.cursor)), 0).toPoint()
        QToolTip.showText(self.mapToGlobal(spot), plain_tip(self.told(self.cursor)), self)
        self.setAccessibleName(f"Months: {self.told(self.cursor)}")
        self.update()

    def month_at(self, x: float) -> date | None:
        """The month with lines at, or right beside, a place of the strip."""
        near = min(self._months, key=lambda month: abs(self._x(_number(month)) - x), default=None)
        return near if near and abs(self._x(_number(near)) - x) <= max(self._look.px(0.4), self._band().width() / self._many) else None

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        month = self.month_at(event.position().x())
        self.setCursor(Qt.CursorShape.PointingHandCursor if month else Qt.CursorShape.ArrowCursor)
        if month:
            QToolTip.showText(event.globalPosition().toPoint(), plain_tip(self.told(month)), self)
        else:
            QToolTip.hideText()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        month = self.month_at(event.position().x())
        if month and event.button() == Qt.MouseButton.LeftButton:
            self.picked.emit(month)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        QToolTip.hideText()
        self.update()

    def event(self, event: QEvent) -> bool:
        return True if event.type() == QEvent.Type.ToolTip else super().event(event)


def _number(month: date) -> int:
    return month.year * 12 + month.month - 1

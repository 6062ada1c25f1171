"""The course of a theme over all months: one thin line on its baseline."""

from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.review.themes import Course
from keeper.window.desk.look import Look
from keeper.window.themes import wording as theme_wording

_LEAST_TOP = 0.1
"""A share of nights below this never fills the height, so that little looks little."""


def heights(course: Course, most: int) -> list[float | None]:
    """The course in at most so many steps: shares of nights kept, smoothed over neighbours; None where none was kept."""
    months = len(course.nights)
    steps = max(1, min(months, most))
    edges = [round(step * months / steps) for step in range(steps + 1)]
    nights = [sum(course.nights[a:b]) for a, b in pairwise(edges)]
    kept = [sum(course.kept[a:b]) for a, b in pairwise(edges)]
    return [_smoothed(nights, kept, at) if kept[at] else None for at in range(steps)]


def _smoothed(nights: list[int], kept: list[int], at: int) -> float:
    # Quarter, half, quarter: a month of few nights must not stand out alone.
    near = [(place, 2 if place == at else 1) for place in (at - 1, at, at + 1) if 0 <= place < len(kept)]
    return sum(nights[p] * w for p, w in near) / sum(kept[p] * w for p, w in near)


def paint_course(painter: QPainter, look: Look, area: QRectF, course: Course) -> None:
    """Draw a course into an area: its own greatest share fills the height."""
    colours = look.palette
    found = heights(course, max(2, int(area.width() / max(2, look.px(0.22)))))
    top = max([_LEAST_TOP, *(share for share in found if share is not None)])
    step = area.width() / max(1, len(found) - 1)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colours.line), 1))
    painter.drawLine(area.bottomLeft(), area.bottomRight())
    run: list[QPointF] = []
    for at, share in enumerate([*found, None]):
        if share is not None:
            run.append(QPointF(area.left() + at * step, area.bottom() - share / top * area.height()))
        elif run:
            _paint_run(painter, look, run, area.bottom())
            run = []


def _paint_run(painter: QPainter, look: Look, run: list[QPointF], base: float) -> None:
    if len(run) == 1:
        run = [run[0] - QPointF(1, 0), run[0] + QPointF(1, 0)]
    path = QPainterPath(QPointF(run[0].x(), base))
    for spot in run:
        path.lineTo(spot)
    path.lineTo(QPointF(run[-1].x(), base))
    painter.fillPath(path, QColor(look.palette.faint))
    painter.setPen(QPen(QColor(look.palette.ink), 1.2, c=Qt.PenCapStyle.RoundCap, j=Qt.PenJoinStyle.RoundJoin))
    painter.drawPolyline(run)


class CourseView(QWidget):
    """A course with its years named below."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._course: Course | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Course over the months")

    def show_course(self, course: Course | None) -> None:
        """Show another course, or none."""
        self._course = course
        self.setAccessibleDescription(theme_wording.course(course) if course else "")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(20), self._look.px(3.6))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._course is None:
            return
        painter = QPainter(self)
        below = self._look.px(1.2)
        area = QRectF(1, 3, self.width() - 2, self.height() - below - 4)
        paint_course(painter, self._look, area, self._course)
        self._paint_years(painter, area)
        painter.end()

    def _paint_years(self, painter: QPainter, area: QRectF) -> None:
        course, months = self._course, len(self._course.nights)
        painter.setFont(self._look.sans(0.78))
        painter.setPen(QColor(self._look.palette.quiet))
        free_from, room = area.left(), painter.fontMetrics().horizontalAdvance("2026 ")
        for at in range(months):
            year, month = divmod(course.first_month.year * 12 + course.first_month.month - 1 + at, 12)
            x = area.left() + area.width() * at / max(1, months - 1)
            if (month == 0 or at == 0) and x >= free_from and x + room <= area.right() + room / 2:
                painter.drawLine(QPointF(x, area.bottom()), QPointF(x, area.bottom() + 3))
                painter.drawText(QPointF(x, self.height() - 2), str(year))
                free_from = x + room

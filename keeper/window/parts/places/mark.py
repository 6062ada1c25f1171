"""The mark of a place: its tint and, since hue never stands alone, its shape."""

from math import cos, pi, sin

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from keeper.window.desk.look import Look

HATCHINGS = (
    Qt.BrushStyle.SolidPattern, Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.Dense4Pattern,
    Qt.BrushStyle.VerPattern, Qt.BrushStyle.FDiagPattern, Qt.BrushStyle.Dense6Pattern,
)  # fmt: skip
"""Where a mark is a stretch of a band: each round of tints has a hatching of its own, as long stays carry their name."""

_CORNERS = ((0, 0.0), (4, pi / 4), (4, 0.0), (3, -pi / 2), (3, pi / 2), (6, 0.0))
"""Corners and turn of each shape: a disc, a square, a diamond, two triangles, a hexagon."""


def tint(look: Look, mark: int) -> QColor:
    """The colour of a place's mark, as on the ribbon."""
    tints = look.palette.tints
    return QColor(tints[mark % len(tints)])


def paint_mark(painter: QPainter, look: Look, middle: QPointF, radius: float, mark: int) -> None:
    """Draw a place's mark; each round of tints has a shape of its own."""
    corners, turn = _CORNERS[mark // len(look.palette.tints) % len(_CORNERS)]
    painter.setPen(QPen(QColor(look.palette.paper), 1.2))
    painter.setBrush(tint(look, mark))
    if not corners:
        painter.drawEllipse(middle, radius, radius)
        return
    # Somewhat larger than the disc, for the same area to the eye.
    reach = radius * (1.45 if corners == 3 else 1.2)
    steps = (turn + 2 * pi * step / corners for step in range(corners))
    painter.drawPolygon(QPolygonF([middle + QPointF(reach * cos(at), reach * sin(at)) for at in steps]))


class Marks:
    """Marks drawn once and then stamped, for a map with thousands of them.

    Good for one ``palette`` and one ``ratio`` (pixels of the screen to one of
    the window).
    """

    def __init__(self, look: Look, ratio: float) -> None:
        self._look = look
        self.ratio = ratio
        self.palette = look.palette
        self._stamps: dict[tuple[int, int], tuple[QPixmap, float]] = {}
        self._kinds = len(look.palette.tints) * len(_CORNERS)

    def stamp(self, painter: QPainter, x: float, y: float, radius: float, mark: int) -> None:
        """Draw a mark; its radius is rounded to a pixel."""
        key = mark % self._kinds, round(radius)
        stamp, half = self._stamps.get(key) or self._made(key)
        # Each call into Qt lets other threads go first, so there is one only.
        painter.drawPixmap(QPointF(x - half, y - half), stamp)

    def _made(self, key: tuple[int, int]) -> tuple[QPixmap, float]:
        mark, radius = key
        side = 3 * radius + 4
        stamp = QPixmap(round(side * self.ratio), round(side * self.ratio))
        stamp.setDevicePixelRatio(self.ratio)
        stamp.fill(Qt.GlobalColor.transparent)
        painter = QPainter(stamp)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_mark(painter, self._look, QPointF(side / 2, side / 2), radius, mark)
        painter.end()
        self._stamps[key] = stamp, stamp.deviceIndependentSize().width() / 2
        return self._stamps[key]

"""Which way of the map lies under a point: the ways drawn once more, each in a colour that is its number."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QTransform

from keeper.window.parts.places.map_shapes import DrawnWay

_WIDE = 10.0
"""Pixels across a way within which it is meant."""

_COARSE = 3
"""Pixels of the map that are one here: nobody points more finely, and drawing takes a ninth of the time."""


class Hits:
    """The ways of one drawing of the map; ``turns`` lay their degrees on its pixels, once for each time round.

    Asked at each move of the pointer, so that nothing may be reckoned then.
    """

    def __init__(self, size: QSize, ways: Sequence[DrawnWay], turns: Iterable[QTransform]) -> None:
        self._ways = ways
        self._image = QImage(size / _COARSE, QImage.Format.Format_RGB32)
        self._image.fill(0)
        painter, pen = QPainter(self._image), QPen()
        pen.setCosmetic(True)
        pen.setWidthF(_WIDE / _COARSE)
        for turn in turns:
            painter.setTransform(turn * QTransform.fromScale(1 / _COARSE, 1 / _COARSE))
            # The latest is drawn last, and so lies above the others.
            for number in range(len(ways), 0, -1):
                pen.setColor(QColor(number >> 16, number >> 8 & 255, number & 255))
                painter.strokePath(ways[number - 1].path, pen)
        painter.end()

    def at(self, x: float, y: float) -> DrawnWay | None:
        """The way at a spot of the drawing, in pixels; None where there is none."""
        x, y = int(x / _COARSE), int(y / _COARSE)
        number = self._image.pixel(x, y) & 0xFFFFFF if self._image.valid(x, y) else 0
        return self._ways[number - 1] if number else None

"""The track below a reading's value: not noted, nought and no look different."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from keeper.model import Reading, Tracker
from keeper.study.readings import measure

if TYPE_CHECKING:
    from keeper.window.desk.palette import Palette

TALLY = 12
"""So many of a count are drawn as strokes; the number tells the rest."""

_HOURS = 12.0


def share(tracker: Tracker, reading: Reading) -> float | None:
    """How far along its track a reading stands, 0 to 1; None where it has no ends."""
    low, high = tracker.low, tracker.high
    if tracker.form == "hours":
        low, high = low or 0.0, high or _HOURS
    elif tracker.form == "scale":
        low, high = low or 0.0, 10.0 if high is None else high
    if low is None or high is None or high <= low:
        return None
    return min(max((measure.on_axis(tracker, reading) - low) / (high - low), 0.0), 1.0)


def paint_track(painter: QPainter, colours: "Palette", tracker: Tracker, reading: Reading | None, room: QRectF) -> None:
    """The track below the value: dots where nothing was noted, a thin line from nought on."""
    base = room.bottom() - 1
    pen = QPen(QColor(colours.line), 1.2)
    if reading is None:
        pen.setWidthF(1.6)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setDashPattern([0.1, 3])
    painter.setPen(pen)
    painter.drawLine(QPointF(room.left() + 1, base), QPointF(room.right(), base))
    if reading is not None:
        _DRAWN[tracker.form](painter, colours, tracker, reading, room)


def _thick(colours: "Palette", room: QRectF) -> QPen:
    pen = QPen(QColor(colours.ink), max(2.0, room.height() * 0.24))
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen


def _scale(painter: QPainter, colours: "Palette", tracker: Tracker, reading: Reading, room: QRectF) -> None:
    far = share(tracker, reading)
    if far is not None:
        pen = _thick(colours, room)
        painter.setPen(pen)
        x = room.left() + pen.widthF() / 2 + far * (room.width() - pen.widthF())
        painter.drawLine(QPointF(x, room.top()), QPointF(x, room.bottom()))


def _hours(painter: QPainter, colours: "Palette", tracker: Tracker, reading: Reading, room: QRectF) -> None:
    far = share(tracker, reading)
    if far:
        pen = _thick(colours, room)
        painter.setPen(pen)
        y = room.bottom() - pen.widthF() / 2
        painter.drawLine(QPointF(room.left(), y), QPointF(room.left() + far * room.width(), y))


def _count(painter: QPainter, colours: "Palette", tracker: Tracker, reading: Reading, room: QRectF) -> None:
    painter.setPen(QPen(QColor(colours.ink), 1.6))
    for place in range(min(int(reading.value), TALLY)):
        # In fives, as one counts on paper.
        x = room.left() + 2 + (place + 0.6 * (place // 5)) * (room.width() - 4) / (TALLY + 1)
        painter.drawLine(QPointF(x, room.top()), QPointF(x, room.bottom() - 1))


def _mark(painter: QPainter, colours: "Palette", tracker: Tracker, reading: Reading, room: QRectF) -> None:
    if reading.value:
        painter.fillRect(QRectF(room.left(), room.bottom() - room.height() * 0.55, room.width(), room.height() * 0.55), QColor(colours.ink))


_DRAWN = {"scale": _scale, "hours": _hours, "count": _count, "amount": _scale, "mark": _mark}

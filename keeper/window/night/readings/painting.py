"""How a reading's strip is drawn: not noted, nought and no look different."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter

from keeper.actions.readings import wording
from keeper.window.night.readings.track import paint_track

if TYPE_CHECKING:
    from keeper.model import Tracker
    from keeper.window.desk.look import Look
    from keeper.window.night.readings.entry import Entry

WIDE, TALL = 5.0, 3.7
"""Of a strip, in times the text's height."""

_NAME, _VALUE, _TRACK = 1.15, 1.35, 0.42
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True, slots=True)
class Seen:
    """How a strip is seen: its size, whether it has the focus, and whether its signs show."""

    size: QSize
    focused: bool
    signs: bool


def size(look: "Look") -> QSize:
    """How large a strip is."""
    return QSize(look.px(WIDE), look.px(TALL))


def name_tall(look: "Look") -> int:
    """How tall the name above is, where a click only chooses the strip."""
    return look.px(_NAME)


def signs(look: "Look", entry: "Entry", size: QSize) -> tuple[QRectF, QRectF]:
    """Where less and more are pressed, of what has no track to press on."""
    if entry.tracker.form in ("scale", "mark"):
        return QRectF(), QRectF()
    wide = look.px(1.0)
    more = QRectF(size.width() - wide, name_tall(look), wide, look.px(_VALUE))
    return more.translated(-wide, 0), more


def paint(painter: QPainter, look: "Look", entry: "Entry", seen: Seen) -> None:
    """The whole strip."""
    px, wide, tall = look.px, seen.size.width(), seen.size.height()
    if seen.focused:
        painter.fillRect(QRectF(0, 0, wide, tall), QColor(look.palette.wash))
        painter.fillRect(QRectF(0, tall - 2, wide, 2), QColor(look.palette.ink))
    _paint_name(painter, look, entry.tracker, QRectF(0, 0, wide, px(_NAME)))
    _paint_value(painter, look, entry, seen)
    track = QRectF(0, px(_NAME) + px(_VALUE) + px(0.05), wide, px(_TRACK))
    paint_track(painter, look.palette, entry.tracker, entry.now(), track)


def _paint_value(painter: QPainter, look: "Look", entry: "Entry", seen: Seen) -> None:
    room = QRectF(0, look.px(_NAME), seen.size.width(), look.px(_VALUE))
    painter.setPen(QColor(look.palette.quiet if entry.failing else look.palette.ink))
    going = seen.focused and entry.typed.text and not entry.typed.over()
    told = entry.shown() + ("\u2009|" if going else "")
    painter.setFont(look.serif(1.15))
    if painter.fontMetrics().horizontalAdvance(told) > room.width():
        # Two times are longer than most.
        painter.setFont(look.serif(0.85))
    # Of what is being typed the end is seen.
    painter.drawText(room, _LEFT, _elided(painter, told, room, Qt.TextElideMode.ElideLeft))
    room.setLeft(room.left() + painter.fontMetrics().horizontalAdvance(told) + look.px(0.25))
    less, more = signs(look, entry, seen.size)
    if seen.signs and not less.isEmpty() and room.left() <= less.left():
        room.setRight(less.left())
        painter.setPen(QColor(look.palette.quiet))
        for spot, sign in ((less, "\u2212"), (more, "+")):
            painter.drawText(spot, Qt.AlignmentFlag.AlignCenter, sign)
    _paint_beside(painter, look, entry, room)


def _paint_beside(painter: QPainter, look: "Look", entry: "Entry", room: QRectF) -> None:
    unit = "" if entry.going() else wording.unit(entry.tracker, entry.reading)
    painter.setFont(look.sans(0.72))
    painter.setPen(QColor(look.palette.quiet))
    if room.width() > 0:
        painter.drawText(room, _LEFT, _elided(painter, "not kept yet" if entry.failing else unit, room))


def _elided(painter: QPainter, words: str, room: QRectF, where: Qt.TextElideMode = Qt.TextElideMode.ElideRight) -> str:
    return painter.fontMetrics().elidedText(words, where, int(room.width()))


def _paint_name(painter: QPainter, look: "Look", tracker: "Tracker", room: QRectF) -> None:
    """The name, its own letter underlined; a letter that is not in it stands at the end."""
    painter.setFont(look.sans(0.85))
    painter.setPen(QColor(look.palette.quiet))
    shown = _elided(painter, tracker.name, room)
    painter.drawText(room, _LEFT, shown)
    at = shown.lower().find(tracker.key) if tracker.key else -1
    metrics = painter.fontMetrics()
    if at >= 0:
        left, wide = room.left() + metrics.horizontalAdvance(shown[:at]), metrics.horizontalAdvance(shown[at])
        below = room.center().y() + metrics.ascent() / 2
        painter.drawLine(QPointF(left, below), QPointF(left + wide - 1, below))
    elif tracker.key:
        painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, tracker.key.upper())

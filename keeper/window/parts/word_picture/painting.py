"""How the words and the ribbon below them are drawn."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter

from keeper.actions.word_pictures import TALLEST, TICK, WIDTH, Placed, WordPicture
from keeper.window.desk.look import SANS, SERIF, Look
from keeper.window.desk.palette import mixed
from keeper.window.parts.places.mark import HATCHINGS, paint_mark, tint

UNDER = 6.0
"""How far below its ink a word's tint reaches, in the picture's own measure."""


def ink_of(look: Look, one: Placed) -> str:
    """A word's colour: the ink, paler for the rarer ones, never too pale to read."""
    return mixed(look.palette.quiet, look.palette.ink, min(1.0, 0.25 + one.weight))


def paint_word(painter: QPainter, look: Look, one: Placed, start: QPointF, scale: float) -> None:
    """Draw a word from the beginning of its baseline, no wider than its room."""
    font = QFont(SERIF)
    font.setPixelSize(max(1, round(one.size * scale)))
    room, wide = one.width * scale, QFontMetricsF(font).tightBoundingRect(one.word).width()
    painter.save()
    painter.setFont(font)
    painter.setPen(QColor(ink_of(look, one)))
    painter.translate(start)
    if wide > room * 1.02:
        # Of another typeface, where ours has not its letters.
        painter.scale(room / wide, 1.0)
    painter.drawText(QPointF(0, 0), one.word)
    painter.restore()


def paint_tint(painter: QPainter, look: Look, one: Placed, mark: int, corner: QPointF, scale: float) -> None:
    """Draw the tint of a place under a word, its mark at the beginning; ``corner`` is where the word's ink begins."""
    thick = max(2.0, 2.2 * scale)
    below = corner.y() + one.height * scale + 1.5 * scale
    hatching = HATCHINGS[mark // len(look.palette.tints) % len(HATCHINGS)]
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillRect(QRectF(corner.x(), below, one.width * scale, thick), QBrush(tint(look, mark), hatching))
    paint_mark(painter, look, QPointF(corner.x() + 1.5 * thick, below + thick / 2), 1.5 * thick, mark)
    painter.restore()


def paint_ribbon(painter: QPainter, look: Look, picture: WordPicture, scale: float, above: float, tinted: bool) -> None:
    """Draw the nights and the names below them; ``above`` is what of the picture is cut off at its top."""
    base = (TALLEST - above + 6 + TICK) * scale
    colours, tints = look.palette, len(look.palette.tints)
    for one in picture.band.nights:
        tall = (3 + (TICK - 3) * one.much) * scale
        spot = QRectF((one.at + one.wide * 0.15) * WIDTH * scale, base - tall, min(5.0 * scale, max(0.8, one.wide * WIDTH * 0.7 * scale)), tall)
        if tinted and one.mark is not None:
            painter.fillRect(spot, QBrush(tint(look, one.mark), HATCHINGS[one.mark // tints % len(HATCHINGS)]))
        else:
            painter.fillRect(spot, QColor(colours.line if one.much else colours.faint))
    font = QFont(SANS)
    font.setPixelSize(max(9, round(12 * scale)))
    painter.setFont(font)
    painter.setPen(QColor(colours.quiet))
    for at, name in picture.band.named:
        painter.drawText(QRectF(at * WIDTH * scale, base + 3 * scale, 80 * scale, 20 * scale), Qt.AlignmentFlag.AlignLeft, name)

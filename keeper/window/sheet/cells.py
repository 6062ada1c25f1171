"""How a cell is drawn: words, a number, a stroke for a yes, a short one hanging for a no, and nothing for what was not noted.

Not by a delegate of Qt's: what that is told of each cell takes longer than to
draw it, and a whole sheet has to be there as fast as a key is answered.
"""

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QStaticText, QTextOption

from keeper.window.desk.look import Look
from keeper.window.sheet.model import CellSeen, SheetModel

_HELD = 4000
"""Texts that are held as they are laid out; there is no sheet with more of them in sight."""


class Stretch(NamedTuple):
    """Where a row lies from above, or a column from the left."""

    number: int
    begins: int
    long: int


class CellPainter:
    """Draws the cells of a sheet on ruled paper."""

    def __init__(self, look: Look, model: SheetModel) -> None:
        self._look, self._model = look, model
        self.dress()

    def dress(self) -> None:
        """Take up the palette and sizes in force; once, since there are hundreds of cells to draw at a time."""
        px, colours = self._look.px, self._look.palette
        self._fonts = {"reading": self._look.sans(1.0), "place": self._look.sans(1.0), "line": self._look.serif(1.0)}
        self._metrics = {sort: QFontMetrics(font) for sort, font in self._fonts.items()}
        self.paper, self._ink, self._quiet = QColor(colours.paper), QColor(colours.ink), QColor(colours.quiet)
        self._wash = QColor(colours.wash)
        self._rule, self._thin = QPen(QColor(colours.faint), 1), QPen(QColor(colours.line), 1)
        self._stroke, self._frame = QPen(self._ink, max(2.0, px(0.2))), QPen(self._ink, 2)
        self._no, self._dots = QPen(self._ink, 1.2), QPen(self._ink, 1.4, Qt.PenStyle.DotLine)
        self._up, self._down, self._half, self._em = px(0.25), px(0.4), px(0.5), px(1)
        # To lay a text out takes longer than to draw it: the same stands there at each drawing.
        self._laid: dict[tuple[str, int, str], tuple[QStaticText, float, float]] = {}
        self._one_row = QTextOption()
        self._one_row.setWrapMode(QTextOption.WrapMode.NoWrap)
        self._one_row.setTextDirection(Qt.LayoutDirection.LeftToRight)

    def paint(
        self, painter: QPainter, rows: Sequence[Stretch], columns: Sequence[Stretch],
        picked: Sequence[QRect], current: tuple[int, int] | None,
    ) -> None:  # fmt: skip
        """Draw the cells of these rows and columns on paper.

        Those in the rectangles of ``picked``, columns across and rows down, are picked out; one, by row and column, is ``current``.
        """
        rules, cells = [], []
        for column in columns:
            for row in rows:
                at, area = (row.number, column.number), QRectF(column.begins, row.begins, column.long, row.long)
                if at != current and any(some.contains(at[1], at[0]) for some in picked):
                    painter.fillRect(area, self._wash)
                seen = self._model.seen(*at)
                cells.append((area, seen, at == current))
                if seen.open:
                    rules.append(QLineF(area.left() + 3, area.bottom() - 1, area.right() - 3, area.bottom() - 1))
        painter.setPen(self._rule)
        painter.drawLines(rules)
        for sort, of_sort in groupby(cells, lambda cell: cell[1].sort):
            # Once for each column: to change the typeface takes as long as to draw a word.
            painter.setFont(self._fonts[sort])
            for area, seen, is_current in of_sort:
                self._paint_value(painter, area, seen)
                if is_current:
                    painter.setPen(self._frame)
                    painter.drawRect(area.adjusted(1, 1, -1, -1))

    def _paint_value(self, painter: QPainter, area: QRectF, seen: CellSeen) -> None:
        if seen.is_mark and not seen.wrong and seen.text in ("", "yes", "no"):
            self._paint_mark(painter, area, seen.text, seen.left_empty)
        elif seen.text:
            self._paint_words(painter, area, seen.sort, seen.text, self._ink)
            if seen.wrong:
                self._paint_wrong(painter, area, seen.sort, seen.text)
        elif seen.carried:
            self._paint_words(painter, area, seen.sort, seen.carried, self._quiet)

    def _paint_words(self, painter: QPainter, area: QRectF, sort: str, text: str, ink: QColor) -> None:
        laid, wide, tall = self._laid_out(sort, int(area.width()) - 8, text)
        painter.setPen(ink)
        left = area.center().x() - wide / 2 if sort == "reading" else area.left() + 4
        painter.drawStaticText(QPointF(left, area.top() + (area.height() - tall) / 2), laid)

    def _laid_out(self, sort: str, room: int, text: str) -> tuple[QStaticText, float, float]:
        """A text as it is drawn where there is so much room, how wide it is and how tall its row."""
        if (known := self._laid.get((sort, room, text))) is not None:
            return known
        metrics = self._metrics[sort]
        # Of a long line only what can be seen is measured.
        row = text if sort == "reading" else " ".join(text[: max(room // 2, 0)].split())
        laid = self._static(sort, row) if sort != "line" else None
        if laid is None or laid.size().width() > room:
            laid = self._static(sort, metrics.elidedText(row, Qt.TextElideMode.ElideRight, room))
        if len(self._laid) >= _HELD:
            self._laid.clear()
        self._laid[sort, room, text] = found = laid, laid.size().width(), metrics.height()
        return found

    def _static(self, sort: str, row: str) -> QStaticText:
        laid = QStaticText(row)
        laid.setTextFormat(Qt.TextFormat.PlainText)
        laid.setTextOption(self._one_row)
        laid.prepare(font=self._fonts[sort])
        return laid

    def _paint_mark(self, painter: QPainter, area: QRectF, text: str, left_empty: bool) -> None:
        x, rule = area.center().x(), area.bottom() - self._down
        if text == "yes":
            painter.setPen(self._stroke)
            painter.drawLine(QLineF(x, rule, x, area.top() + self._up))
        elif text == "no" or left_empty:
            painter.setPen(self._no if text else self._thin)
            painter.drawLine(QLineF(x, rule, x, rule + self._up))
        if text or left_empty:
            painter.setPen(self._thin)
            painter.drawLine(QLineF(x - self._half, rule, x + self._half, rule))

    def _paint_wrong(self, painter: QPainter, area: QRectF, sort: str, text: str) -> None:
        # A broken line below the text: it stands here, and is not kept.
        painter.setPen(self._dots)
        y, room = area.bottom() - 3, area.width() - 8
        wide = min(max(self._metrics[sort].horizontalAdvance(text[:200]), self._em), room)
        left = area.center().x() - wide / 2 if sort == "reading" else area.left() + 4
        painter.drawLine(QLineF(left, y, left + wide, y))

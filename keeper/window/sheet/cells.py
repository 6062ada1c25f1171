"""How a cell is drawn: words, a number, a stroke for a yes, a short one hanging for a no, and nothing for what was not noted."""

from PySide6.QtCore import QLineF, QModelIndex, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.window.desk.look import Look
from keeper.window.sheet.model import SheetModel

_CENTRED = Qt.AlignmentFlag.AlignCenter
_AT_THE_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine
_FOCUSED, _SELECTED = QStyle.StateFlag.State_HasFocus, QStyle.StateFlag.State_Selected


class CellPainter(QStyledItemDelegate):
    """Draws the cells of a sheet on ruled paper."""

    def __init__(self, look: Look, model: SheetModel) -> None:
        super().__init__()
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

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        area = QRectF(option.rect)
        painter.fillRect(area, self._wash if option.state & _SELECTED and not option.state & _FOCUSED else self.paper)
        if self._model.open(index):
            painter.setPen(self._rule)
            painter.drawLine(QLineF(area.left() + 3, area.bottom() - 1, area.right() - 3, area.bottom() - 1))
        self._paint_value(painter, area, index)
        if option.state & _FOCUSED:
            painter.setPen(self._frame)
            painter.drawRect(area.adjusted(1, 1, -1, -1))

    def _paint_value(self, painter: QPainter, area: QRectF, index: QModelIndex) -> None:
        text, wrong = self._model.text(index), self._model.is_wrong(index)
        if not wrong and text in ("", "yes", "no") and self._model.is_mark(index):
            self._paint_mark(painter, area, text, self._model.left_empty(index))
        elif text:
            self._paint_words(painter, area, index, text, self._ink)
            if wrong:
                self._paint_wrong(painter, area, self._model.column(index).sort, text)
        elif carried := self._model.carried(index):
            self._paint_words(painter, area, index, carried, self._quiet)

    def _paint_words(self, painter: QPainter, area: QRectF, index: QModelIndex, text: str, ink: QColor) -> None:
        sort = self._model.column(index).sort
        painter.setFont(self._fonts[sort])
        painter.setPen(ink)
        room, metrics = area.adjusted(4, 0, -4, 0), self._metrics[sort]
        # Of a long line only what can be seen is measured.
        row = text if sort == "reading" else " ".join(text[: int(room.width())].split())
        fits = metrics.horizontalAdvance(row) <= room.width()
        shown = row if fits else metrics.elidedText(row, Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(room, _CENTRED if sort == "reading" else _AT_THE_LEFT, shown)

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

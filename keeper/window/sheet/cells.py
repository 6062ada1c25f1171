"""How a cell is drawn: a number, a stroke for a yes, a short one hanging for a no, and nothing for what was not noted."""

from PySide6.QtCore import QLineF, QModelIndex, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.window.desk.look import Look
from keeper.window.sheet.model import SheetModel

_CENTRED = Qt.AlignmentFlag.AlignCenter


class CellPainter(QStyledItemDelegate):
    """Draws the cells of a sheet on ruled paper."""

    def __init__(self, look: Look, model: SheetModel) -> None:
        super().__init__()
        self._look, self._model = look, model

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        colours, area = self._look.palette, QRectF(option.rect)
        painter.save()
        painter.fillRect(option.rect, QColor(colours.paper))
        if self._model.open(index):
            painter.setPen(QPen(QColor(colours.faint), 1))
            painter.drawLine(QLineF(area.left() + 3, area.bottom(), area.right() - 3, area.bottom()))
        self._paint_value(painter, area, index)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(colours.ink), 2))
            painter.drawRect(area.adjusted(1, 1, -1, -1))
        painter.restore()

    def _paint_value(self, painter: QPainter, area: QRectF, index: QModelIndex) -> None:
        text, wrong = self._model.text(index), self._model.cell(index) in self._model.wrong
        if self._model.tracker(index).form == "mark" and not wrong and text in ("", "yes", "no"):
            self._paint_mark(painter, area, text, self._model.left_empty(index))
            return
        painter.setFont(self._look.sans(1.0))
        painter.setPen(QColor(self._look.palette.ink))
        shown = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, int(area.width()) - 6)
        painter.drawText(area, _CENTRED, shown)
        if wrong:
            self._paint_wrong(painter, area, painter.fontMetrics().horizontalAdvance(shown))

    def _paint_mark(self, painter: QPainter, area: QRectF, text: str, left_empty: bool) -> None:
        px, colours, x = self._look.px, self._look.palette, area.center().x()
        rule = area.bottom() - px(0.4)
        if text == "yes":
            painter.setPen(QPen(QColor(colours.ink), max(2.0, px(0.2))))
            painter.drawLine(QLineF(x, rule, x, area.top() + px(0.25)))
        elif text == "no" or left_empty:
            painter.setPen(QPen(QColor(colours.ink if text else colours.line), 1.2))
            painter.drawLine(QLineF(x, rule, x, rule + px(0.25)))
        if text or left_empty:
            painter.setPen(QPen(QColor(colours.line), 1))
            painter.drawLine(QLineF(x - px(0.5), rule, x + px(0.5), rule))

    def _paint_wrong(self, painter: QPainter, area: QRectF, wide: int) -> None:
        # A broken line below the text: it stands here, and is not kept.
        painter.setPen(QPen(QColor(self._look.palette.ink), 1.4, Qt.PenStyle.DotLine))
        y, wide = area.bottom() - 3, max(wide, self._look.px(1))
        painter.drawLine(QLineF(area.center().x() - wide / 2, y, area.center().x() + wide / 2, y))

"""The threads as quiet rows: name, facts, course; the row one is at shows its central lines."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetrics, QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.review.themes import Thread
from keeper.window.desk.look import Look
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.course import paint_course

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class ThreadsModel(QAbstractListModel):
    """Threads in the order in which they are told."""

    def __init__(self, tonight: date) -> None:
        super().__init__()
        self.tonight = tonight
        self.threads: list[Thread] = []

    def show(self, threads: Sequence[Thread]) -> None:
        """Show these."""
        self.beginResetModel()
        self.threads = list(threads)
        self.endResetModel()

    def row_of(self, number: int | None) -> int:
        """The row of a theme, or -1."""
        return next((row for row, one in enumerate(self.threads) if one.number == number), -1)

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.threads)

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        thread = self.threads[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return thread.name
        if role == Qt.ItemDataRole.AccessibleTextRole:
            told = ". ".join(line.text for line in thread.central)
            facts = theme_wording.facts(thread, self.tonight)
            return f"{thread.name}. {facts}. {theme_wording.course(thread.course)}. {told}"
        return None


class ThreadsDelegate(QStyledItemDelegate):
    """Draws a thread."""

    def __init__(self, look: Look, view: QListView) -> None:
        super().__init__(view)
        self._look = look
        self._view = view

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        look, rows = self._look, 0
        if index.row() == self._view.currentIndex().row():
            rows = len(index.model().threads[index.row()].central) + 1
        below = rows * self._row_height() + look.px(0.5) if rows else 0
        return QSize(look.px(20), look.px(3.5) + below)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        look, px, area = self._look, self._look.px, QRectF(option.rect)
        thread, opened = index.model().threads[index.row()], index.row() == self._view.currentIndex().row()
        painter.save()
        if opened or option.state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(area, QColor(look.palette.wash))
        if opened and option.state & QStyle.StateFlag.State_HasFocus:
            painter.fillRect(QRectF(area.left(), area.top() + 2, 2, area.height() - 4), QColor(look.palette.ink))
        head = QRectF(area.left() + px(0.7), area.top() + px(0.35), area.width() - px(1.4), px(2.8))
        wide = min(px(16), head.width() * 0.36)
        words = head.adjusted(0, 0, -wide - px(1), 0)
        self._write(painter, words.adjusted(0, 0, 0, -px(1.2)), thread.name, look.serif(1.25), look.palette.ink)
        facts = theme_wording.facts(thread, index.model().tonight)
        self._write(painter, words.adjusted(0, px(1.6), 0, 0), facts, look.sans(0.9), look.palette.quiet)
        paint_course(painter, look, QRectF(head.right() - wide, head.top() + 2, wide, px(2.3)), thread.course)
        if opened:
            self._paint_central(painter, area.adjusted(px(0.7), px(3.5), -px(0.7), 0), thread)
        painter.setPen(QColor(look.palette.faint))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.restore()

    def _paint_central(self, painter: QPainter, area: QRectF, thread: Thread) -> None:
        look, height = self._look, self._row_height()
        for at, line in enumerate(thread.central):
            row = QRectF(area.left() + look.px(1), area.top() + at * height, area.width() - look.px(1), height)
            self._write(painter, row, " ".join(line.text.split()), look.serif(1.05), look.palette.ink)
        last = QRectF(area.left(), area.top() + len(thread.central) * height, area.width(), height)
        self._write(painter, last, "All its lines \u203a", look.sans(0.9), look.palette.quiet, _RIGHT)

    def _row_height(self) -> int:
        return round(QFontMetrics(self._look.serif(1.05)).lineSpacing() * 1.12)

    def _write(self, painter: QPainter, area: QRectF, words: str, font: QFont, colour: str, where=_LEFT) -> None:
        painter.setFont(font)
        painter.setPen(QColor(colour))
        shown = QFontMetrics(font).elidedText(words, Qt.TextElideMode.ElideRight, int(area.width()))
        painter.drawText(area, where | Qt.TextFlag.TextSingleLine, shown)


class ThreadsList(QListView):
    """Threads to choose from.

    A click or the arrow keys open a row; Enter, or a click on the open row,
    leads on: ``opened`` comes with its number. ``typed`` comes with
    letters typed here.
    """

    opened = Signal(object)
    typed = Signal(str)

    def __init__(self, look: Look, tonight: date, name: str = "Themes") -> None:
        super().__init__()
        self.rows = ThreadsModel(tonight)
        self._was_open = -1
        self.setModel(self.rows)
        self.setItemDelegate(ThreadsDelegate(look, self))
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setAccessibleName(name)

    def show_threads(self, threads: Sequence[Thread]) -> None:
        """Show these, staying at the one one is at."""
        was, scrolled = self.number(), self.verticalScrollBar().value()
        self.rows.show(threads)
        if threads:
            self.setCurrentIndex(self.rows.index(max(0, self.rows.row_of(was)), 0))
        self.verticalScrollBar().setValue(scrolled)

    def number(self) -> int | str | None:
        """The number of the theme one is at."""
        row = self.currentIndex().row()
        return self.rows.threads[row].number if 0 <= row < len(self.rows.threads) else None

    def currentChanged(self, current: QModelIndex, previous: QModelIndex) -> None:
        super().currentChanged(current, previous)
        # The row that opens grows, the one that closes shrinks.
        self.scheduleDelayedItemsLayout()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._was_open = self.currentIndex().row()
        super().mousePressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        row = self.indexAt(event.position().toPoint()).row()
        if event.button() == Qt.MouseButton.LeftButton and 0 <= row == self._was_open:
            self.opened.emit(self.rows.threads[row].number)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.number() is not None:
            self.opened.emit(self.number())
        elif event.text().isprintable() and event.text().strip() and not _commanding(event):
            self.typed.emit(event.text())
        else:
            super().keyPressEvent(event)


def _commanding(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier))

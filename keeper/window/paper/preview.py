"""Leafing through a book: two facing pages at a time."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QColor,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QWheelEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.small import label, quiet_button, row

_NEXT = (Qt.Key.Key_PageDown, Qt.Key.Key_Right, Qt.Key.Key_Down, Qt.Key.Key_Space)
_BACK = (Qt.Key.Key_PageUp, Qt.Key.Key_Left, Qt.Key.Key_Up, Qt.Key.Key_Backspace)


class _Spread(QWidget):
    """Two pages side by side, as they lie open."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.shown: tuple[QPixmap | None, QPixmap | None] = (None, None)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(52), self._look.px(38))

    def paintEvent(self, event: QPaintEvent) -> None:
        some = next((one for one in self.shown if one), None)
        if some is None:
            return
        painter = QPainter(self)
        room = min((self.width() - 4) / 2 / some.width(), (self.height() - 4) / some.height())
        wide, high = some.width() * room, some.height() * room
        left, top = self.width() / 2 - wide, (self.height() - high) / 2
        painter.setPen(QPen(QColor(self._look.palette.line), 1))
        for number, page in enumerate(self.shown):
            if page:
                where = QRectF(left + number * wide, top, wide, high)
                painter.drawPixmap(where.toAlignedRect(), self._small(page, where))
                painter.drawRect(where)
        if all(self.shown):
            painter.drawLine(QPointF(left + wide, top), QPointF(left + wide, top + high))
        painter.end()


    def _small(self, page: QPixmap, where: QRectF) -> QPixmap:
        # Made small with care: letters drawn at less than half their size fall to pieces.
        dense = self.devicePixelRatioF()
        size = where.size() * dense
        smaller = page.scaled(
            size.toSize(), Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        smaller.setDevicePixelRatio(dense)
        return smaller


class BookPreview(QWidget):
    """The pages of a book as pictures; keys and buttons turn them."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._pages: Sequence[Path] = ()
        self.at = 0
        self.spread = _Spread(look)
        self.told = label("", "quiet", wrap=False)
        self.back = quiet_button("\u2039 Back", lambda: self.turn(-1), "Back: the pages before")
        self.onward = quiet_button("Next \u203a", lambda: self.turn(1), "Next: the pages after")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.spread, 1)
        layout.addLayout(self._row())
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def _row(self) -> QHBoxLayout:
        return row(None, self.back, self.told, self.onward, None, gap=24)

    def show_pages(self, pages: Sequence[Path]) -> None:
        """Show a book from its first page on."""
        self._pages = pages
        self.at = 0
        self._draw()

    @property
    def spreads(self) -> int:
        """How often the book lies open: the first page lies alone at the right."""
        return len(self._pages) // 2 + 1 if self._pages else 0

    def turn(self, by: int) -> None:
        """Turn so many leaves."""
        at = min(max(self.at + by, 0), max(self.spreads - 1, 0))
        if at != self.at:
            self.at = at
            self._draw()

    def _draw(self) -> None:
        numbers = [number for number in (2 * self.at, 2 * self.at + 1) if 1 <= number <= len(self._pages)]
        # Decoding a page takes some ten milliseconds: only those that are seen.
        shown = {number: QPixmap(str(self._pages[number - 1])) for number in numbers}
        self.spread.shown = (shown.get(2 * self.at), shown.get(2 * self.at + 1))
        self.spread.update()
        told = " and ".join(map(str, numbers))
        words = f"{'Pages' if len(numbers) > 1 else 'Page'} {told} of {len(self._pages)}" if numbers else ""
        self.told.setText(words)
        self.setAccessibleName(words or "The pages of the book")
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))
        self._enable(self.back, self.at > 0)
        self._enable(self.onward, self.at < self.spreads - 1)

    def _enable(self, button: QPushButton, wanted: bool) -> None:
        # The keys go on working when the button that was pressed has no more to do.
        if not wanted and button.hasFocus():
            self.setFocus()
        button.setEnabled(wanted)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _NEXT:
            self.turn(1)
        elif event.key() in _BACK:
            self.turn(-1)
        elif event.key() == Qt.Key.Key_Home:
            self.turn(-self.spreads)
        elif event.key() == Qt.Key.Key_End:
            self.turn(self.spreads)
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.angleDelta().y():
            self.turn(-1 if event.angleDelta().y() > 0 else 1)

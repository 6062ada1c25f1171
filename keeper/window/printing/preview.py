"""The sides that will be printed, one at a time."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QColor, QKeyEvent, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.small import label, quiet_button, row

_NEXT = (Qt.Key.Key_Right, Qt.Key.Key_Down, Qt.Key.Key_Space)
_BACK = (Qt.Key.Key_Left, Qt.Key.Key_Up, Qt.Key.Key_Backspace)
_HIGH = 30
"""How high a side is shown, in times the text's height."""


class _Side(QWidget):
    """One side of a sheet, on its own white."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.shown: QPixmap | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(20), self._look.px(_HIGH) if self.shown else 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.shown is None:
            return
        painter = QPainter(self)
        room = min((self.width() - 4) / self.shown.width(), (self.height() - 4) / self.shown.height())
        wide, high = self.shown.width() * room, self.shown.height() * room
        where = QRectF((self.width() - wide) / 2, 2, wide, high)
        dense = self.devicePixelRatioF()
        smaller = self.shown.scaled(
            (where.size() * dense).toSize(), Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        smaller.setDevicePixelRatio(dense)
        painter.drawPixmap(where.toAlignedRect(), smaller)
        painter.setPen(QPen(QColor(self._look.palette.line), 1))
        painter.drawRect(where)
        painter.end()


class SidesPreview(QWidget):
    """Sides as pictures; keys and buttons go from one to the next."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._pages: Sequence[Path] = ()
        self.at = 0
        self.side = _Side(look)
        self.told = label("", "quiet", wrap=False)
        self.back = quiet_button("\u2039 Back", lambda: self.turn(-1), "Back: the side before")
        self.onward = quiet_button("Next \u203a", lambda: self.turn(1), "Next: the side after")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.side)
        layout.addLayout(row(None, self.back, self.told, self.onward, None, gap=24))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.hide()

    def show_pages(self, pages: Sequence[Path]) -> None:
        """Show these from the first on; none at all hides it."""
        self._pages, self.at = pages, 0
        self.setVisible(bool(pages))
        self._draw()

    def turn(self, by: int) -> None:
        """Go so many sides on."""
        at = min(max(self.at + by, 0), max(len(self._pages) - 1, 0))
        if at != self.at:
            self.at = at
            self._draw()

    def _draw(self) -> None:
        # Decoding one takes some ten milliseconds: only that which is seen.
        self.side.shown = QPixmap(str(self._pages[self.at])) if self._pages else None
        self.side.updateGeometry()
        self.side.update()
        self.told.setText(f"Side {self.at + 1} of {len(self._pages)}" if self._pages else "")
        self.setAccessibleName(self.told.text() or "The sides that will be printed")
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))
        self._enable(self.back, self.at > 0)
        self._enable(self.onward, self.at < len(self._pages) - 1)

    def _enable(self, button: QPushButton, wanted: bool) -> None:
        if not wanted and button.hasFocus():
            self.setFocus()
        button.setEnabled(wanted)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = 1 if event.key() in _NEXT else -1 if event.key() in _BACK else 0
        by = by or {Qt.Key.Key_Home: -len(self._pages), Qt.Key.Key_End: len(self._pages)}.get(event.key(), 0)
        if by:
            self.turn(by)
        else:
            super().keyPressEvent(event)

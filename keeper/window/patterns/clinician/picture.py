"""A page as it will be printed."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.window.desk.look import Look

_WIDEST = 38
"""Times the text's height."""


class PagePicture(QWidget):
    """As wide as there is room, and as high as the page then is."""

    def __init__(self, look: Look, picture: bytes, name: str) -> None:
        super().__init__()
        self._look = look
        self._whole = QPixmap()
        self._whole.loadFromData(picture)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMaximumWidth(look.px(_WIDEST))

    def heightForWidth(self, width: int) -> int:
        return round(width * self._whole.height() / max(self._whole.width(), 1))

    def sizeHint(self) -> QSize:
        wide = self._look.px(_WIDEST)
        return QSize(wide, self.heightForWidth(wide))

    def paintEvent(self, event: QPaintEvent) -> None:
        dense = self.devicePixelRatioF()
        # Made small with care: letters drawn at less than their size fall to pieces.
        shown = self._whole.scaled(self.size() * dense, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation)
        shown.setDevicePixelRatio(dense)
        painter = QPainter(self)
        painter.drawPixmap(0, 0, shown)
        painter.setPen(QPen(QColor(self._look.palette.ink if self.hasFocus() else self._look.palette.line), 2 if self.hasFocus() else 1))
        # Round the picture, which may be smaller than its room.
        painter.drawRect(0, 0, round(shown.width() / dense) - 1, round(shown.height() / dense) - 1)
        painter.end()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.update()

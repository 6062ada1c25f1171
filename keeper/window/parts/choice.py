"""A choice of a few."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter

from keeper.window.desk.look import Look

_ANGLE = 1.6
"""Width that the angle takes at the end, in times the text's height."""

_NARROWEST = 14
"""However little room there is, this much of a long name is shown."""


class Choice(QComboBox):
    """One of a few; an angle at its end tells that it opens.

    Wheel and page keys go on to the page, which scrolls: what is chosen does
    not change in passing.
    """

    def __init__(self, look: Look, name: str) -> None:
        super().__init__()
        self._look = look
        self.setAccessibleName(name)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            event.ignore()
        else:
            super().keyPressEvent(event)

    def sizeHint(self):
        size = super().sizeHint()
        size.setWidth(size.width() + self._look.px(_ANGLE))
        return size

    def minimumSizeHint(self):
        size = self.sizeHint()
        size.setWidth(min(size.width(), self._look.px(_NARROWEST)))
        return size

    def showPopup(self) -> None:
        view = self.view()
        view.setTextElideMode(Qt.TextElideMode.ElideRight)
        # The words, what the style sheet lays round them (Qt forgets it), and a bar for scrolling.
        wide = max(self.width(), view.sizeHintForColumn(0) + self._look.px(2.2))
        high = min(self.count(), self.maxVisibleItems()) * view.sizeHintForRow(0) + self._look.px(0.9)
        room = self.screen().availableGeometry()
        view.setMinimumSize(min(wide, room.width()), min(high, room.height() // 2))
        super().showPopup()

    def words(self) -> str:
        """What is chosen, as much of it as stands before the angle."""
        room = self.width() - self._look.px(_ANGLE)
        return self.fontMetrics().elidedText(self.currentText(), Qt.TextElideMode.ElideRight, room)

    def paintEvent(self, event: QPaintEvent) -> None:
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        # By itself the style lets a long name run under the angle, and cuts it there.
        option.currentText = self.words()
        painter = QStylePainter(self)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        painter.end()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(self._look.palette.quiet), 1.3))
        half, right, middle = self._look.px(0.24), self.width() - self._look.px(0.4), self.height() / 2
        painter.drawPolyline(
            [QPointF(right - 2 * half, middle - half / 2), QPointF(right - half, middle + half / 2),
             QPointF(right, middle - half / 2)]
        )  # fmt: skip
        painter.end()

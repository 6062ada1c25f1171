"""A page that would fill the window, and scrolls when the window is too low for it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QWidget


class LowWindow(QScrollArea):
    """Lay the page out in ``within``; no part gets smaller than it can be."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.within = QWidget()
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(self.within)

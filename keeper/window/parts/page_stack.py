"""A page made of several, one upon another."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QStackedWidget, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.leading import Leading


class PageStack(Leading, QStackedWidget):
    """Begins with ``first``; others join it when they are first wanted."""

    def __init__(self, desk: Desk, first: QWidget) -> None:
        super().__init__()
        self.desk = desk
        self._ways_back: dict[QWidget, Callable[[], object]] = {}
        self.addWidget(first)
        self.lead_with(first)

    def join(
        self, page: QWidget, back: Callable[[], object], by_escape: Callable[[], object] | None = None
    ) -> QWidget:
        """Take a page in: ``back`` is called when it is ``left``, and ``by_escape`` (else ``back``) for Escape."""
        page.left.connect(back)
        self._ways_back[page] = by_escape or back
        self.addWidget(page)
        return page

    def see(self, page: QWidget) -> None:
        """Show a page; what gives the stack the focus from now on gives it to that."""
        self.setCurrentWidget(page)
        self.lead_with(page)

    def turn_to(self, page: QWidget) -> None:
        """Show a page and go on there."""
        self.see(page)
        page.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        back = self._ways_back.get(self.currentWidget())
        if event.key() == Qt.Key.Key_Escape and back:
            back()
        else:
            super().keyPressEvent(event)

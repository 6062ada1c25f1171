"""A page made of several, one upon another."""

from collections.abc import Callable, Hashable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QStackedWidget, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.page import BasicPage


class PageStack(BasicPage, QStackedWidget):
    """Begins with ``first``; others join it when they are first wanted."""

    def __init__(self, desk: Desk, first: QWidget) -> None:
        super().__init__(desk.look.stage)
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

    def keep(self) -> None:
        """Let each of its pages send what is typed, seen or not."""
        for page in self._pages():
            page.keep()

    def unkept(self) -> dict[Hashable, str]:
        """What any of its pages has."""
        return {key: text for page in self._pages() for key, text in page.unkept().items()}

    def dress(self) -> None:
        """Nothing: each of its pages hears of it by itself."""

    def leave(self) -> None:
        """The page seen is left."""
        self.currentWidget().leave()

    def _pages(self) -> list[BasicPage]:
        return [self.widget(place) for place in range(self.count())]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        back = self._ways_back.get(self.currentWidget())
        if event.key() == Qt.Key.Key_Escape and back:
            back()
        else:
            super().keyPressEvent(event)

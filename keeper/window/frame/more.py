"""The way to the pages that are gone to seldom: one name in the row, a list behind it."""

from PySide6.QtWidgets import QPushButton

from keeper.window.desk.desk import Desk
from keeper.window.desk.early import FOCUS_BY_TAB, setting
from keeper.window.desk.pages import BEHIND


class More(QPushButton):
    """Opens the list of the pages that do not stand in the row; checked while one of them is seen."""

    def __init__(self, desk: Desk) -> None:
        super().__init__("More")
        self._desk = desk
        self.setProperty("page", True)
        self.setCheckable(True)
        setting(self, FOCUS_BY_TAB)
        self.setToolTip("pages one goes to seldom")
        self.clicked.connect(self._open)

    def menu_of_pages(self):
        """The list itself, a QMenu."""
        from PySide6.QtWidgets import QMenu

        made = QMenu(self)
        for page in BEHIND:
            act = made.addAction(f"{page.title}\t{page.key}" if page.key else page.title)
            act.triggered.connect(lambda _, name=page.name: self._desk.go(name))
        return made

    def nextCheckState(self) -> None:
        """A press alone opens no page: which one is seen decides."""

    def _open(self) -> None:
        menu = self.menu_of_pages()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.mapToGlobal(self.rect().bottomLeft()))
        menu.setActiveAction(menu.actions()[0])

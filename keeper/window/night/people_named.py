"""Who is named in the lines of the night shown, at the foot of its page; asked once its lines are kept."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from keeper.window.desk.desk import Desk
from keeper.window.parts.people.named import PeopleNamed

if TYPE_CHECKING:
    from keeper.window.night.page import NightPageView


class NamedOnNight(QObject):
    """Keeps the row of names up with the night."""

    def __init__(self, desk: Desk, page: "NightPageView") -> None:
        super().__init__(page)
        self._page = page
        self.named = PeopleNamed(desk)
        page.offer(self.named)
        page.night_changed.connect(lambda _: self.refresh())
        page.changed_in_sight.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Ask again."""
        if self._page.page:
            self.named.ask([line.text for line in self._page.page.night.lines])

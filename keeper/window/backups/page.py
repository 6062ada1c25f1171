"""The page of backups: the list, and within it a look inside one."""

from datetime import date

from keeper.actions.backups import Backup
from keeper.window.backups.inside import InsidePage
from keeper.window.backups.list import BackupList
from keeper.window.desk.desk import Desk
from keeper.window.parts.page_stack import PageStack


class BackupPages(PageStack):
    """Begins with the list; a look inside joins it when it is first wanted."""

    def __init__(self, desk: Desk) -> None:
        self.list = BackupList(desk)
        super().__init__(desk, self.list)
        self.inside: InsidePage | None = None
        self.list.wanted.connect(self._look_inside)
        desk.dressed.connect(self.list.dress)

    def show_night(self, night: date) -> None:
        """The list, on whatever night."""
        self.see(self.list)
        self.list.show_night(night)

    def _look_inside(self, backup: Backup) -> None:
        if self.inside is None:
            self.inside = self.join(InsidePage(self.desk), self._go_back)
            self.desk.dressed.connect(self.inside.dress)
        self.inside.look_into(backup)
        self.turn_to(self.inside)

    def _go_back(self) -> None:
        self.list.ask()
        self.turn_to(self.list)

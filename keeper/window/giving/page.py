"""The page of giving, and within it a look into an archive before it is taken in."""

from datetime import date
from pathlib import Path

from keeper.window.desk.desk import Desk
from keeper.window.giving.beside import BesideLeaf
from keeper.window.giving.give import GiveLeaf
from keeper.window.giving.receive import ReceiveLeaf
from keeper.window.parts.page_stack import PageStack


class GivingPages(PageStack):
    """Begins with what is to be given; a look into an archive joins it when it is first wanted."""

    def __init__(self, desk: Desk) -> None:
        self.give = GiveLeaf(desk)
        super().__init__(desk, self.give)
        self.receive: ReceiveLeaf | None = None
        self.give.archive_wanted.connect(self.look_into)
        self.beside: BesideLeaf | None = None
        self.give.beside_wanted.connect(self._show_beside)
        desk.dressed.connect(self.give.dress)

    def show_night(self, night: date) -> None:
        """The same on any night; what is under way stays seen."""
        if self.receive is None or not self.receive.under_way:
            self.see(self.give)

    def look_into(self, folder: Path) -> None:
        """Show what an archive would bring."""
        if self.receive is None:
            self.receive = self.join(ReceiveLeaf(self.desk), lambda: self.turn_to(self.give))
            self.desk.dressed.connect(self.receive.dress)
        self.turn_to(self.receive)
        self.receive.look_into(folder)

    def _show_beside(self) -> None:
        if self.beside is None:
            self.beside = self.join(BesideLeaf(self.desk), lambda: self.turn_to(self.give))
            self.desk.dressed.connect(self.beside.dress)
        self.turn_to(self.beside)
        self.beside.ask()

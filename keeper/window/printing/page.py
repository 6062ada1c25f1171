"""The page of what is made for paper and to send: pages to print, and within it a page to send."""

from datetime import date
from typing import TYPE_CHECKING

from keeper.window.desk.desk import Desk
from keeper.window.parts.page_stack import PageStack
from keeper.window.printing.leaf import PrintLeaf

if TYPE_CHECKING:
    from keeper.window.printing.sending import SendLeaf


class PrintingPages(PageStack):
    """Begins with pages to print; a page to send joins it when it is first wanted.

    As a thing it takes what is to be sent: "month" or "year" with "", or
    "theme", "place" or "person" with a name.
    """

    def __init__(self, desk: Desk) -> None:
        self.leaf = PrintLeaf(desk)
        super().__init__(desk, self.leaf)
        self.sending: SendLeaf | None = None
        self._night = desk.tonight()
        self.leaf.send_wanted.connect(lambda: self._send(None))
        desk.dressed.connect(self.leaf.dress)

    def show_night(self, night: date) -> None:
        """Pages to print, with the night the window is on."""
        self._night = night
        self.see(self.leaf)
        self.leaf.show_night(night)

    def show_thing(self, thing: tuple[str, str]) -> None:
        """A page to send of a thing."""
        self._send(thing)

    def _send(self, thing: tuple[str, str] | None) -> None:
        if self.sending is None:
            from keeper.window.printing.sending import SendLeaf

            self.sending = self.join(SendLeaf(self.desk), lambda: self.turn_to(self.leaf))
            self.desk.dressed.connect(self.sending.dress)
        self.sending.show_night(self._night)
        if thing:
            self.sending.choose(*thing)
        self.turn_to(self.sending)

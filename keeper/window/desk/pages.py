"""The one list of pages: the row above them, their keys, how each is made and what is brought in ahead come from it."""

from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from keeper.window.desk.desk import Desk


class Listed(NamedTuple):
    """A page of the window.

    ``name`` is how the program calls it, and what is remembered; ``title``
    stands in the row, or in the list at its end if it is ``behind``. ``made_by`` is its class, a ``Page``, as "room.page:Class"
    below the window. Its ``key`` is Ctrl and its number, or one of its own.
    One that is ``behind`` and has none is opened by that list alone.
    ``of_a_night``: going from night to night stays on it.
    """

    name: str
    title: str
    made_by: str
    key: str = ""
    of_a_night: bool = False
    behind: bool = False

    @property
    def module(self) -> str:
        """Where its class is, below the window."""
        return self.made_by.partition(":")[0]

    def make(self, desk: "Desk") -> "QWidget":
        """The page itself, a ``Page``; its module is brought in, if it is not there yet."""
        made = self.made_by.partition(":")[2]
        return getattr(import_module(f"keeper.window.{self.module}"), made)(desk)


PAGES = (
    Listed("night", "Tonight", "night.page:NightPageView", of_a_night=True),
    Listed("looking back", "Looking back", "looking_back.page:LookingBackPage", of_a_night=True),
    Listed("month", "Month", "month.page:MonthPages"),
    Listed("year", "Year", "year.page:YearPages"),
    Listed("themes", "Themes", "themes.page:ThemesPage"),
    Listed("places", "Places", "places.page:PlacesPage"),
    Listed("find", "Find", "find.page:FindPage"),
    Listed("lately", "Lately", "lately.page:LatelyPage", "Ctrl+H", behind=True),
    Listed("readings", "Readings", "readings.page:ReadingsPage", behind=True),
    Listed("sheet", "Paper", "sheet.page:SheetPage", behind=True),

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
    Listed("people", "People", "people.page:PeoplePages", behind=True),
    Listed("lately", "Lately", "lately.page:LatelyPage", "Ctrl+H", behind=True),
    Listed("readings", "Readings", "readings.page:ReadingsPage", behind=True),
    Listed("patterns", "Patterns", "patterns.page:PatternPages", behind=True),
    Listed("sheet", "Paper", "sheet.page:SheetPage", behind=True),
    Listed("printing", "Print and send", "printing.page:PrintingPages", behind=True),
    Listed("taking in", "From elsewhere", "taking_in.page:TakingInPage", behind=True),
    Listed("backups", "Backups", "backups.page:BackupPages", behind=True),
    Listed("giving", "Give and receive", "giving.page:GivingPages", behind=True),
    Listed("settings", "Settings", "settings.page:SettingsPage", "Ctrl+,", behind=True),
    Listed("mending", "Mending", "mending.page:MendingPage", behind=True),
)

LISTED = {page.name: page for page in PAGES}

NIGHT = PAGES[0].name
"""The page one writes on: the window opens on it, and what belongs to a night leads there."""

IN_ROW = tuple(page for page in PAGES if not page.behind)

BEHIND = tuple(page for page in PAGES if page.behind)
"""The pages that are gone to seldom, in their order."""

NUMBERED = tuple(page.name for page in IN_ROW if not page.key)
"""The pages that the number keys open, in their order."""

KEY_OF = {page.name: page.key or f"Ctrl+{NUMBERED.index(page.name) + 1}" for page in PAGES if page.key or not page.behind}
"""What opens each page that has a key."""

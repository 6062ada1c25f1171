"""Patterns: asking what goes with what, and further pages that look closer."""

from datetime import date
from importlib import import_module
from typing import NamedTuple

from PySide6.QtWidgets import QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.page_stack import PageStack
from keeper.window.patterns.asking import AskingPage


class Further(NamedTuple):
    """A further page, besides asking.

    ``name`` is what opens it: ``desk.go("patterns", night, name)``, or with a
    thing that its ``show_thing`` knows, ``(name, thing)``. ``title`` stands on
    the button that leads there. ``made_by`` is its class below this room, as
    "courses.page:AroundPage": made with the desk alone, a ``Page`` that has a
    signal ``left``.
    """

    name: str
    title: str
    made_by: str

    def make(self, desk: Desk) -> QWidget:
        """The page itself; its module is brought in when it is first wanted."""
        module, _, made = self.made_by.partition(":")
        return getattr(import_module(f"keeper.window.patterns.{module}"), made)(desk)


FURTHER: tuple[Further, ...] = (
    Further("around", "Around a mark", "courses.around:AroundPage"),
    Further("after", "After a mark", "courses.after:AfterPage"),
    Further("changes", "Changes", "courses.changes:ChangesPage"),
    Further("cycles", "Cycles", "courses.cycles:CyclesPage"),
    Further("trying", "Find out by trying", "trying.page:TryingPage"),
    Further("clinician", "A page for a clinician", "clinician.page:ClinicianLeaf"),
)  # fmt: skip
"""The further pages, in the order of their buttons."""


class PatternPages(PageStack):
    """Begins with asking; the others join it when they are first wanted."""

    def __init__(self, desk: Desk) -> None:
        self.asking = AskingPage(desk, FURTHER)
        super().__init__(desk, self.asking)
        self.others: dict[str, QWidget] = {}
        self.asking.further_wanted.connect(self.open)
        desk.dressed.connect(self.asking.dress)

    def show_night(self, night: date) -> None:
        """What was seen last, on whatever night."""
        self.currentWidget().show_night(night)

    def show_thing(self, thing: object) -> None:
        """A further page by its name, or by its name and what it is to show; "" is the asking."""
        name, of = thing if isinstance(thing, tuple) else (thing, None)
        self.open(name, of) if name else self._go_back()

    def open(self, name: str, thing: object = None) -> None:
        """Turn to a further page, perhaps on a thing that it knows how to show."""
        page = self._made(name)
        page.show_night(self.desk.tonight())
        if thing is not None:
            page.show_thing(thing)
        self.turn_to(page)

    def _made(self, name: str) -> QWidget:
        if name not in self.others:
            further = next(one for one in FURTHER if one.name == name)
            page = self.others[name] = self.join(further.make(self.desk), self._go_back)
            self.desk.dressed.connect(page.dress)
        return self.others[name]

    def _go_back(self) -> None:
        self.asking.refresh()
        self.turn_to(self.asking)

"""What the window asks of a page, and a base that has most of it."""

from collections.abc import Hashable
from datetime import date
from typing import Protocol, runtime_checkable

from PySide6.QtWidgets import QWidget


@runtime_checkable
class Page(Protocol):
    """A page of the window; besides, it is a widget.

    Made with the desk alone, at the first visit, by the list in
    ``desk/pages.py``. Opening one: ``leave`` of the page seen, then
    ``show_night``, perhaps ``show_thing``, then ``setFocus``.
    """

    only: frozenset[date] | None
    """The nights that stand out in the ribbon while the page is seen; None: all. When others do, ``Desk.narrowed`` tells."""

    def show_night(self, night: date) -> None:
        """At each visit, with the night the window is on; a page that knows no nights asks again for what it shows."""

    def show_thing(self, thing: object) -> None:
        """Show a thing of the page's own kind, right after ``show_night``."""

    def keep(self) -> None:
        """Send all that is typed to be written: the window closes."""

    def unkept(self) -> dict[Hashable, str]:
        """What is typed and neither on disk nor watched over by the desk, by what it is for."""

    def setFocus(self, *why: object) -> None:
        """Give the focus to the part that leads."""

    def dress(self) -> None:
        """Another palette or text size is in force."""

    def leave(self) -> None:
        """Another page comes, or another night: send what is not to wait for it."""


class BasicPage:
    """Mixed into a ``Paper`` or another widget: a page in which nothing is typed, that shows no things of its own.

    What gives it the focus gives it to the part that leads. Not by Qt's focus
    proxy: Tab would enter the page at that part each time round, and what
    lies before it could not be reached.
    """

    only: frozenset[date] | None = None
    _leading: QWidget | None = None

    def lead_with(self, part: QWidget) -> None:
        """Let this part have the focus that the page is given."""
        self._leading = part

    def setFocus(self, *why: object) -> None:
        (self._leading or super()).setFocus(*why)

    def show_thing(self, thing: object) -> None:
        """Nothing: there are no things here."""

    def keep(self) -> None:
        """Nothing: none is typed, or each field keeps its own."""

    def unkept(self) -> dict[Hashable, str]:
        """Nothing of its own; the desk knows the words of fields."""
        return {}

    def leave(self) -> None:
        """Nothing: fields keep, or put by, what is in them when the focus goes."""

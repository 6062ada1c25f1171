"""People: everybody who is marked, and a page for each."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QShowEvent

from keeper.actions import people
from keeper.window.desk.desk import Desk
from keeper.window.parts.page_stack import PageStack
from keeper.window.people.overview import PeopleOverview

if TYPE_CHECKING:
    from keeper.window.people.cards import CardsLeaf
    from keeper.window.people.person import PersonLeaf


class PeoplePages(PageStack):
    """Everybody, and each person's own page, whose nights stand out in the ribbon."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, overview := PeopleOverview(desk))
        self.overview = overview
        self._came = False
        self.person: PersonLeaf | None = None
        self.cards: CardsLeaf | None = None
        self.overview.list.opened.connect(self.show_person)
        self.overview.cards_wanted.connect(self._choose_cards)

    def show_night(self, night: date) -> None:
        """Show everybody; or the person one had open, for who comes back from a night of theirs."""
        came, self._came = self._came, False
        if came and self.person and self.currentWidget() is self.person:
            self.person.ask()
        else:
            self._narrow(None)
            self.see(self.overview)
            self.overview.ask()

    def show_thing(self, thing: str) -> None:
        """Show the person of this id, or of this name."""
        if thing:
            named = people.named(self.desk.store, thing)
            self.show_person(named.id if named else thing)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._came = self._came or not event.spontaneous()

    def show_person(self, person_id: str) -> None:
        """Show somebody's own page."""
        if self.person is None:
            # Not before it is wanted: it brings photos along.
            from keeper.window.people.person import PersonLeaf

            self.person = self.join(PersonLeaf(self.desk), self._back)
            self.person.narrowed.connect(self._narrow)
            self.person.person_wanted.connect(self.show_person)
        self.person.show_person(person_id)
        self.turn_to(self.person)

    def _choose_cards(self) -> None:
        from keeper.window.people.cards import chosen_file

        if path := chosen_file(self):
            self.show_cards(path)

    def show_cards(self, path: Path) -> None:
        """Look at a file of birthdays."""
        if self.cards is None:
            from keeper.window.people.cards import CardsLeaf

            self.cards = self.join(CardsLeaf(self.desk), self._back)
        self.turn_to(self.cards)
        self._narrow(None)
        self.cards.look_at(path)

    def _back(self) -> None:
        self._narrow(None)
        self.see(self.overview)
        self.overview.ask()
        self.overview.setFocus()

    def _narrow(self, only: frozenset | None) -> None:
        if only is not None and self.currentWidget() is not self.person:
            return
        self.only = only
        self.desk.narrowed.emit()

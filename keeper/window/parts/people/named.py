"""Who of those marked is named in what a page shows: each name leads to the person."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.model import Person
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import emptied, label, plainly, quiet_button

_MOST, _LONGEST = 12, 40


class PeopleNamed(QWidget):
    """A row of names, hidden while there is none. Nobody who rests is among them."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._errand = Errand(desk.reader)
        self.people: tuple[Person, ...] = ()
        self.buttons: list[QWidget] = []
        self._body = QVBoxLayout(self)
        self._body.setContentsMargins(0, 0, 0, 0)
        self.hide()

    def ask(self, texts: Sequence[str]) -> None:
        """Ask, in place of what was asked before, who is named in these."""
        if not texts:
            self._errand.stop()
            self._show(())
            return

        def named(store, task) -> tuple[Person, ...]:
            # Not before it is wanted: nobody needs it to type.
            from keeper.actions.one_person import page

            return page.named_in(store, texts)

        self._errand.anew(named, self._show)

    def _show(self, found: tuple[Person, ...]) -> None:
        if found != self.people:
            self.people = found
            emptied(self._body)
            self.buttons = [self._button(one) for one in found[:_MOST]]
            if self.buttons:
                self._body.addWidget(Flow(self._desk.look, label("Named here:", "quiet", wrap=False), *self.buttons, gap=0.8))
        self.setVisible(bool(found))

    def _button(self, one: Person) -> QWidget:
        name = one.names[0]
        short = name if len(name) <= _LONGEST else name[: _LONGEST - 1].rstrip() + "\u2026"
        return quiet_button(plainly(short), lambda: self._desk.go("people", None, one.id), f"Open the page of {name}")

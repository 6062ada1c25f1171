"""Who is on a photo: their names, each leading to the person; and, when asked for, everybody to be marked or not."""

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget
from shiboken6 import isValid

from keeper.actions.one_person import photos
from keeper.model import Person, Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import emptied, label, plainly, quiet_button
from keeper.window.photos.acts import while_alive

_LONGEST = 30


class WhoIsOn(QWidget):
    """A row of names; ``open_person`` is called with the id of one that is pressed."""

    def __init__(self, desk: Desk, open_person: Callable[[str], None]) -> None:
        super().__init__()
        self._desk, self._open = desk, open_person
        self._errand = Errand(desk.reader)
        self._photo: Photo | None = None
        self._known: tuple[tuple[Person, bool], ...] = ()
        self.marking = False
        self.names: list[QPushButton] = []
        self._body = QVBoxLayout(self)
        self._body.setContentsMargins(0, 0, 0, 0)

    def show_photo(self, photo: Photo) -> None:
        """Show who is on another photo."""
        if self._photo is None or photo.id != self._photo.id:
            self._photo, self.marking = photo, False
            self._show(())
        self._ask()

    def _ask(self) -> None:
        photo_id = self._photo.id
        # The view may be closed before it is known.
        self._errand.anew(lambda store, task: photos.who_is_on(store, photo_id), while_alive(self, self._show))

    def turn(self) -> None:
        """Show everybody, to be marked; or only who is on it."""
        self.marking = not self.marking
        self._show(self._known)
        if self.marking and self.names:
            self.names[0].setFocus()

    def _show(self, known: tuple[tuple[Person, bool], ...]) -> None:
        at = next((place for place, one in enumerate(self.names) if one.hasFocus()), None)
        self._known = known
        emptied(self._body)
        shown = [pair for pair in known if self.marking or (pair[1] and not pair[0].resting)]
        self.names = [self._button(*pair) for pair in shown]
        if self.names:
            word = "Press who is on it:" if self.marking else "On it:"
            self._body.addWidget(Flow(self._desk.look, label(word, "quiet", wrap=False), *self.names, gap=0.8))
        elif self.marking:
            self._body.addWidget(label("No name is marked yet; names are marked on the page of people.", "quiet"))
        if at is not None and self.names:
            self.names[min(at, len(self.names) - 1)].setFocus()

    def _button(self, one: Person, on: bool) -> QPushButton:
        name = one.names[0] if len(one.names[0]) <= _LONGEST else f"{one.names[0][: _LONGEST - 1].rstrip()}\u2026"
        if not self.marking:
            return quiet_button(plainly(name), partial(self._open, one.id), f"Open the page of {one.names[0]}")
        made = quiet_button(plainly(name), partial(self._mark, one, not on), f"{one.names[0]} is {'on it' if on else 'not on it'}")
        made.setProperty("turn", True)
        made.setCheckable(True)
        made.setChecked(on)
        return made

    def _mark(self, one: Person, on: bool) -> None:
        photo_id = self._photo.id

        def done(_: object) -> None:
            self._desk.changed.emit()
            if isValid(self) and self._photo.id == photo_id:
                self._ask()

        self._desk.write(lambda store: photos.mark(store, photo_id, one.id, on), done)

"""What a keeper without trackers offers: three, a key each, and nothing is asked if one does not want to."""

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton

from keeper.actions.readings import changing
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, quiet_button


class ReadingsOffer(Flow):
    """Begins one of the three; ``begun`` comes with its id, ``declined`` when none is wanted."""

    begun = Signal(str)
    declined = Signal()

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.buttons: list[QPushButton] = []
        for one in changing.offered(desk.tonight()):
            self.buttons.append(quiet_button(one.name, partial(self._begin, one.name), f"Note {one.name} each night"))
        others = quiet_button("something else\u2026", lambda: desk.go("readings"), "Note something else each night")
        none = quiet_button("not now", lambda: self.declined.emit(), "Note no readings now")
        self.buttons += [others, none]
        super().__init__(desk.look, label("Note each night, if you like:", "quiet", wrap=False), *self.buttons, gap=1.1)

    def _begin(self, name: str) -> None:
        # Begun on the night it is begun, though the window may have been open for days.
        tracker = next(one for one in changing.offered(self._desk.tonight()) if one.name == name)
        self._desk.write(lambda store: changing.begin(store, tracker), self._on_begun)

    def _on_begun(self, tracker) -> None:
        self._desk.changed.emit()
        self.begun.emit(tracker.id)

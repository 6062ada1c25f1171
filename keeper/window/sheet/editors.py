"""Where a cell is typed in: a reading, a line of any length, a place with what is offered for it.

Each tells by ``gone`` how many rows and columns on it goes, or None where what
was typed is given up.
"""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from keeper.model import Place
from keeper.window.parts.places.field import PlaceField
from keeper.window.parts.typing.field import Field

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QKeyEvent

    from keeper.window.parts.places.town_search import TownSearch

Keys = Qt.Key
_DOWN, _ACROSS, _BACK = (1, 0), (0, 1), (0, -1)
_ON = {Keys.Key_Return: _DOWN, Keys.Key_Enter: _DOWN, Keys.Key_Tab: _ACROSS, Keys.Key_Backtab: _BACK}
"""So many rows and columns on, by each key."""

_STAYS = (0, 0)


def _is_tab(event: QEvent) -> bool:
    return event.type() == QEvent.Type.KeyPress and event.key() in (Keys.Key_Tab, Keys.Key_Backtab)


class _Cell:
    """What the editors have in common: Tab would go to another part of the page."""

    gone: Signal

    def event(self, event: QEvent) -> bool:
        if _is_tab(event):
            self.keyPressEvent(event)
            event.accept()
            return True
        return super().event(event)

    def _leaves(self, event: "QKeyEvent") -> bool:
        """Whether a key leaves the cell; then it does."""
        plain = not event.modifiers() & ~(Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier)
        enters = event.key() in (Keys.Key_Return, Keys.Key_Enter)
        if event.key() == Keys.Key_Escape:
            self.gone.emit(None)
        elif event.key() in _ON and plain and not (enters and event.modifiers() & Qt.KeyboardModifier.ShiftModifier):
            self.gone.emit(_ON[event.key()])
        else:
            return False
        return True

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        super().focusOutEvent(event)
        if event.reason() not in (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason):
            self.gone.emit(_STAYS)


class ReadingEdit(_Cell, QLineEdit):
    """A reading: a few signs."""

    gone = Signal(object)
    changed = Signal(str)

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.textEdited.connect(self.changed)

    def begin(self, kept: str, typed: str | None) -> None:
        """Show what is kept; or only what was ``typed`` first."""
        self.setText(kept if typed is None else typed)
        self.end(False)

    def words(self) -> str:
        """What stands in it."""
        return self.text()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        if event.key() in (Keys.Key_Up, Keys.Key_Down):
            self.gone.emit((1 if event.key() == Keys.Key_Down else -1, 0))
        elif not self._leaves(event):
            super().keyPressEvent(event)


class LineEdit(_Cell, Field):
    """A line: as tall as its words, with rows of its own by Shift+Enter; up and down leave it at its ends."""

    gone = Signal(object)
    changed = Signal(str)

    def __init__(self, over: QWidget) -> None:
        super().__init__()
        self._silent = False
        self.setParent(over)
        self.textChanged.connect(self._tell)
        self.read_both_ways()

    def begin(self, kept: str, typed: str | None) -> None:
        """Show what is kept; what was ``typed`` first takes its place, and can be taken back."""
        self._silent = True
        self.put_as_kept(kept)
        self.settle()
        if typed is not None:
            self.put(typed)
        self._silent = False
        self.moveCursor(self.textCursor().MoveOperation.End)

    def _height(self) -> int:
        # With its frame.
        return super()._height() + 6

    def _tell(self) -> None:
        if not self._silent:
            self.changed.emit(self.words())

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        at_end = event.key() == Keys.Key_Down and plain and self._at_edge(down=True)
        at_begin = event.key() == Keys.Key_Up and plain and self._at_edge(down=False)
        if at_end or at_begin:
            self.gone.emit((1, 0) if at_end else (-1, 0))
        elif not self._leaves(event):
            super().keyPressEvent(event)


class PlaceEdit(_Cell, PlaceField):
    """A place, with places and towns offered by letters; ``chosen_here`` is what was settled on.

    ``known`` gives the places, each after its name as ``same_letters`` has it:
    there may be a thousand, and folding them takes longer than a key may.
    """

    gone = Signal(object)
    changed = Signal(str)

    def __init__(self, over: QWidget, known: Callable[[], Sequence[tuple[str, Place]]], towns: "Callable[[], TownSearch]") -> None:
        super().__init__(lambda: (), towns)
        self._folded = known
        self.setParent(over)
        self.chosen_here: object = None
        self.setPlaceholderText("")
        self.textEdited.connect(self.changed)
        self.chosen.connect(self._on_chosen)
        # Picked with the mouse, one is done.
        self.settled.connect(lambda: self.gone.emit(_STAYS))

    def begin(self, kept: str, typed: str | None) -> None:
        """Show what is said of the night; what was ``typed`` first takes its place."""
        self.chosen_here = None
        self.show_place(kept, kept if typed is None else "")
        if typed is not None:
            self.insert(typed)
        self.end(False)

    def words(self) -> str:
        """What was settled on, or stands in it: a name, or what can be none."""
        self.settle()
        return self.text()

    def _on_chosen(self, chosen: object) -> None:
        self.chosen_here = chosen

    def _places(self) -> Sequence[tuple[str, Place]]:
        return self._folded()

    def _put_back(self) -> None:
        # What can be no name stays in its cell, and is told of there.
        self.setModified(False)

    def put_away(self) -> None:
        """Close the list that is open."""
        if "offers" in self.__dict__:
            self.offers.popup().hide()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        enters = event.key() in (Keys.Key_Return, Keys.Key_Enter)
        opened = "offers" in self.__dict__ and self.offers.popup().isVisible()
        if enters:
            self.gone.emit(_DOWN)
        elif event.key() in (Keys.Key_Up, Keys.Key_Down) and not opened and not self.isModified():
            self.gone.emit((1 if event.key() == Keys.Key_Down else -1, 0))
        elif not self._leaves(event):
            super().keyPressEvent(event)

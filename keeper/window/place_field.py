"""Where: a known place by a few letters, or a new one by its name."""

from collections.abc import Callable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit

from keeper.actions.reading import same_letters
from keeper.model import Place

if TYPE_CHECKING:
    from PySide6.QtCore import QModelIndex
    from PySide6.QtGui import QFocusEvent, QKeyEvent
    from PySide6.QtWidgets import QCompleter

MOST = 8


class PlaceField(QLineEdit):
    """The place of a night.

    ``chosen`` comes with the name when the person has settled on one, "" when
    they took it out. ``known`` gives the places to choose from, likeliest
    first; it is asked anew each time the field is entered. ``settled`` comes
    when the person is done with the field, changed or not.
    """

    chosen = Signal(str)
    settled = Signal()

    def __init__(self, known: Callable[[], Sequence[Place]]) -> None:
        super().__init__()
        self._ask_known = known
        self._known: Sequence[Place] = ()
        self._settled = ""
        self._rows: list[str] = []
        self.setPlaceholderText("Where are you?")
        self.setAccessibleName("Place")
        self.textEdited.connect(self._offer)
        self.returnPressed.connect(self._on_return)

    @cached_property
    def offers(self) -> "QCompleter":
        """The list that opens below, made when it is first wanted."""
        from PySide6.QtCore import QModelIndex, QStringListModel
        from PySide6.QtWidgets import QCompleter

        # Not handed over with setCompleter: the field would then write each row
        # that is merely passed over into itself.
        offers = QCompleter(QStringListModel(self), self)
        offers.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        offers.setMaxVisibleItems(MOST + 1)
        offers.setWidget(self)
        offers.activated[QModelIndex].connect(self._on_picked)
        return offers

    def show_place(self, name: str) -> None:
        """Show the place that is kept, or carried on."""
        self._settled = name
        if not self.isModified() or not self.hasFocus():
            self.setText(name)
            self.setCursorPosition(0)
            self.setModified(False)

    def settle(self) -> None:
        """Take what is typed for the place: the first known one it begins, or a new one."""
        typed = " ".join(self.text().split())
        if not self.isModified():
            return
        self.setModified(False)
        matches = self._matches(typed) if typed else []
        self._take(matches[0] if matches and same_letters(matches[0]).startswith(same_letters(typed)) else typed)

    def focusInEvent(self, event: "QFocusEvent") -> None:
        super().focusInEvent(event)
        self._known = self._ask_known()

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        from PySide6.QtCore import Qt

        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.settle()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        from PySide6.QtCore import Qt

        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.setModified(False)
            self.setText(self._settled)
            self.offers.popup().hide()
        elif event.key() == Qt.Key.Key_Down and not self.offers.popup().isVisible():
            self._offer(self.text() if self.isModified() else "")
        else:
            super().keyPressEvent(event)

    def _on_return(self) -> None:
        self.settle()
        self.settled.emit()

    def _offer(self, typed: str) -> None:
        matches = self._matches(typed)
        new = " ".join(typed.split())
        self._rows = matches[:MOST]
        if new and all(same_letters(name) != same_letters(new) for name in matches):
            self._rows = [*self._rows, new]
        shown = [name if name in matches else f"{name}  (a new place)" for name in self._rows]
        self.offers.model().setStringList(shown)
        if self._rows:
            self.offers.complete()
            self.offers.popup().setCurrentIndex(self.offers.model().index(0, 0))

    def _matches(self, typed: str) -> list[str]:
        wanted = same_letters(typed)
        begun = [p.name for p in self._known if same_letters(p.name).startswith(wanted)]
        within = [p.name for p in self._known if f" {wanted}" in same_letters(p.name)]
        return list(dict.fromkeys(begun + within))

    def _on_picked(self, index: "QModelIndex") -> None:
        if 0 <= index.row() < len(self._rows):
            self.setModified(False)
            self._take(self._rows[index.row()])
            self.settled.emit()

    def _take(self, name: str) -> None:
        self.setText(name)
        self.setModified(False)
        if name != self._settled:
            self._settled = name
            self.chosen.emit(name)

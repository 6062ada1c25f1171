"""Taking back and doing again by key, wherever one is: what is being typed first, then what was done."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QWidget

from keeper.actions import opening, reading
from keeper.actions.history import undoing
from keeper.errors import KeeperError
from keeper.model import Act
from keeper.window.desk.pages import LISTED, NIGHT
from keeper.window.parts.typing.undo_keys import undo_step
from keeper.window.themes.work import ThemeWork

if TYPE_CHECKING:
    from keeper.window.frame.window import Frame

SHEET = "sheet"


class Undoing(QObject):
    """Turns what was done, goes to where it is seen, and says it."""

    def __init__(self, frame: "Frame") -> None:
        super().__init__(frame)
        self._frame, self._desk = frame, frame.desk
        self._edit: QWidget | None = None
        self._typed_in = False
        QApplication.instance().focusChanged.connect(self._on_focus)
        self._desk.turn_wanted.connect(self.turn)
        self._on_focus(None, QApplication.focusWidget())

    # what is being typed comes first

    def _on_focus(self, old: QWidget | None, now: QWidget | None) -> None:
        if old is not None and old is self._edit:
            old.removeEventFilter(self)
            if isinstance(old, QLineEdit):
                old.textEdited.disconnect(self._on_edited)
        self._edit, self._typed_in = now if isinstance(now, QLineEdit | QPlainTextEdit) else None, False
        if self._edit is not None:
            now.installEventFilter(self)
            if isinstance(now, QLineEdit):
                # What was typed there at an earlier visit is kept, and no step of now.
                now.textEdited.connect(self._on_edited)

    def _on_edited(self) -> None:
        self._typed_in = True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() not in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress) or watched is not self._edit:
            return False
        by = undo_step(event)
        if not by or not self._is_own(by):
            if by:
                event.ignore()
            return bool(by) and event.type() == QEvent.Type.ShortcutOverride
        if event.type() == QEvent.Type.KeyPress:
            self._edit.undo() if by < 0 else self._edit.redo()
        event.accept()
        return True

    def _is_own(self, by: int) -> bool:
        """Whether the field has a step of its own to take back, or to do again."""
        if isinstance(self._edit, QLineEdit):
            return self._typed_in and (self._edit.isUndoAvailable() if by < 0 else self._edit.isRedoAvailable())
        text = self._edit.document()
        return text.isUndoAvailable() if by < 0 else text.isRedoAvailable()

    # then what was done

    def step(self, by: int) -> None:
        """Take back what was done last, by whatever program (-1), or do again what was taken back (1)."""
        act, nothing = (undoing.undo, "take back") if by < 0 else (undoing.redo, "do again")
        # In its order: what is typed is done before it.
        self._frame.stack.currentWidget().keep()
        self._desk.write(act, lambda turned: self._on_turned(turned, f"There is nothing to {nothing}."))

    def turn(self, number: int) -> None:
        """Take back what was done, or do it again, whatever was done since."""
        self._desk.write(lambda store: undoing.turn(store, number), self._on_turned)

    def _on_turned(self, turned: undoing.Turned | None, nothing: str = "") -> None:
        if turned is None:
            self._desk.said.emit(nothing)
            return
        self._desk.changed.emit()
        if turned.settings:
            self._put_in_force()
        # The list shows it there too, and one may want to go on.
        if self._frame.page_shown() != "lately":
            self._go(turned.done.act)
        if turned.themes:
            ThemeWork.of(self._desk).look()
        self._desk.said.emit(turned.sentence)

    def _put_in_force(self) -> None:
        self._desk.kept.update(opening.read_settings(self._desk.store))
        for name in self._desk.kept.keys() - opening.read_settings(self._desk.store).keys():
            del self._desk.kept[name]
        self._frame.dress_anew()

    def _go(self, act: Act) -> None:
        frame = self._frame
        if act.page == NIGHT and act.night and frame.page_shown() == SHEET:
            # The sheet shows that night too, and one goes on typing there.
            frame.go(SHEET, act.night, act.night)
            return
        if act.page not in LISTED or (act.page == NIGHT and act.night is None):
            return
        thing = act.thing if act.page == "places" and self._is_known(act.thing) else None
        if thing or act.page != frame.page_shown() or (act.night and act.night != frame.night):
            frame.go(act.page, act.night, thing)
        if act.page == NIGHT:
            frame.night_page.show_part(act.thing)

    def _is_known(self, place_id: str) -> bool:
        try:
            return any(place.id == place_id for place in reading.known_places(self._desk.store))
        except KeeperError:
            return False

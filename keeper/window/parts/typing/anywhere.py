"""A page of steps whose every letter goes to the field of the step, whatever has the focus."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QWidget

_TYPED_INTO = (QLineEdit, QPlainTextEdit)


class TypedAnywhere:
    """Mixed into a scrolling page. ``field_of_step`` is where words go; None: not there yet.

    What is typed while a step is still being fetched waits, and is handed to
    its field with ``arrive``. A space at a button presses it, as ever; so no
    button has the focus first.
    """

    _waiting: str | None = None

    def field_of_step(self) -> QWidget | None:
        """The field into which words typed anywhere in the step go."""
        raise NotImplementedError

    def listen(self) -> None:
        """Begin to take letters."""
        # Else a step without its parts yet has nothing that can be typed at.
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.installEventFilter(self)
        QApplication.instance().focusChanged.connect(self._heed)

    def depart(self) -> None:
        """Another step comes: until it is there, what is typed waits."""
        self._waiting = self._waiting or ""
        if self.isVisible():
            QWidget.setFocus(self)

    def arrive(self) -> None:
        """The step is there: its field has the focus, and what was typed in the meantime."""
        early, self._waiting = self._waiting, None
        if early is None:
            return
        focus = QApplication.focusWidget()
        if self.isVisible() and (focus is None or focus is self or not self.isAncestorOf(focus)):
            self.setFocus()
        field = self.field_of_step()
        if early and field:
            _insert(field, early)

    def setFocus(self, *why: object) -> None:
        """Give the focus to the field of the step, or to the page while there is none."""
        field = None if self._waiting is not None else self.field_of_step()
        QWidget.setFocus(field or self, *why)

    def _heed(self, _: QWidget | None, now: QWidget | None) -> None:
        if now is not None and self.isAncestorOf(now):
            now.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Lead letters to the field."""
        if event.type() != QEvent.Type.KeyPress or not self._is_word(event):
            return False
        if isinstance(watched, _TYPED_INTO):
            # It may have had the focus from the first, below what there is to read.
            self.ensureWidgetVisible(watched)
            return False
        if self._waiting is not None:
            self._waiting += event.text()
            return True
        field = self.field_of_step()
        if field is None or (event.text() == " " and watched is not self):
            return False
        QWidget.setFocus(field)
        _insert(field, event.text())
        self.ensureWidgetVisible(field)
        return True

    @staticmethod
    def _is_word(event: QKeyEvent) -> bool:
        held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
        return event.text().isprintable() and event.text() != "" and not event.modifiers() & held


def _insert(field: QWidget, words: str) -> None:
    if isinstance(field, QLineEdit):
        field.insert(words)
    else:
        field.insertPlainText(words)

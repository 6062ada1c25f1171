"""One tracker's strip: its name, what was noted, and the keys that note it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QMenu, QSizePolicy, QWidget

from keeper.actions.readings import wording
from keeper.actions.readings.trackers import Noted
from keeper.window.desk.timers import once_after
from keeper.window.night.readings import painting
from keeper.window.night.readings.entry import Entry
from keeper.window.night.readings.keys_typed import at_share, stepped
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.undo_keys import undo_step

if TYPE_CHECKING:
    from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent, QMouseEvent, QPaintEvent

    from keeper.window.desk.look import Look

SENT_AFTER = 400
"""Milliseconds after the last key of what could still go on, such as the 1 of 10."""

_HELD = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
_STEPS = {Qt.Key.Key_Up: 1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: -1, Qt.Key.Key_Left: -1}


class NotedStrip(QWidget):
    """What one tracker has on the night shown.

    ``noted`` comes with what is to be kept, as it was typed; ``taken_back``
    when nothing is to be noted. ``onward`` asks for the strip so many places
    on, ``sought`` for the one with this letter, ``out`` for the words.
    ``wrong`` comes with a sentence on what is left behind and is no reading.
    ``letters`` are those that go to a tracker: here they are not typed.
    """

    noted = Signal(str)
    taken_back = Signal()
    onward = Signal(int)
    sought = Signal(str)
    out = Signal()
    wrong = Signal(str)

    def __init__(self, look: "Look", of: Noted) -> None:
        super().__init__()
        self._look = look
        self.entry = Entry(of)
        self.letters: frozenset[str] = frozenset()
        self._pause = once_after(self, SENT_AFTER, self._send)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.tell()

    @property
    def tracker_id(self) -> str:
        """Whose strip it is."""
        return self.entry.tracker.id

    def show_noted(self, of: Noted) -> None:
        """Show what is kept now; what is being typed stays."""
        if self.entry.show(of):
            self.tell()

    def tell(self) -> None:
        """Say, for eye and ear, what is noted."""
        told, asked = self.entry.told(), wording.asked(self.entry.tracker)
        self.setAccessibleName(told)
        self.setAccessibleDescription(asked)
        self.setToolTip(plain_tip(f"{told} \u00b7 {asked}"))
        self.update()

    # sending

    def keep(self) -> None:
        """Send what is typed, or could not be kept before."""
        self._send(again=True)

    def _send(self, again: bool = False) -> None:
        self._pause.stop()
        if text := self.entry.to_send(again):
            self.noted.emit(text)

    def note(self, text: str, at_once: bool = False) -> None:
        """Note what a key or the mouse sets: ``at_once``, or once the person pauses."""
        self.entry.typed.put(text)
        self._on_typed(at_once)

    def _on_typed(self, at_once: bool = False) -> None:
        self._pause.start()
        if at_once:
            self._send()
        self.tell()

    def take_back(self) -> None:
        """Let nothing be noted."""
        self._pause.stop()
        there = self.entry.reading or self.entry.waits
        self.entry.clear()
        if there:
            self.taken_back.emit()
        self.tell()

    # keys

    def event(self, event: QEvent) -> bool:
        # What is typed here is no shortcut of the window.
        if event.type() == QEvent.Type.ShortcutOverride and event.text() and not event.modifiers() & _HELD:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        if undo_step(event) < 0 and self.entry.unsent():
            self._pause.stop()
            self.entry.left()
            self.tell()
        elif event.modifiers() & _HELD or not self._took(event):
            super().keyPressEvent(event)

    def _took(self, event: "QKeyEvent") -> bool:
        key, text = Qt.Key(event.key()), event.text()
        if key in _STEPS:
            self._step(_STEPS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.onward.emit(1)
        elif key == Qt.Key.Key_Escape:
            self.out.emit()
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._rub_out(whole=key == Qt.Key.Key_Delete)
        elif key == Qt.Key.Key_Space:
            self.toggle()
        elif len(text) == 1 and text.isprintable():
            self._type(text)
        else:
            return False
        return True

    def _rub_out(self, whole: bool) -> None:
        if whole or len(self.entry.typed.text) < 2:
            self.take_back()
        else:
            self.entry.typed.drop()
            self._on_typed()

    def _type(self, letter: str) -> None:
        typed = self.entry.typed
        if letter.lower() in self.letters or not typed.takes(letter):
            # No word begins here: a letter goes to its tracker, or nowhere.
            self.sought.emit(letter.lower())
        elif typed.add(letter):
            self._on_typed(at_once=typed.over())

    def toggle(self) -> None:
        """Set a mark, or let it be a no."""
        if self.entry.tracker.form == "mark":
            now = self.entry.now()
            self.note("0" if now and now.value else "1", at_once=True)

    def _step(self, by: int) -> None:
        tracker = self.entry.tracker
        self.note(stepped(tracker, self.entry.now(), by), at_once=tracker.form == "mark")

    def focusInEvent(self, event: "QFocusEvent") -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        super().focusOutEvent(event)
        if event.reason() == Qt.FocusReason.PopupFocusReason:
            return
        if error := self.entry.wrong():
            # It stays as it was typed, to be mended.
            self.wrong.emit(str(error))
        else:
            self.keep()
            self.entry.left()
        self.tell()

    # mouse

    def mousePressEvent(self, event: "QMouseEvent") -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        spot, form = event.position(), self.entry.tracker.form
        if event.button() != Qt.MouseButton.LeftButton or spot.y() < painting.name_tall(self._look):
            return
        less, more = painting.signs(self._look, self.entry, self.size())
        if form == "mark":
            self.toggle()
        elif form == "scale":
            self.note(at_share(self.entry.tracker, min(max(spot.x() / max(1, self.width()), 0.0), 1.0)))
        elif less.contains(spot) or more.contains(spot):
            self._step(1 if more.contains(spot) else -1)

    def contextMenuEvent(self, event: "QContextMenuEvent") -> None:
        self.menu().popup(event.globalPos())

    def menu(self) -> QMenu:
        """What can be done with the reading by mouse, with the keys that do it."""
        made = QMenu(self)
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        if self.entry.tracker.form == "mark":
            made.addAction("Yes\t1").triggered.connect(lambda: self.note("1", at_once=True))
            made.addAction("No\t0").triggered.connect(lambda: self.note("0", at_once=True))
        made.addAction("Not noted\tDelete").triggered.connect(self.take_back)
        return made

    # drawing

    def sizeHint(self) -> QSize:
        return painting.size(self._look)

    def paintEvent(self, event: "QPaintEvent") -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        seen = painting.Seen(self.size(), self.hasFocus(), self.hasFocus() or self.underMouse())
        painting.paint(painter, self._look, self.entry, seen)
        painter.end()

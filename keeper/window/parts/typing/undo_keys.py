"""Which keys take back and do again, the same in every field, which moves a line, and which are words."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


def undo_step(event: "QKeyEvent") -> int:
    """-1 for the key that takes back, 1 for those that do again, 0 for any other.

    Not by Qt's list of standard keys, where Ctrl+Y is not one of them on every system.
    """
    from PySide6.QtCore import Qt

    keys, held = Qt.Key, event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    control, shift = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
    if event.key() == keys.Key_Z and held == control:
        return -1
    return 1 if (event.key(), held) in ((keys.Key_Z, control | shift), (keys.Key_Y, control)) else 0


def is_move(event: "QKeyEvent") -> bool:
    """Whether a key moves the line one is in to another night or kind."""
    from PySide6.QtCore import Qt

    return event.key() == Qt.Key.Key_M and event.modifiers() == Qt.KeyboardModifier.ControlModifier


def is_later(event: "QKeyEvent") -> bool:
    """Whether a key asks for a later word under the line it is pressed on."""
    from PySide6.QtCore import Qt

    return event.key() == Qt.Key.Key_J and event.modifiers() == Qt.KeyboardModifier.ControlModifier


def is_text(event: "QKeyEvent") -> bool:
    """Whether a key stands for something one writes; a blank alone may be meant for what it is pressed on."""
    from PySide6.QtCore import Qt

    held = event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier)
    return not held and event.text().isprintable() and bool(event.text().strip())

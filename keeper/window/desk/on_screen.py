"""How large a window may be on the screen it opens on."""

from PySide6.QtCore import QRect, QSize
from PySide6.QtWidgets import QWidget

TITLE = 40
"""Dots left for the bar that the system lays over a window that is not yet shown."""


def fitting(wanted: QSize, room: QSize) -> QSize:
    """The size wanted, no larger than the room, with its title bar on it."""
    return wanted.boundedTo(room - QSize(0, TITLE))


def drawn_in(geometry: QRect, room: QRect) -> QRect:
    """The window, made smaller and moved as far as it takes to have all of it within the room."""
    size = fitting(geometry.size(), room.size())
    left = max(room.left(), min(geometry.left(), room.right() + 1 - size.width()))
    top = max(room.top() + TITLE, min(geometry.top(), room.bottom() + 1 - size.height()))
    return QRect(left, top, size.width(), size.height())


def resize_within_screen(window: QWidget, width: int, height: int) -> None:
    """Give a window this size, or what its screen has room for."""
    window.resize(fitting(QSize(width, height), window.screen().availableGeometry().size()))

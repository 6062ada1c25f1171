"""The size and place of the window, from one time to the next."""

from PySide6.QtCore import QByteArray
from PySide6.QtWidgets import QWidget

from keeper.window.desk.look import Look


def told(window: QWidget) -> str:
    """The size and place, as they are kept."""
    return bytes(window.saveGeometry().toBase64()).decode()


def take_up(window: QWidget, look: Look, kept: str) -> None:
    """Give a window the size and place that were kept, within the screen there is now; a usual one where none were."""
    if not kept or not window.restoreGeometry(QByteArray.fromBase64(kept.encode())):
        from keeper.window.desk.on_screen import resize_within_screen

        resize_within_screen(window, look.px(76), look.px(56))
    elif not window.isMaximized() and not window.isFullScreen():
        # The screen may be a smaller one now, with a title bar above the window.
        room = window.screen().availableGeometry()
        if not room.adjusted(0, look.px(3), 0, 0).contains(window.geometry()):
            from keeper.window.desk.on_screen import drawn_in

            window.setGeometry(drawn_in(window.geometry(), room))

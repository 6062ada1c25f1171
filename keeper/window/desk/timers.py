"""Qt's timers, set up by setters.

Properties named in a constructor fail under a Turkish locale: PySide makes
the setter's name by the C library's capitals, and there "i" has another one.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer


def once_after(parent: QObject, milliseconds: int, does: Callable[[], object]) -> QTimer:
    """A timer that, each time it is started, does this once when so much time has passed."""
    made = every(parent, milliseconds, does)
    made.setSingleShot(True)
    return made


def every(parent: QObject, milliseconds: int, does: Callable[[], object]) -> QTimer:
    """A timer that, once started, does this again and again."""
    made = QTimer(parent)
    made.setInterval(milliseconds)
    made.timeout.connect(does)
    return made

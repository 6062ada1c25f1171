"""What an open window heeds: trouble, the palette and the end of the session, and signals."""

import os
import signal
import sys
from collections.abc import Callable

from PySide6.QtCore import QSocketNotifier
from PySide6.QtWidgets import QApplication

from keeper.actions import trouble
from keeper.clock import StoppedClock
from keeper.window.frame.window import Frame


def heed_the_system(app: QApplication, frame: Frame) -> None:
    """From now on, keep what is typed when the system asks, and tell of what goes wrong."""
    app.commitDataRequest.connect(lambda _: frame.keep_all())
    app.styleHints().colorSchemeChanged.connect(lambda _: frame.dress_anew())
    tell_of_trouble(frame)
    _heed_signals(frame)


def pieces_last(frame: Frame) -> list[Callable[[], object]]:
    """What comes when all else is there: the keeper goes on the list of those known, unless it is the demo."""
    return [] if isinstance(frame.desk.clock, StoppedClock) else [lambda: _note_known(frame)]


def tell_of_trouble(frame: Frame) -> None:
    """Say what nobody caught, and note it in the keeper's folder."""
    sys.excepthook = lambda kind, problem, trace: frame.say(trouble.note(frame.desk.folder, problem))


def _note_known(frame: Frame) -> None:
    from keeper.actions.keepers import known

    folder, today = frame.desk.folder.absolute(), frame.desk.clock.now().date()
    # A list that cannot be written is no trouble of this keeper's.
    frame.desk.reader.run(lambda store, task: known.note(folder, today), failed=lambda error: None)


def _heed_signals(frame: Frame) -> None:
    if not hasattr(os, "set_blocking") or sys.platform == "win32":
        return
    heard, told = os.pipe()
    os.set_blocking(heard, False)
    os.set_blocking(told, False)
    # Python runs its handlers only between its own instructions; the pipe wakes
    # Qt's loop the moment a signal comes.
    signal.set_wakeup_fd(told, warn_on_full_buffer=False)
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        signal.signal(number, lambda *_: None)
    frame.notifier = QSocketNotifier(heard, QSocketNotifier.Type.Read, frame)
    frame.notifier.activated.connect(lambda *_: frame.leave())

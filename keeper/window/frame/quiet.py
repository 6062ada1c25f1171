"""What is done while nobody types: looking for themes when that is due, and tidying."""

import time

from PySide6.QtCore import QElapsedTimer, QEvent, QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication, QStackedWidget, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import stopping
from keeper.window.desk.timers import every

_ACTS = frozenset({QEvent.Type.KeyPress, QEvent.Type.MouseButtonPress, QEvent.Type.Wheel, QEvent.Type.TouchBegin})

THEMES_AFTER, THEMES_EVERY = 20_000, 5_000
"""Milliseconds of quiet before themes are looked for by themselves, and between looks whether it is quiet."""

TIDY_AFTER = 3_000
"""Milliseconds of quiet before the keeper's folder is gone through, once."""


class Quiet(QObject):
    """Knows how long nobody has typed or clicked in a window, or gone to a page of it."""

    stirred = Signal()
    """Somebody typed, clicked or went to a page."""

    def __init__(self, window: QWidget, pages: QStackedWidget | None = None) -> None:
        super().__init__(window)
        self._since = QElapsedTimer()
        self._since.start()
        self._at = time.time()
        # On the window of the system: there every key comes by once, and little else.
        window.windowHandle().installEventFilter(self)
        if pages:
            pages.currentChanged.connect(self._on_stirred)

    def lasts(self, milliseconds: int) -> bool:
        """Whether it has been quiet so long, and nothing is asked in a dialog."""
        return self.idle(milliseconds) and not self.asked()

    def idle(self, milliseconds: int) -> bool:
        """Whether nobody has done anything so long; the time that the computer slept counts."""
        # The one clock stands still meanwhile, the other may be set back.
        return max(self._since.elapsed(), (time.time() - self._at) * 1000) >= milliseconds

    def asked(self) -> bool:
        """Whether a dialog is open that belongs to what is shown below it."""
        return QApplication.activeModalWidget() is not None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _ACTS:
            self._on_stirred()
        return False

    def _on_stirred(self) -> None:
        self._since.restart()
        self._at = time.time()
        self.stirred.emit()


class DueThemes(QObject):
    """Looks for themes by itself, when that is due and nobody has typed for a while."""

    def __init__(self, quiet: Quiet, desk: Desk) -> None:
        super().__init__(quiet)
        self._quiet, self._desk, self._news = quiet, desk, True
        desk.changed.connect(self._on_changed)
        self._timer = every(self, THEMES_EVERY, self._look_whether)
        self._timer.start()

    def _on_changed(self) -> None:
        self._news = True

    def _look_whether(self) -> None:
        if not (self._news and self._quiet.lasts(THEMES_AFTER)):
            return
        from keeper.actions.themes import asking as themes

        self._news = False
        self._desk.reader.run(lambda store, task: themes.themes_due(store), self._on_due, lambda error: None)

    def _on_due(self, due: str) -> None:
        from keeper.window.themes.work import ThemeWork

        work = ThemeWork.of(self._desk)
        if due and not work.running:
            work.look(unasked=True)


class Tidying(QObject):
    """Lets the keeper's folder be gone through once: what broken work left goes, what others could read is closed."""

    def __init__(self, quiet: Quiet, desk: Desk) -> None:
        super().__init__(quiet)
        self._quiet, self._desk = quiet, desk
        self._timer = QTimer(self)
        self._timer.setInterval(TIDY_AFTER)
        self._timer.timeout.connect(self._once)
        self._timer.start()

    def _once(self) -> None:
        if not self._quiet.lasts(TIDY_AFTER):
            return
        from keeper.actions.opening import tidy

        self._timer.stop()
        task = self._desk.darkroom.run(lambda store, task: tidy(store, task.stopped))
        self._desk.ending.connect(stopping(task))

"""Asking patterns off the window's thread: in a process of its own, with progress and a way to stop."""

from PySide6.QtCore import QObject, Signal

from keeper.actions.patterns import asking
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand


class PatternWork(QObject):
    """One asking at a time.

    ``moved`` comes with what is being done and how far it is (0 to 1), or with
    "" when nothing is; ``told`` when an asking is over.
    """

    moved = Signal(str, float)
    told = Signal()

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.desk = desk
        self._errand = Errand(desk.worker)
        desk.ending.connect(self.stop)

    @property
    def running(self) -> bool:
        """Whether an asking is under way."""
        return self._errand.under_way

    def ask(self, of_itself: bool = False) -> None:
        """Ask what takes part; what was not wanted by the person fails without a word."""
        clock = self.desk.clock
        self._errand.anew(
            lambda store, task: asking.ask_apart(store, clock, task.progress, task.stopped), lambda _: self._on_ended(),
            lambda error: self._on_failed(error, of_itself), lambda share, words: self.moved.emit(words, share),
        )  # fmt: skip
        self.moved.emit("waiting", 0.0)

    def stop(self) -> None:
        """Break off; what was told last stays."""
        if self.running:
            self._errand.stop()
            self.moved.emit("", 0.0)

    def _on_ended(self) -> None:
        self.moved.emit("", 1.0)
        self.told.emit()

    def _on_failed(self, error: KeeperError, of_itself: bool) -> None:
        self.moved.emit("", 0.0)
        if not of_itself:
            self.desk.said.emit(str(error))

"""Backups made by themselves while nobody types: once a day, and of a disk that is there again."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, QObject

from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import every
from keeper.window.frame.quiet import Quiet
from keeper.window.parts.errand import Errand

if TYPE_CHECKING:
    from keeper.actions.backups.folders import Round
    from keeper.errors import KeeperError

BACK_UP_AFTER, LOOK_EVERY = 10_000, 5_000
"""Milliseconds of quiet before a backup is begun, and between looks whether it is quiet."""

AGAIN_AFTER = 600_000
"""Milliseconds from one backup, or look whether one is due, to the next: the window may stay open for days."""


class BackingUp(QObject):
    """Lets backups be made where they are due, and gives way at once when somebody types."""

    def __init__(self, quiet: Quiet, desk: Desk) -> None:
        super().__init__(quiet)
        self._quiet, self._desk = quiet, desk
        self._work = Errand(desk.worker)
        self._news, self._wanting = True, False
        self._day: date | None = None
        self._said = ""
        self._since = QElapsedTimer()
        quiet.stirred.connect(self._give_way)
        desk.changed.connect(self._on_changed)
        desk.ending.connect(self._give_way)
        self._timer = every(self, LOOK_EVERY, self._look_whether)
        self._timer.start()

    def _on_changed(self) -> None:
        self._news = True

    def _look_whether(self) -> None:
        if self._work.under_way or not self._to_be_looked_at() or not self._quiet.lasts(BACK_UP_AFTER):
            return
        from keeper.actions.backups.folders import back_up_everywhere

        clock = self._desk.clock
        self._news, self._day = False, clock.now().date()
        self._work.anew(
            lambda store, task: back_up_everywhere(store, clock, stopped=task.stopped), self._on_done, self._on_failed
        )

    def _to_be_looked_at(self) -> bool:
        if self._since.isValid() and self._since.elapsed() < AGAIN_AFTER:
            return False
        # A disk that was not there, or was full, may be there by now.
        return self._news or self._wanting or self._day != self._desk.clock.now().date()

    def _give_way(self) -> None:
        if self._work.under_way:
            self._work.stop()
            # What was copied by then is there the next time.
            self._news = True

    def _on_done(self, came: "Round") -> None:
        self._rest(wanting=bool(came.absent) or came.failed)
        # What does not change is told once.
        if came.said and came.said != self._said:
            self._desk.said.emit(came.said)
        self._said = came.said

    def _on_failed(self, error: "KeeperError") -> None:
        self._rest(wanting=True)
        if str(error) != self._said:
            self._desk.said.emit(str(error))
        self._said = str(error)

    def _rest(self, wanting: bool) -> None:
        self._wanting = wanting
        self._since.restart()

"""Looking the keeper over once the window is there; and what becomes of a window whose keeper is found broken."""

from PySide6.QtCore import QElapsedTimer, QObject

from keeper.actions.damage import checking
from keeper.errors import KeeperError
from keeper.window.desk.lanes import stopping
from keeper.window.desk.timers import every
from keeper.window.frame.quiet import Quiet
from keeper.window.frame.window import Frame

LOOK_AFTER, LOOK_BY = 2_000, 30_000
"""Milliseconds of quiet before the look at the file, and within which it comes in any case: a page may be opened meanwhile."""

PHOTOS_AFTER = 8_000
"""Milliseconds of quiet before the day's share of the photos is read, once."""


class Soundness(QObject):
    """Has the file looked over, and in the quiet some photos; tells when something is wrong."""

    def __init__(self, frame: Frame, quiet: Quiet) -> None:
        super().__init__(frame)
        self._frame, self._desk, self._quiet = frame, frame.desk, quiet
        self._since = QElapsedTimer()
        self._since.start()
        self._look = every(self, LOOK_AFTER, self._look_over)
        self._look.start()
        self._photos = every(self, PHOTOS_AFTER, self._read_photos)
        self._photos.start()
        self._desk.damaged.connect(self._on_damaged)

    def _look_over(self) -> None:
        if not (self._quiet.idle(LOOK_AFTER) or self._since.elapsed() >= LOOK_BY):
            return
        self._look.stop()
        today = self._desk.clock.now().date()
        task = self._desk.worker.run(
            lambda store, task: checking.look_over(store, today, task.stopped), self._on_looked, self._on_failed
        )
        self._desk.ending.connect(stopping(task))

    def _on_looked(self, trouble: str) -> None:
        if trouble:
            self._desk.damaged.emit(trouble)
        elif self._desk.store.only_read:
            self._frame.say("This keeper was looked over and is whole. Close the window and open it again to write.", until_read=True)

    def _on_failed(self, error: KeeperError) -> None:
        # What can be read is shown all the same; the next opening looks again.
        self._desk.said.emit(str(error))

    def _on_damaged(self, trouble: str) -> None:
        only_reading(self._frame)
        self._frame.say(f"This keeper is damaged. {trouble} From now on nothing is written in it.", until_read=True)

    def _read_photos(self) -> None:
        if not self._quiet.lasts(PHOTOS_AFTER):
            return
        self._photos.stop()
        today = self._desk.clock.now().date()
        task = self._desk.darkroom.run(
            lambda store, task: checking.read_some_photos(store, today, task.stopped), self._tell_of_photos, lambda error: None
        )
        self._desk.ending.connect(stopping(task))

    def _tell_of_photos(self, read: checking.PhotosRead) -> None:
        if read.damaged:
            others = f" And {len(read.damaged) - 1} other photos." if len(read.damaged) > 1 else ""
            self._frame.say(f"{read.damaged[0]}{others}", until_read=True)


def only_reading(frame: Frame) -> None:
    """Let a window say for as long as it is open that nothing is kept, once."""
    from keeper.window.frame.only_reading import OnlyReading

    if frame.findChild(OnlyReading) is None:
        OnlyReading(frame)

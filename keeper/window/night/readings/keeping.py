"""Readings on their way to the disk, in their order, and how each is taken back."""

from collections.abc import Callable
from datetime import date
from functools import partial

from PySide6.QtCore import QObject, Signal

from keeper.actions.readings import noting, once
from keeper.model import Reading, Tracker
from keeper.window.desk.desk import Desk

Before = list[Reading | None]
"""What was noted before, once it is known."""


class Keeping(QObject):
    """Sends what is noted to the writer.

    ``kept`` and ``failed`` come with the night, the tracker's id and what was
    typed; ``decided`` with the night and the id of each step, what takes it back
    and what does it again; ``cautioned`` with what is said once, at the first
    reading of the body.
    """

    kept = Signal(object, str, str)
    failed = Signal(object, str, str)
    decided = Signal(object, str, object, object)
    cautioned = Signal(str)

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk

    def note(self, night: date, tracker: Tracker, text: str) -> None:
        """Keep what was typed for a tracker."""
        self._decide(night, tracker, lambda before: self._write(night, tracker, text, before))

    def take_back(self, night: date, tracker: Tracker) -> None:
        """Let nothing be noted of a tracker."""
        self._decide(night, tracker, lambda before: self._put(night, tracker, None, before))

    def _decide(self, night: date, tracker: Tracker, does: Callable[[Before], None]) -> None:
        # What was noted before is seen when it is written, after all that was sent before it.
        before: Before = []
        back = partial(self._put_back, night, tracker, before)
        self.decided.emit(night, tracker.id, back, lambda: does([]))
        does(before)

    def _write(self, night: date, tracker: Tracker, text: str, before: Before) -> None:
        def note(store) -> str:
            before.append(noting.noted(store, night, tracker.id))
            noting.note(store, night, tracker.id, text, self._desk.clock)
            return once.caution(store, [tracker])

        def failed(error: Exception) -> None:
            self.failed.emit(night, tracker.id, text)
            self._desk.said.emit(str(error))

        self._desk.write(note, partial(self._on_kept, night, tracker, text), failed)

    def _on_kept(self, night: date, tracker: Tracker, text: str, caution: str) -> None:
        self.kept.emit(night, tracker.id, text)
        self._desk.changed.emit()
        if caution:
            self.cautioned.emit(caution)

    def _put(self, night: date, tracker: Tracker, reading: Reading | None, before: Before) -> None:
        def put(store) -> None:
            before.append(noting.noted(store, night, tracker.id))
            noting.put_back(store, night, tracker.id, reading)

        self._desk.write(put, lambda _: self._desk.changed.emit())

    def _put_back(self, night: date, tracker: Tracker, before: Before) -> None:
        def put(store) -> None:
            # Where it never came to be written there is nothing to take back.
            if before:
                noting.put_back(store, night, tracker.id, before[0])

        self._desk.write(put, lambda _: self._desk.changed.emit())

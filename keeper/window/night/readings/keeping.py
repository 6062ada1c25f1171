"""Readings on their way to the disk, in their order."""

from datetime import date
from functools import partial

from PySide6.QtCore import QObject, Signal

from keeper.actions.readings import noting, once
from keeper.model import Tracker
from keeper.window.desk.desk import Desk


class Keeping(QObject):
    """Sends what is noted to the writer.

    ``kept`` and ``failed`` come with the night, the tracker's id and what was
    typed; ``cautioned`` with what is said once, at the first reading of the body.
    """

    kept = Signal(object, str, str)
    failed = Signal(object, str, str)
    cautioned = Signal(str)

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk

    def note(self, night: date, tracker: Tracker, text: str) -> None:
        """Keep what was typed for a tracker."""

        def note(store) -> str:
            noting.note(store, night, tracker.id, text, self._desk.clock)
            return once.caution(store, [tracker])

        def failed(error: Exception) -> None:
            self.failed.emit(night, tracker.id, text)
            self._desk.said.emit(str(error))

        self._desk.write(note, partial(self._on_kept, night, tracker, text), failed)

    def take_back(self, night: date, tracker: Tracker) -> None:
        """Let nothing be noted of a tracker."""
        self._desk.write(lambda store: noting.take_back(store, night, tracker.id), lambda _: self._desk.changed.emit())

    def _on_kept(self, night: date, tracker: Tracker, text: str, caution: str) -> None:
        self.kept.emit(night, tracker.id, text)
        self._desk.changed.emit()
        if caution:
            self.cautioned.emit(caution)

"""Letting photos in: a few for the night shown, many each to its own."""

from datetime import date
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.photos.files import FILES
from keeper.window.photos.coming import Source
from keeper.window.photos.taking import Batch

MANY = 60
"""More at once than this are sorted to their own nights."""


class Intake(QObject):
    """Takes in what comes, and tells how far it is.

    ``told`` brings a few words, "" at the end; ``step`` comes after each
    photo, ``done`` with the Batch after the last.
    """

    told = Signal(str)
    step = Signal()
    done = Signal(object)

    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self._desk = desk
        self._over = over
        self.bringing = None

    def take(self, sources: list[Source], night: date, anyway: bool = False) -> None:
        """Take in what was dropped, pasted or chosen, for a night; ``anyway`` what is cut short too."""
        if len(sources) > MANY:
            self.bring_many(sources)
        elif sources:
            self.told.emit("Taking it in\u2026" if len(sources) == 1 else f"Taking in 1 of {len(sources)}\u2026")
            Batch(self._desk, night, sources, self._on_step, self._on_taken, anyway)

    def _on_step(self, batch: Batch) -> None:
        self.told.emit(f"Taking in {batch.over + 1} of {batch.count}\u2026")
        self.step.emit()

    def _on_taken(self, batch: Batch) -> None:
        self.told.emit("")
        if batch.taken:
            self._desk.changed.emit()
        if sentence := batch.sentence():
            self._desk.said.emit(sentence)
        self.done.emit(batch)
        if batch.folders:
            self.bring_many(batch.folders)

    def choose(self, night: date) -> None:
        """Ask which files, and take them in for a night."""
        pictures = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.PicturesLocation)
        names, _ = QFileDialog.getOpenFileNames(self._over, "Add photos", pictures, FILES)
        self.take([Path(name) for name in names], night)

    def bring_many(self, sources: list[Path] | None = None) -> None:
        """Open the small window that sorts many photos to their nights."""
        from keeper.window.photos.many import BringPhotos

        self.bringing = self.bringing or BringPhotos(self._desk, self._over.window())
        self.bringing.come_forward(sources or [])

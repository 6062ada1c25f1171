"""Bringing pages of a notebook: chosen on this computer, or dropped on the sheet; in the background."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QMenu, QPushButton, QWidget

from keeper.actions.scans import bringing
from keeper.actions.scans.bringing import FILES, Came
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand

_FILES = f"Pages ({' '.join(f'*.{ending}' for ending in FILES)});;All files (*)"


class Bringing(QObject):
    """Brings pages for a span of nights, and says what became of them."""

    def __init__(self, desk: Desk, over: QWidget, button: QPushButton) -> None:
        super().__init__(over)
        self._desk, self._over, self._button, self._words = desk, over, button, button.text()
        self._errand = Errand(desk.darkroom)
        desk.ending.connect(self._errand.stop)

    @property
    def under_way(self) -> bool:
        """Whether pages are being brought."""
        return self._errand.under_way

    def ask(self, first: date, last: date) -> None:
        """Ask where the pages are: files, or a folder; while some are being brought, stop."""
        if self.under_way:
            self._stop()
            return
        menu = QMenu(self._over)
        menu.addAction("Photos, scans or a PDF\u2026", lambda: self._files(first, last))
        menu.addAction("A folder\u2026", lambda: self._folder(first, last))
        menu.exec(self._button.mapToGlobal(self._button.rect().bottomLeft()))

    def _files(self, first: date, last: date) -> None:
        names, _ = QFileDialog.getOpenFileNames(self._over, "Pages of the notebook", "", _FILES)
        self.bring([Path(name) for name in names], first, last)

    def _folder(self, first: date, last: date) -> None:
        name = QFileDialog.getExistingDirectory(self._over, "A folder with pages of the notebook")
        self.bring([Path(name)] if name else [], first, last)

    def bring(self, sources: Sequence[Path], first: date, last: date) -> None:
        """Bring the pages of these files and folders, and lay them along the nights."""
        if not sources or self.under_way:
            return
        clock = self._desk.clock
        self._button.setText("Stop bringing")
        self._errand.anew(
            lambda store, task: bringing.bring(store, sources, first, last, clock, task.progress, task.stopped),
            self._on_came, self._on_failed, lambda share, words: self._desk.said.emit(f"{share:.0%} {words}"),
        )  # fmt: skip

    def _stop(self) -> None:
        self._errand.stop()
        self._button.setText(self._words)
        self._desk.said.emit("Stopped; no page was brought.")

    def _on_came(self, came: Came) -> None:
        self._button.setText(self._words)
        self._desk.said.emit(came.sentence)
        self._desk.changed.emit()

    def _on_failed(self, error: KeeperError) -> None:
        self._button.setText(self._words)
        self._desk.said.emit(str(error))

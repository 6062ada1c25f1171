"""Saving all that was found: asked where, made in the background, to be stopped by the same button."""

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog, QPushButton

from keeper.actions.finding import Sought
from keeper.errors import KeeperError, shown_name
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand

SAVE, STOP = "Save all\u2026", "Stop saving"

_KINDS = {"Page to print (*.pdf)": ".pdf", "Spreadsheet (*.xlsx)": ".xlsx", "Table (*.csv)": ".csv", "Text (*.txt)": ".txt",
          "Page for a browser (*.html)": ".html"}  # fmt: skip


class SaveFound(QPushButton):
    """The button, and what it does with the search that is shown."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(SAVE)
        self._desk = desk
        self._errand = Errand(desk.worker)
        self.sought = Sought()
        self.setProperty("quiet", True)
        self.setAutoDefault(True)
        self.setAccessibleName("Save all that was found: as a page to print, a spreadsheet, a table or a text")
        self.clicked.connect(lambda: self._stop() if self._errand.under_way else self._ask())

    def _ask(self) -> None:
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        offered = str(Path(documents or Path.home()) / "found.pdf")
        name, kind = QFileDialog.getSaveFileName(self.window(), "Save what was found", offered, ";;".join(_KINDS))
        if name:
            self.save(Path(name) if Path(name).suffix else Path(f"{name}{_KINDS.get(kind, '.pdf')}"))

    def save(self, target: Path) -> None:
        """Put all that was found into a file."""
        from keeper.actions.sending.found import put_found

        sought = self.sought
        self._errand.anew(
            lambda store, task: put_found(store, sought, target, task.progress, task.stopped), self._on_saved, self._on_unsaved
        )
        self.setText(STOP)

    def _stop(self) -> None:
        self._errand.stop()
        self._end("Stopped; nothing was saved.")

    def _on_saved(self, made) -> None:
        self._end(" ".join((f"Saved as {shown_name(made.path)}.", *made.left_out)))

    def _on_unsaved(self, error: KeeperError) -> None:
        self._end(str(error))

    def _end(self, told: str) -> None:
        self.setText(SAVE)
        self._desk.said.emit(told)

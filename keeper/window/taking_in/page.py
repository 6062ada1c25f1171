"""The page on which a file is chosen and read in; below it the in-tray."""

from datetime import date
from itertools import pairwise
from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QShowEvent
from PySide6.QtWidgets import QFileDialog, QVBoxLayout

from keeper.exchange.odd_files import ENDINGS
from keeper.window.desk.desk import Desk
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal
from keeper.window.parts.small import Paper, label, quiet_button, row, rule
from keeper.window.taking_in.one_file import OneFile
from keeper.window.taking_in.tray_box import TrayBox
from keeper.window.taking_in.written import HowWritten

INTRODUCTION = (
    "A table, a spreadsheet, a text or Markdown with dates, a calendar, a list in JSON, or a folder of texts. "
    "It is looked at first; nothing is written before you say so, and the file stays as it is. It can also be dropped here."
)
_WIDE = 66


class TakingInPage(BasicPage, Paper):
    """From top to bottom: which file; what is known of it; the in-tray."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, _WIDE)
        self.desk = desk
        self.file: OneFile | None = None
        self._written: HowWritten | None = None
        self._coming = Piecemeal(self)
        self.choose = quiet_button("Choose a file\u2026", self._choose, "Choose a file to read in")
        self.choose_folder = quiet_button("Choose a folder of texts\u2026", self._choose_folder)
        self.tray = TrayBox(desk)
        self._room = QVBoxLayout()
        self._lay_out()
        self.setAcceptDrops(True)
        self.viewport().setAcceptDrops(True)
        self.lead_with(self.choose)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.body.addWidget(label("What you wrote elsewhere", "head"))
        self.body.addWidget(label(INTRODUCTION, "quiet"))
        self.body.addLayout(row(self.choose, self.choose_folder, None, gap=px(1)))
        self.body.addLayout(self._room)
        self.body.addSpacing(px(1))
        self.body.addWidget(rule())
        self.body.addSpacing(px(0.6))
        self.body.addWidget(self.tray)
        self.body.addStretch(1)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self.file is None:
            # The page is seen first.
            self._coming.begin([self._how_written, self._the_file])

    def _how_written(self) -> HowWritten:
        if self._written is None:
            self._written = HowWritten(self.desk.look)
        return self._written

    def _the_file(self) -> OneFile:
        if self.file is None:
            self.file = OneFile(self.desk, self._how_written())
            self.file.held.connect(self._hold)
            self.file.was_kept.connect(self._on_kept)
            self._room.addWidget(self.file)
            for before, after in pairwise((self.file.rows, self.tray.take, self.tray.choose, self.tray.drop)):
                self.setTabOrder(before, after)
        return self.file

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        if self.file:
            self.file.fit()

    def show_night(self, night: date) -> None:
        """The same on any night; what a file would bring is asked again."""
        self.tray.ask()
        if self.file:
            self.file.weigh_again()

    def look_at(self, path: Path) -> None:
        """Look at a file or a folder."""
        self._the_file().look_at(path)

    def _hold(self, keeping: bool) -> None:
        for part in (self.choose, self.choose_folder):
            part.setEnabled(not keeping)

    def _on_kept(self) -> None:
        if self.isVisible():
            # Not on what undoes it all: Enter may be pressed once more.
            self.choose.setFocus()
            self.ensureWidgetVisible(self.choose)

    # which file

    def _choose(self) -> None:
        home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        kinds = f"Tables, texts, calendars ({' '.join(f'*{ending}' for ending in ENDINGS)});;All files (*)"
        named, _ = QFileDialog.getOpenFileName(self, "A file to read in", home, kinds)
        if named:
            self.look_at(Path(named))

    def _choose_folder(self) -> None:
        home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        if named := QFileDialog.getExistingDirectory(self, "A folder of texts to read in", home):
            self.look_at(Path(named))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """One file or folder of this computer can be dropped."""
        if len(_dropped(event)) == 1 and not (self.file and self.file.keeping):
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragEnterEvent) -> None:
        self.dragEnterEvent(event)

    def dropEvent(self, event: QDropEvent) -> None:
        if files := _dropped(event):
            event.acceptProposedAction()
            self.look_at(files[0])


def _dropped(event) -> list[Path]:
    return [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]

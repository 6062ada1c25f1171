"""Printing a month: one page as a PDF, to stick into a notebook."""

from datetime import date
from pathlib import Path
from threading import Event

from PySide6.QtCore import QStandardPaths, Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QVBoxLayout,
    QWidget,
)

from keeper.actions.paper import making as book
from keeper.actions.paper.making import BookMade, BookParts
from keeper.errors import KeeperError, Stopped, shown_name
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Task
from keeper.window.paper.book_parts import SIZE_NAMES
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label, plain_button, row

TOLD = (
    "The month on a single page: its photo, its question, where it was spent, and the lines chosen for it. "
    "Where there is little room, it is set smaller, then the readings go, and last some of the lines."
)
STOPPED = "Stopped; no page was made."


class MonthPrintDialog(QDialog):
    """How the page is to be, then how far it is, then where it lies. ``saved`` says where."""

    def __init__(self, desk: Desk, month: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk, self.month = desk, month
        self.saved: Path | None = None
        self._under_way: Event | None = None
        self.setWindowTitle(f"{wording.month_and_year(month)} on one page")
        self.size_of_page = Choice(desk.look, "Size of the page")
        for size, words in SIZE_NAMES.items():
            self.size_of_page.addItem(words, size)
        self.small = QCheckBox("Photo at 50 \u00d7 76 mm")
        self.small.setAccessibleDescription("The photo as a small print, instead of as large as fits")
        # What may be left out, so that there is room for the lines.
        self.boxes = {"themes": QCheckBox("Themes"), "readings": QCheckBox("Readings")}
        for box in self.boxes.values():
            box.setChecked(True)
        self.bar, self.told = QProgressBar(), label("", "quiet")
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("Progress")
        self._lay_out()
        self._show_working(False)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        self.form = QWidget()
        form = QVBoxLayout(self.form)
        form.setContentsMargins(0, 0, 0, 0)
        form.setSpacing(px(0.5))
        form.addWidget(label(TOLD, "quiet"))
        form.addLayout(row(label("Page", "quiet", wrap=False), self.size_of_page, None, gap=px(1.2)))
        for box in (self.small, *self.boxes.values()):
            form.addLayout(row(box, None))
        for part in (self.form, self.bar, self.told):
            layout.addWidget(part)
        layout.addStretch(1)
        layout.addLayout(self._buttons())
        self.setMinimumWidth(px(30))

    def _buttons(self) -> QHBoxLayout:
        self.leave = plain_button("Close", self.reject)
        self.stop = plain_button("Stop", self.stop_making)
        self.open_folder = plain_button("Open the folder", self.show_folder)
        self.save = plain_button("Save\u2026", self.ask_where)
        return row(None, self.leave, self.stop, self.open_folder, self.save)

    def _show_working(self, working: bool) -> None:
        for part in (self.bar, self.stop):
            part.setVisible(working)
        for part in (self.form, self.leave, self.save):
            part.setVisible(not working)
        self.open_folder.setVisible(self.saved is not None and not working)
        self.stop.setEnabled(True)
        self.told.setVisible(bool(self.told.text()))
        (self.stop if working else self.save).setFocus()

    def parts(self) -> BookParts:
        """What was chosen."""
        chosen = {part: box.isChecked() for part, box in self.boxes.items()}
        return BookParts(lines="chosen", answers=False, size=self.size_of_page.currentData(), **chosen)

    # making

    def ask_where(self) -> None:
        """Ask where the page is to lie, and make it."""
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        offered = str(Path(documents or Path.home()) / f"{self.month.isoformat()[:7]}.pdf")
        name, _ = QFileDialog.getSaveFileName(self, "Save the page", offered, "PDF (*.pdf)")
        if name:
            self.make(Path(name) if Path(name).suffix else Path(f"{name}.pdf"))

    def make(self, target: Path) -> None:
        """Make the page in the background and put it there."""
        self.saved, self._under_way = None, Event()
        month, parts = self.month, self.parts()
        small, stopped, clock = self.small.isChecked(), self._under_way.is_set, self.desk.clock

        def work(store, task: Task) -> BookMade | None:
            try:
                return book.make_month_sheet(store, month, target, clock, parts, small, task.progress, stopped)
            except Stopped:
                return None

        self._heard(0, "Gathering the month")
        self._show_working(True)
        self.desk.worker.run(work, self._made, self._failed, self._heard)

    def _heard(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.told.setText(words)

    def stop_making(self) -> None:
        """Ask the making to break off; what came of it is then told."""
        if self._under_way:
            self._under_way.set()
            self.stop.setEnabled(False)

    def _made(self, made: BookMade | None) -> None:
        self.saved = made.path if made else None
        # Themes may have been looked for.
        self.desk.changed.emit()
        told = (f"Saved as {shown_name(made.path)}.", *made.left_out) if made else (STOPPED,)
        self._end(" ".join(told))

    def _failed(self, error: KeeperError) -> None:
        self._end(str(error))

    def _end(self, sentence: str) -> None:
        self._under_way = None
        self.told.setText(sentence)
        self._show_working(False)

    def show_folder(self) -> None:
        """Open the folder in which the page lies."""
        if self.saved:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.saved.parent)))

    # leaving

    def reject(self) -> None:
        """Leave; Escape while the page is made stops it first."""
        if self._under_way:
            self.stop_making()
        else:
            self.done(QDialog.DialogCode.Accepted if self.saved else QDialog.DialogCode.Rejected)

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.save.isVisible() and not self.leave.hasFocus():
            self.ask_where()
        else:
            super().keyPressEvent(event)

"""Making the book of a year: its parts, the making, and leafing through it before it is saved."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QStandardPaths, Qt, QUrl
from PySide6.QtGui import QCloseEvent, QDesktopServices
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from keeper.actions.opening import passing_folder
from keeper.actions.paper import making as book
from keeper.errors import KeeperError, shown_name
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Task
from keeper.window.paper.book_parts import BookPartsForm
from keeper.window.paper.preview import BookPreview
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import label, plain_button, row

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

_DOTS_PER_INCH = 104.0
"""Of the pictures of the pages: an A5 page then is some 860 pixels high."""


class BookDialog(QDialog):
    """The parts of a year's book, then its progress, then its pages.

    ``exec()`` returns 1 when the book was saved; ``saved`` says where.
    """

    def __init__(self, desk: Desk, year: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.year = year
        self.saved: Path | None = None
        self._proof: book.Proof | None = None
        self._errand = Errand(desk.worker)
        self._folder: TemporaryDirectory[str] | None = None
        self.setWindowTitle(f"The book of {year}")
        self._faces = QStackedWidget()
        self.parts, self.preview = BookPartsForm(desk.look, year), BookPreview(desk.look)
        self.bar, self.told = QProgressBar(), label("", "quiet")
        for face in (self.parts, self._working(), self.preview):
            self._faces.addWidget(face)
        layout = QVBoxLayout(self)
        px = desk.look.px
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        layout.addWidget(self._faces, 1)
        layout.addWidget(self.told)
        layout.addLayout(self._buttons())
        self.told.hide()
        self._show(self.parts)

    def _working(self) -> QWidget:
        face = QWidget()
        self.doing = label("", "plain")
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("Progress")
        inside = QVBoxLayout(face)
        inside.addStretch(1)
        inside.addWidget(self.doing)
        inside.addWidget(self.bar)
        inside.addStretch(1)
        return face

    def _buttons(self) -> QHBoxLayout:
        self.leave = plain_button("Close", self.reject)
        self.make = plain_button("Make the book", self.make_book)
        self.stop = plain_button("Stop", self.stop_making)
        self.change = plain_button("Change the contents", lambda: self._show(self.parts))
        self.open_folder = plain_button("Open the folder", self.show_folder)
        self.save = plain_button("Save\u2026", self.save_book)
        return row(None, self.leave, self.stop, self.change, self.open_folder, self.save, self.make)

    def _show(self, face: QWidget) -> None:
        self._faces.setCurrentWidget(face)
        choosing, leafing = face is self.parts, face is self.preview
        for button, seen in (
            (self.leave, choosing or leafing), (self.make, choosing), (self.stop, not (choosing or leafing)),
            (self.change, leafing), (self.save, leafing), (self.open_folder, leafing),
        ):  # fmt: skip
            button.setVisible(seen)
        self.open_folder.setEnabled(self.saved is not None)
        (self.make if choosing else self.preview if leafing else self.stop).setFocus()

    # making

    def make_book(self) -> None:
        """Make the book of the parts chosen, in the background."""
        self._let_go()
        self.saved = None
        self._tell("")
        try:
            self._folder = passing_folder(self.desk.store)
        except KeeperError as error:
            self._tell(str(error))
            return
        folder, parts, year = Path(self._folder.name), self.parts.parts(), self.year
        dots, clock = _DOTS_PER_INCH * self.devicePixelRatioF(), self.desk.clock

        def work(store, task: Task) -> book.Proof:
            proof = book.proof_book(
                store, year, parts, folder, clock, lambda s, w: task.progress(s * 0.7, w), task.stopped
            )
            task.progress(0.7, f"Drawing {wording.counted(proof.pages, 'page')} to look at")
            book.picture_pages(proof, dots)
            return proof

        self.bar.setValue(0)
        self.doing.setText("Gathering the year")
        self._faces.setCurrentIndex(1)
        self._show(self._faces.currentWidget())
        self._errand.anew(work, self._made, self._failed, self._heard)

    def _heard(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.doing.setText(words)

    def _made(self, proof: book.Proof) -> None:
        self._proof = proof
        # Themes may have been looked for.
        self.desk.changed.emit()
        self.preview.show_pages(proof.pictures)
        self._tell(" ".join(proof.left_out))
        self._show(self.preview)
        self._grow()

    def _grow(self) -> None:
        px, room = self.desk.look.px, self.screen().availableSize()
        wide, high = min(px(66), room.width() * 9 // 10), min(px(54), room.height() * 9 // 10)
        self.resize(max(self.width(), wide), max(self.height(), high))

    def _failed(self, error: KeeperError) -> None:
        self._tell(str(error))
        self._show(self.parts)

    def stop_making(self) -> None:
        """Break the making off; nothing is left of it."""
        self._errand.stop()
        self._let_go()
        self._tell("Stopped; no book was made.")
        self._show(self.parts)

    # keeping

    def save_book(self) -> None:
        """Put the book where the person says."""
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        offered = str(Path(documents or Path.home()) / f"{self.year}.pdf")
        name, _ = QFileDialog.getSaveFileName(self, "Save the book", offered, "PDF (*.pdf)")
        if name and self._proof:
            self._save(Path(name) if Path(name).suffix else Path(f"{name}.pdf"))

    def _save(self, target: Path) -> None:
        proof = self._proof
        self.save.setEnabled(False)
        self.desk.worker.run(lambda store, task: book.save(proof, target), self._on_saved, self._on_unsaved)

    def _on_saved(self, made: book.BookMade) -> None:
        self.saved = made.path
        self.save.setEnabled(True)
        self.open_folder.setEnabled(True)
        self._tell(f"Saved as {shown_name(made.path)}, {wording.counted(made.pages, 'page')}.")

    def _on_unsaved(self, error: KeeperError) -> None:
        self.save.setEnabled(True)
        self._tell(str(error))

    def show_folder(self) -> None:
        """Open the folder in which the book was saved."""
        if self.saved:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.saved.parent)))

    # leaving

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.setVisible(bool(sentence))

    def _let_go(self) -> None:
        self._proof = None
        self.preview.show_pages(())
        if self._folder:
            # Behind whatever is still writing into it.
            folder, self._folder = self._folder, None
            self.desk.worker.run(lambda store, task: folder.cleanup())

    def reject(self) -> None:
        """Leave; Escape while the book is made stops it first."""
        if self._errand.under_way:
            self.stop_making()
            return
        self._let_go()
        self.done(QDialog.DialogCode.Accepted if self.saved else QDialog.DialogCode.Rejected)

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._errand.under_way:
            self.stop_making()
        self._let_go()
        super().closeEvent(event)

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._faces.currentWidget() is self.parts:
            self.make_book()
        else:
            super().keyPressEvent(event)

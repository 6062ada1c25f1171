"""What is to be given, and giving it."""

from datetime import date
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QCheckBox, QFileDialog

from keeper.actions.giving.making import give
from keeper.actions.giving.outcome import Given
from keeper.actions.giving.wanted import ToGive, free_place, held_back
from keeper.errors import KeeperError, UnreadableDate, shown_name
from keeper.exchange.archive.one_file import ENDING
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.giving import wording as giving_wording
from keeper.window.giving.cut_off import CutOffTold
from keeper.window.giving.parts import PartsForm
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, label, quiet_button, row, rule
from keeper.window.parts.typing.date_edit import DateEdit, span_told


class GiveLeaf(BasicPage, Paper):
    """The parts, the nights, what is held back; then a folder. ``archive_wanted`` tells into which one is to be looked.

    ``beside_wanted``: what came with archives and differs is to be shown.
    """

    archive_wanted = Signal(object)
    beside_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.given: Given | None = None
        self._work = Errand(desk.worker)
        self.parts = PartsForm(desk.look)
        self.first, self.last = DateEdit(desk, "From, the first night"), DateEdit(desk, "To, the last night")
        self.resting, self.positions = QCheckBox("What rests"), QCheckBox("Positions")
        self.one_file = QCheckBox("In one file (.zip)")
        self.held, self.told = label("", "quiet"), label("", "plain")
        self.go = quiet_button("Give to a folder\u2026", self._choose)
        self.stop = quiet_button("Stop", self._stop)
        self.open_folder = quiet_button("Open the folder", self._open_folder)
        self.take = quiet_button("Take in an archive\u2026", self._choose_archive)
        self.take_file = quiet_button("Take in one file\u2026", self._choose_file, "Take in an archive that lies in one file")
        self.beside = quiet_button("Kept beside \u203a", self.beside_wanted.emit, "What came and differs")
        self.cut_off = CutOffTold(desk, self.open_folder)
        self.setAccessibleName("Give and receive")
        self._lay_out()
        # Only now: a label without a place on the page would be a window of its own.
        for edit in (self.first, self.last):
            edit.textChanged.connect(lambda _: self._follow())
        for box in (self.resting, self.positions, *self.parts.boxes.values()):
            box.toggled.connect(lambda _: self._follow())
        self._follow()
        self._show_work(None)
        self.lead_with(self.go)
        desk.ending.connect(self._stop)

    def _lay_out(self) -> None:
        px, body = self.desk.look.px, self.body
        for edit, hint in ((self.first, "from the first night"), (self.last, "to the last night")):
            edit.setPlaceholderText(hint)
            edit.setMaximumWidth(px(16))
        self.positions.setAccessibleDescription("Coordinates of places and photos, in the photos\u2019 own notes too")
        for box in (self.resting, self.positions):
            box.setChecked(True)
        body.addWidget(label("Give and receive", "head"))
        body.addWidget(label(giving_wording.HOW, "quiet"))
        body.addSpacing(px(0.6))
        body.addWidget(self.parts)
        body.addSpacing(px(0.4))
        self.one_file.setAccessibleDescription("To carry or to send; without it, a folder of files")
        for words, its in (("Nights", (self.first, self.last)), ("With", (self.resting, self.positions)), ("As", (self.one_file,))):
            named = label(words, "quiet", wrap=False)
            named.setMinimumWidth(px(4))
            body.addLayout(row(named, *its, None, gap=px(1)))
        body.addWidget(self.held)
        body.addSpacing(px(0.4))
        body.addLayout(row(self.go, self.stop, self.open_folder, None, gap=px(1)))
        body.addWidget(self.told)
        body.addSpacing(px(1))
        body.addWidget(rule())
        body.addSpacing(px(0.6))
        body.addWidget(self.cut_off)
        body.addWidget(label(giving_wording.RECEIVE, "quiet"))
        body.addWidget(Flow(self.desk.look, self.take, self.take_file, self.beside, gap=1))
        body.addStretch(1)

    def show_night(self, night: date) -> None:
        """The same on any night."""

    # what is wanted

    def wanted(self) -> ToGive:
        """What was chosen. Raises UnreadableDate."""
        first, last = self.first.meant(), self.last.meant()
        return ToGive(
            self.parts.chosen(), first.first if first else None, last.last if last else None,
            self.resting.isChecked(), self.positions.isChecked(),
        )  # fmt: skip

    def _follow(self) -> None:
        span = span_told(self.first, self.last, "from", "to")
        try:
            held = " ".join(one.sentence for one in held_back(self.wanted()))
        except UnreadableDate:
            held = ""
        told = f"{span}." if span and not span.endswith(".") else span
        self.held.setText(" ".join(filter(None, (told, held))))
        self.held.setVisible(bool(self.held.text()))

    # giving

    def _choose(self) -> None:
        try:
            wanted = self.wanted()
        except UnreadableDate as error:
            self._end(str(error))
            return
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        chosen = QFileDialog.getExistingDirectory(self, "Give to a folder", documents or str(Path.home()))
        if chosen:
            self.give_to(Path(chosen), wanted)

    def give_to(self, folder: Path, wanted: ToGive) -> None:
        """Give what is wanted, as a new folder, or one file, within this one."""
        self.given = None
        self.desk.keeping.emit()
        clock, ending = self.desk.clock, ENDING if self.one_file.isChecked() else ""

        def work(store, task) -> Given:
            return give(store, free_place(folder, clock.now().date(), ending), wanted, clock, task.progress, task.stopped)

        self._show_work("Under way\u2026")
        # Behind all that is still to be written.
        self.desk.write(lambda store: None, lambda _: self._work.anew(work, self._made, self._fail, self._hear))

    def _hear(self, share: float, words: str) -> None:
        self.told.setText(f"{words}: {wording.percent(share)}")

    def _made(self, given: Given) -> None:
        self.given = given
        self._end(f"{given.sentence} {wording.size(given.bytes)}, in {shown_name(given.path)}.")

    def _fail(self, error: KeeperError) -> None:
        self._end(str(error))

    def _stop(self) -> None:
        if self._work.under_way:
            self._work.stop()
            self._end(giving_wording.STOPPED)

    def _end(self, told: str) -> None:
        self._show_work(None, told)

    def _show_work(self, words: str | None, told: str = "") -> None:
        busy = words is not None
        self.stop.setVisible(busy)
        self.go.setEnabled(not busy)
        for button in (self.take, self.take_file):
            button.setEnabled(not busy and not self.desk.store.only_read)
        self.open_folder.setVisible(not busy and self.given is not None)
        self.told.setText(words or told)
        self.told.setVisible(bool(words or told))
        if busy:
            self.stop.setFocus()
        elif told and self.isVisible():
            self.go.setFocus()

    def _open_folder(self) -> None:
        if self.given:
            there = self.given.path
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(there if there.is_dir() else there.parent)))

    # taking in

    def _choose_archive(self) -> None:
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        chosen = QFileDialog.getExistingDirectory(self, "Take in an archive", documents or str(Path.home()))
        if chosen:
            self.archive_wanted.emit(Path(chosen))

    def _choose_file(self) -> None:
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        kinds = f"Archives in one file (*{ENDING});;All files (*)"
        chosen, _ = QFileDialog.getOpenFileName(self, "Take in one file", documents or str(Path.home()), kinds)
        if chosen:
            self.archive_wanted.emit(Path(chosen))

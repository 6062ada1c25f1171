"""Bringing many photos: a folder sorted to its nights while the window stays usable."""

import threading
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QStringListModel, Qt
from PySide6.QtWidgets import QDialog, QFileDialog, QListView, QProgressBar, QVBoxLayout, QWidget

from keeper.actions.photos import LeftOut, Summary, take_in_many
from keeper.errors import KeeperError, shown_name
from keeper.window import wording
from keeper.window.desk import Desk
from keeper.window.parts import label, plain_button, row

HOW = (
    "Each photo goes to the night of its own date. One without a date, and whatever is no sound picture, "
    "is left out and named here. Nothing is taken in twice; the files themselves stay where they are."
)


class BringPhotos(QDialog):
    """Asks for a folder, shows how far it is, and tells what became of it.

    Closing it while it works lets the work go on.
    """

    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk
        self.summary: Summary | None = None
        self.sources: list[Path] = []
        self._halt = threading.Event()
        self._works = False
        self.setWindowTitle("Bring many photos")
        self._build()
        self._lay_out()
        desk.ending.connect(self._halt.set)

    def _build(self) -> None:
        self.told = label(HOW)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setRange(0, 1000)
        self.bar.setAccessibleName("How far it is")
        self.far = label("", "quiet", wrap=False)
        self.left_out = QListView()
        self.left_out.setModel(QStringListModel(self))
        self.left_out.setWordWrap(True)
        # A few at a time: there may be thousands.
        self.left_out.setLayoutMode(QListView.LayoutMode.Batched)
        self.left_out.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.left_out.setAccessibleName("Left out, and why")
        self.left_out.setProperty("told", True)
        self.choose = plain_button("Choose a folder\u2026", self._choose, by_enter=True)
        self.begin = plain_button("Begin", lambda: self.bring(self.sources), by_enter=True)
        self.halt = plain_button("Stop", self.stop, by_enter=True)
        self.leave = plain_button("Close", self.close, by_enter=True)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        for part in (self.told, self.bar, self.far):
            layout.addWidget(part)
        layout.addWidget(self.left_out, 1)
        layout.addStretch(0)
        layout.addLayout(row(self.choose, self.begin, None, self.halt, self.leave))
        self.setMinimumWidth(px(36))
        self._show_state()

    def _show_state(self) -> None:
        ended = self.summary is not None and not self._works
        self.bar.setVisible(self._works)
        self.far.setVisible(self._works)
        self.left_out.setVisible(ended and bool(self.summary.left_out))
        self.choose.setVisible(not self._works)
        self.begin.setVisible(not self._works and bool(self.sources) and not ended)
        self.halt.setVisible(self._works)
        self.leave.setText("Go on without watching" if self._works else "Close")

    def come_forward(self, sources: list[Path]) -> None:
        """Show the window; with sources it asks whether to begin on these."""
        if not self._works:
            self.sources, self.summary = list(sources), None
            self.told.setText(f"{_named(self.sources)}\n\n{HOW}" if sources else HOW)
            self._show_state()
            self.adjustSize()
        self.show()
        self.raise_()
        self.activateWindow()
        (self.halt if self._works else self.begin if sources else self.choose).setFocus()

    def _choose(self) -> None:
        pictures = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.PicturesLocation)
        name = QFileDialog.getExistingDirectory(self, "A folder of photos", pictures)
        if name:
            self.bring([Path(name)])

    def bring(self, sources: list[Path]) -> None:
        """Begin to take in what is in these folders and files."""
        self._works, self.summary, self.sources = True, None, list(sources)
        self._halt.clear()
        self.bar.setValue(0)
        self.told.setText(_named(self.sources))
        self.far.setText("Looking through it\u2026")
        self._show_state()
        self.halt.setFocus()
        clock, rollover, halted = self.desk.clock, self.desk.rollover(), self._halt.is_set
        self.desk.worker.run(
            lambda store, task: take_in_many(store, sources, clock, rollover, task.progress, halted),
            self._on_done, self._on_failed, self._on_heard,
        )  # fmt: skip

    def stop(self) -> None:
        """Break off; what has come so far stays."""
        # Not the task's own stop: that would throw the summary away.
        self._halt.set()
        self.far.setText("Stopping\u2026")

    def _on_heard(self, share: float, words: str) -> None:
        if not self._halt.is_set():
            self.bar.setValue(round(share * 1000))
            self.far.setText(words)

    def _on_done(self, summary: Summary) -> None:
        self._works, self.summary = False, summary
        self.told.setText(summary.sentence)
        self.left_out.model().setStringList([_why(left) for left in summary.left_out])
        self.left_out.setMinimumHeight(self.desk.look.px(12) if summary.left_out else 0)
        self._end()
        self.desk.changed.emit()
        if not self.isVisible():
            self.desk.said.emit(summary.sentence)

    def _on_failed(self, error: KeeperError) -> None:
        self._works = False
        self.told.setText(str(error))
        self._end()
        if not self.isVisible():
            self.desk.said.emit(str(error))

    def _end(self) -> None:
        self._show_state()
        self.leave.setFocus(Qt.FocusReason.OtherFocusReason)


def _named(sources: list[Path]) -> str:
    if len(sources) == 1:
        return f"The photos of {shown_name(sources[0])}."
    return f"{wording.counted(len(sources), 'file and folder', 'files and folders')}."


def _why(left: LeftOut) -> str:
    return f"{shown_name(left.path)} in {shown_name(left.path.parent)} {left.why}"

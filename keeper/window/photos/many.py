"""Bringing many photos: a folder looked through, then sorted to its nights, while the window stays usable."""

import threading
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QStringListModel, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QDialog, QFileDialog, QListView, QProgressBar, QVBoxLayout, QWidget

from keeper.actions.history import undoing
from keeper.actions.photos.kept import LeftOut, Summary, take_in_many
from keeper.actions.photos.looking import Looked, look_through, take_in_looked
from keeper.actions.photos.nearest_town import nearest
from keeper.errors import KeeperError, shown_name
from keeper.model import ActDone
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import label, plain_button, row
from keeper.window.photos import many_wording
from keeper.window.photos.nights_to_come import NightsToCome

ASKING, LOOKING, LOOKED, WORKING, ENDED = range(5)


class BringPhotos(QDialog):
    """Asks for a folder, shows which nights its photos go to, takes them in, and tells what became of them.

    Closing it while it works lets the work go on.
    """

    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk
        self.state = ASKING
        self.looked: Looked | None = None
        self.summary: Summary | None = None
        self.came: ActDone | None = None
        self.sources: list[Path] = []
        self._halt = threading.Event()
        self._looking = Errand(desk.worker)
        self.setWindowTitle("Bring many photos")
        self._build()
        self._lay_out()
        desk.ending.connect(self._halt.set)

    def _build(self) -> None:
        self.told = label(many_wording.HOW)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setRange(0, 1000)
        self.bar.setAccessibleName("Progress")
        self.far = label("", "quiet", wrap=False)
        self.nights = NightsToCome(self.desk)
        self.nights.ticked.connect(self._say_begin)
        self.why = label("Left out:", "quiet", wrap=False)
        self.left_out = QListView()
        self.left_out.setModel(QStringListModel(self))
        self.left_out.setWordWrap(True)
        # A few at a time: there may be thousands.
        self.left_out.setLayoutMode(QListView.LayoutMode.Batched)
        self.left_out.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.left_out.setAccessibleName("Left out, and why")
        self.left_out.setProperty("told", True)
        self.left_out.setMinimumHeight(self.desk.look.px(5))
        self.choose = plain_button("Choose a folder\u2026", self._choose, by_enter=True)
        self.begin = plain_button("", self._take_in, by_enter=True)
        self.anyway = plain_button("", self._take_anyway, by_enter=True)
        self.undo = plain_button("", self._undo_or_redo, by_enter=True)
        self.halt = plain_button("Stop", self.stop, by_enter=True)
        self.leave = plain_button("Close", self.close, by_enter=True)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        for part in (self.told, self.bar, self.far):
            layout.addWidget(part)
        layout.addWidget(self.nights, 3)
        layout.addWidget(self.why)
        layout.addWidget(self.left_out, 1)
        layout.addStretch(0)
        self._buttons = row(self.begin, self.choose, self.anyway, self.undo, None, self.halt, self.leave)
        layout.addLayout(self._buttons)
        self._show_state(ASKING)

    # what is shown

    def _show_state(self, state: int, told: str = "") -> None:
        self.state = state
        busy = state in (LOOKING, WORKING)
        left = self.looked.left_out if state == LOOKED else self.summary.left_out if state == ENDED and self.summary else ()
        self.told.setText(told or self.told.text())
        self.left_out.model().setStringList([_why(one) for one in left])
        for part, seen in (
            (self.bar, busy), (self.far, busy), (self.nights, state == LOOKED and bool(self.looked.nights)),
            (self.why, bool(left)), (self.left_out, bool(left)), (self.choose, not busy),
            (self.begin, state == LOOKED and bool(self.looked.nights)), (self.halt, busy),
            (self.anyway, state == ENDED and bool(self.summary and self.summary.cut_off())),
            (self.undo, state == ENDED and self.came is not None),
        ):  # fmt: skip
            part.setVisible(seen)
        # With large letters on a small screen the list of nights is what is needed.
        self.nights.peek.setVisible(self.screen().availableGeometry().height() > self.desk.look.px(34))
        self.leave.setText("Continue in the background" if state == WORKING else "Close")
        self._say_begin()
        self._say_end()
        self._make_room()

    def _say_begin(self) -> None:
        count = sum(len(night.files) for night in self.nights.chosen())
        self.begin.setText(f"Take in {wording.counted(count, 'photo')}")
        self.begin.setEnabled(count > 0)

    def _say_end(self) -> None:
        self.undo.setText("Redo" if self.came and self.came.undone else "Undo")
        if self.state == ENDED and self.summary:
            cut = len(self.summary.cut_off())
            self.anyway.setText(f"Take {cut:,} cut short anyway")

    def _make_room(self) -> None:
        px, layout = self.desk.look.px, self.layout()
        layout.activate()
        edges = layout.contentsMargins()
        self.setMinimumWidth(max(px(38), self._buttons.sizeHint().width() + edges.left() + edges.right()))
        # Wrapped words are not in a layout's own least size, so the rows would lie over one another.
        least = layout.totalMinimumHeightForWidth(self.width()) if layout.hasHeightForWidth() else 0
        self.setMinimumHeight(max(least, layout.minimumSize().height()))
        wished = px(36) if self.nights.isVisibleTo(self) else px(24) if self.left_out.isVisibleTo(self) else 0
        self.resize(self.width(), max(self.minimumHeight(), min(wished, self.screen().availableGeometry().height())))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._make_room()

    def come_forward(self, sources: list[Path]) -> None:
        """Show the window; with sources it looks through these."""
        if self.state not in (LOOKING, WORKING):
            self.sources, self.summary, self.looked = list(sources), None, None
            self._show_state(ASKING, many_wording.HOW)
        self.show()
        self.raise_()
        self.activateWindow()
        (self.halt if self.state in (LOOKING, WORKING) else self.choose).setFocus()
        if sources and self.state == ASKING:
            self.look(sources)

    # looking through

    def _choose(self) -> None:
        pictures = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.PicturesLocation)
        name = QFileDialog.getExistingDirectory(self, "A folder of photos", pictures)
        if name:
            self.look([Path(name)])

    def look(self, sources: list[Path]) -> None:
        """Look through these folders and files; nothing is taken in yet."""
        self.sources, self.summary, self.looked = list(sources), None, None
        self._begin_progress(LOOKING)
        clock, rollover, halted = self.desk.clock, self.desk.rollover(), self._halt.is_set
        self._looking.anew(
            lambda store, task: look_through(store, sources, clock, rollover, nearest, task.progress, halted),
            self._on_looked, self._on_failed, self._on_heard,
        )  # fmt: skip

    def _on_looked(self, looked: Looked) -> None:
        self.looked = looked
        self.nights.show_nights(looked)
        self._show_state(LOOKED, many_wording.looked_told(looked, self.sources))
        (self.nights if looked.nights else self.choose).setFocus(Qt.FocusReason.OtherFocusReason)

    # taking in

    def _take_in(self) -> None:
        looked, chosen, with_places = self.looked, self.nights.chosen(), self.nights.places.isChecked()
        self._work(lambda store, *how: take_in_looked(store, looked, chosen, with_places, *how))

    def _take_anyway(self) -> None:
        files, act = self.summary.cut_off(), self.summary.act
        self._work(lambda store, *how: (take_in_many(store, files, *how, cut_off=True, goes_on=act), 0))

    def bring(self, sources: list[Path]) -> None:
        """Begin to take in what is in these folders and files, without a look before."""
        self.sources = list(sources)
        self._work(lambda store, *how: (take_in_many(store, sources, *how), 0))

    def _work(self, take: Callable[..., tuple[Summary, int]]) -> None:
        self.summary = None
        self._begin_progress(WORKING)
        clock, rollover, halted = self.desk.clock, self.desk.rollover(), self._halt.is_set
        self.desk.worker.run(
            lambda store, task: _with_act(store, *take(store, clock, rollover, task.progress, halted)),
            self._on_done, self._on_failed, self._on_heard,
        )  # fmt: skip

    def _begin_progress(self, state: int) -> None:
        self._halt.clear()
        self.bar.setValue(0)
        self.far.setText("Looking through it\u2026" if state == LOOKING else "")
        self._show_state(state, many_wording.named(self.sources))
        self.halt.setFocus()

    def stop(self) -> None:
        """Break off; what has come so far stays."""
        # Not the task's own stop: that would throw the summary away.
        self._halt.set()
        self.far.setText("Stopping\u2026")
        if self.state == LOOKING:
            self._looking.stop()
            self._end(ASKING, many_wording.HOW)

    def _on_heard(self, share: float, words: str) -> None:
        if not self._halt.is_set():
            self.bar.setValue(round(share * 1000))
            self.far.setText(words)

    def _on_done(self, outcome: tuple[Summary, int, ActDone | None]) -> None:
        self.summary, said, self.came = outcome
        places = f" The place of {wording.counted(said, 'night')} was noted." if said else ""
        self._end(ENDED, self.summary.sentence + places)
        self.desk.changed.emit()

    def _on_failed(self, error: KeeperError) -> None:
        self._end(ASKING, str(error))

    def _end(self, state: int, told: str) -> None:
        self._show_state(state, told)
        self.leave.setFocus(Qt.FocusReason.OtherFocusReason)
        if not self.isVisible():
            self.desk.said.emit(told)

    # taking back

    def _undo_or_redo(self) -> None:
        number = self.came.number
        self.desk.write(lambda store: undoing.turn(store, number), self._on_turned, self._on_failed)

    def _on_turned(self, turned: undoing.Turned) -> None:
        self.came, self.summary = turned.done, None
        self._show_state(ENDED, turned.sentence)
        self.desk.changed.emit()


def _with_act(store, summary: Summary, said: int) -> tuple[Summary, int, ActDone | None]:
    return summary, said, undoing.one(store, summary.act) if summary.act else None


def _why(left: LeftOut) -> str:
    return f"{shown_name(left.path)} in {shown_name(left.path.parent)} {left.why}"

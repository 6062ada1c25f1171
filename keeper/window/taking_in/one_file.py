"""One file: how it is written, what it would bring, and reading it in."""

import threading
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QProgressBar, QVBoxLayout, QWidget

from keeper.actions.history import undoing
from keeper.actions.taking_in import keeping, looking, told, weighing
from keeper.actions.taking_in.keeping import FileKept
from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.weighing import Weighed
from keeper.errors import CannotWrite, KeeperError, shown_name
from keeper.exchange.tables.shape import How
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import breakable, label, quiet_button, row
from keeper.window.taking_in.first_rows import MOST_COLUMNS, FirstRows
from keeper.window.taking_in.lists import Unfolding
from keeper.window.taking_in.written import HowWritten


class OneFile(QWidget):
    """What is known of a file, and what is done with it; empty before the first.

    ``held`` comes with whether it is being kept, so that no other may be
    chosen; ``was_kept`` when it has been.
    """

    held = Signal(bool)
    was_kept = Signal()

    def __init__(self, desk: Desk, written: HowWritten) -> None:
        super().__init__()
        self.desk, self.written = desk, written
        self.looked: FileLooked | None = None
        self.weighed: Weighed | None = None
        self._look_at, self._work = Errand(desk.reader), Errand(desk.worker)
        self._act: int | None = None
        self._keeping = False
        self._brought = ""
        self._halt = threading.Event()
        self._build()
        self._lay_out()
        desk.ending.connect(self._stop)
        desk.changed.connect(self._ask_whether_undone)
        self._show_parts()

    @property
    def keeping(self) -> bool:
        """Whether it is being kept."""
        return self._keeping

    def _build(self) -> None:
        look = self.desk.look
        self.file = label("", "words")
        self.about = label("", "quiet")
        self.rows = FirstRows(look)
        self.would = label("", "plain")
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setRange(0, 1000)
        self.bar.setAccessibleName("Progress")
        self.bar.setFixedHeight(look.px(0.5))
        self.other_words = Choice(look, "Where a night has other words")
        for value, name in told.OTHER_WORDS.items():
            self.other_words.addItem(name, value)
        self.others = Unfolding(look, "Nights that have other words, another place or reading", self.other_words)
        self.save = quiet_button("Save the list\u2026", self._save, "Save what was not understood as a text")
        self.troubles = Unfolding(look, "What was not understood", self.save)
        self.read = quiet_button("Read it in", self.read_in)
        self.stop = quiet_button("Stop", self._stop)
        self.undo = quiet_button("Undo", self._undo, "Undo the reading in of the file")
        self.written.changed.connect(self._written_otherwise)
        self.rows.chosen.connect(self._said_otherwise)
        self.other_words.activated.connect(lambda _: self._said_otherwise(weigh=False))

    def _lay_out(self) -> None:
        px = self.desk.look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, px(0.6), 0, 0)
        body.setSpacing(px(0.5))
        # What it would bring comes first: it is to be seen while one says what the columns are.
        for part in (self.file, self.would, self.bar):
            body.addWidget(part)
        body.addLayout(row(self.read, self.stop, self.undo, None, gap=px(1)))
        for part in (self.others, self.troubles, self.written, self.about, self.rows):
            body.addWidget(part)

    def fit(self) -> None:
        """Take up the sizes in force."""
        self.rows.fit()

    def weigh_again(self) -> None:
        """Ask again what it would bring: lines may have been written meanwhile."""
        if self.looked and not self._keeping and self._act is None:
            self._weigh()

    # how it is written

    def look_at(self, path: Path, how: How | None = None) -> None:
        """Look at a file or a folder; ``how`` where the person has said how it is written."""
        self._work.stop()
        self._act = None
        self._nothing_weighed()
        clock, spelling = self.desk.clock, own_spelling()

        def look(store, task):
            return looking.look(store, path, clock, spelling, how), told.choices(store)

        self._look_at.anew(look, lambda came: self._show(*came), lambda error: self._cannot(path, error))
        self._tell("Looking\u2026")

    def _cannot(self, path: Path, error: KeeperError) -> None:
        if self.looked and self.looked.path != path:
            self.looked = None
        self._tell(str(error))

    def _show(self, looked: FileLooked, offered: tuple[tuple[str, str], ...]) -> None:
        self.looked = looked
        self.file.setText(breakable(shown_name(looked.path)))
        self.about.setText(_about(looked))
        self.written.show_how(looked.how)
        self.rows.show_file(looked, offered)
        self.other_words.setCurrentIndex(max(0, self.other_words.findData(looked.meant.other_words)))
        self._weigh()

    # what it would bring

    def _written_otherwise(self, how: How) -> None:
        if self.looked:
            self.look_at(self.looked.path, how)

    def _said_otherwise(self, weigh: bool = True) -> None:
        if self.looked:
            meant = replace(self.looked.meant, columns=self.rows.columns(), other_words=self.other_words.currentData())
            self.looked = replace(self.looked, meant=meant)
            if weigh:
                self._weigh()

    def _weigh(self) -> None:
        looked, clock = self.looked, self.desk.clock
        self._act = None
        self._nothing_weighed()
        self._work.anew(
            lambda store, task: weighing.weigh(store, looked, clock, task.progress, task.stopped),
            self._show_weighed, self._fail, lambda share, words: self.would.setText(f"{words}\u2026"),
        )  # fmt: skip
        self._tell("Reading it through\u2026")

    def _nothing_weighed(self) -> None:
        """What was told of a file, or of how it was read, is true no more."""
        self.weighed = None
        self.others.hide()
        self.troubles.hide()

    def _show_weighed(self, weighed: Weighed) -> None:
        self.weighed = weighed
        self._show_lists(weighed)
        self._tell(told.would_bring(weighed))

    def _show_lists(self, weighed: Weighed) -> None:
        others, unit = weighed.others, self.looked.how.unit
        many = sum(of["other"] for of in (weighed.lines, weighed.places, weighed.readings))
        self.others.show_list(
            f"{wording.counted(many, 'line, place or reading', 'lines, places or readings')} here {'says' if many == 1 else 'say'} something else than the file." if many else "",
            lambda: [_other_told(*told.other(one)) for one in others],
        )
        self.troubles.show_list(
            f"{wording.counted(weighed.trouble_count, 'thing')} not understood; the rest is." if weighed.trouble_count else "",
            lambda: [told.trouble(one, unit) for one in weighed.troubles],
        )

    def _save(self) -> None:
        name, _ = QFileDialog.getSaveFileName(self, "Save what was not understood", f"{self.looked.path.stem} not understood.txt", "Texts (*.txt)")
        if name:
            self.save_list(Path(name))

    def save_list(self, path: Path) -> None:
        """Write what was not understood into a file."""
        try:
            told.save_list(path, self.looked, self.weighed.troubles)
            self.desk.said.emit(f"The list is in {shown_name(path)}.")
        except CannotWrite as error:
            self.desk.said.emit(str(error))

    # reading it in

    def read_in(self) -> None:
        """Read the file in, as it is said."""
        looked, weighed, clock = self.looked, self.weighed, self.desk.clock
        if not (looked and weighed and weighed.brings_something):
            return
        # Not the task's own way to stop: what was kept until then is to be told.
        self._hold(True)
        self._halt = threading.Event()
        halted = self._halt.is_set
        self._work.anew(
            lambda store, task: keeping.keep(store, looked, weighed, clock, task.progress, halted),
            self._kept, self._fail, self._on_heard,
        )  # fmt: skip
        self._tell("Under way\u2026")

    def _hold(self, keeping: bool) -> None:
        self._keeping = keeping
        self.held.emit(keeping)

    def _on_heard(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.would.setText(words)

    def _kept(self, kept: FileKept) -> None:
        self._hold(False)
        self._act = kept.act
        self.weighed = None
        self._show_lists(kept.weighed)
        self.others.hide()
        self._brought = told.brought(kept, self.looked.meant.other_words)
        self._tell(self._brought)
        if kept.act is None:
            # Stopped before anything came: it can be read in as before.
            self.desk.said.emit(self._brought)
            self._weigh()
        self.desk.changed.emit()
        self.was_kept.emit()

    def _fail(self, error: KeeperError) -> None:
        self._hold(False)
        self._tell(str(error))

    def _stop(self) -> None:
        if self._keeping:
            self._halt.set()
        elif self._work.under_way or self._look_at.under_way:
            self._work.stop()
            self._look_at.stop()
            self._tell("Stopped. Nothing was written.")

    def _undo(self) -> None:
        if self._act is not None:
            self._tell("Taking it back\u2026")
            self.undo.setEnabled(False)
            self.desk.turn_wanted.emit(self._act)
            # Behind it, whether or not it could be.
            self.desk.write(lambda store: None, lambda _: self._ask_whether_undone())

    def _ask_whether_undone(self) -> None:
        """It may be taken back elsewhere too, by the key or among what was done lately."""
        if (act := self._act) is not None and not self._keeping:
            self.desk.reader.run(lambda store, task: _is_undone(store, act), lambda undone: self._take_turn(act, undone))

    def _take_turn(self, act: int, undone: bool) -> None:
        if act != self._act or self._keeping:
            return
        self.undo.setEnabled(True)
        if undone:
            self._weigh()
        else:
            self._tell(self._brought)

    def _tell(self, sentence: str) -> None:
        self.would.setText(breakable(sentence))
        self._show_parts()

    def _show_parts(self) -> None:
        """What of it is seen now."""
        busy, here, may = self._work.under_way or self._look_at.under_way, self.looked is not None, not self.desk.store.only_read
        self.setVisible(here or bool(self.would.text()))
        for part in (self.file, self.about, self.written, self.rows):
            part.setVisible(here)
            part.setEnabled(not self._keeping)
        self.bar.setVisible(self._keeping)
        self.read.setVisible(here and not self._keeping and self._act is None)
        self.read.setEnabled(may and bool(self.weighed and self.weighed.brings_something))
        self.stop.setVisible(busy)
        self.undo.setVisible(self._act is not None)
        self.other_words.setVisible(self.weighed is not None)


def _is_undone(store, number: int) -> bool:
    act = undoing.one(store, number)
    return act is None or act.undone


def _about(looked: FileLooked) -> str:
    parts = [f"It is {told.FORMS[looked.how.form]}."]
    if looked.known:
        parts.append("Its columns are as they were the last time with such a file.")
    if not looked.order_sure:
        parts.append("Its dates could be read in more than one order; please look at them.")
    if (wide := len(looked.names)) > MOST_COLUMNS:
        parts.append(f"Its first {MOST_COLUMNS} columns are shown, of {wide}. {told.beyond(looked)}".rstrip())
    shown = len(looked.rows)
    parts.append(f"Its first {wording.counted(shown, 'row')}:" if shown > 1 else "Its first row:")
    return " ".join(parts)


def _other_told(night: str, there: str, coming: str) -> str:
    return f"{night}\nhere: {' '.join(there.split())[:300]}\nin the file: {' '.join(coming.split())[:300]}"

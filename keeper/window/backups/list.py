"""The list of backups: what each holds, one made now, a look inside, a whole keeper brought back."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from keeper.actions.backups import Backup, folders, making
from keeper.actions.backups.bringing_back import BroughtBack, bring_back
from keeper.actions.backups.listing import listed_in
from keeper.errors import KeeperError
from keeper.window.backups import wording as backup_wording
from keeper.window.backups.asking import BringBackDialog
from keeper.window.backups.row import BackupRow
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, label, quiet_button, row

AT_A_TIME = 8


class BackupList(BasicPage, AsksAgain, Paper):
    """The backups of one folder, the newest first; ``wanted`` tells into which one is to be looked."""

    wanted = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.rows: list[BackupRow] = []
        self._work = Errand(desk.worker)
        self._asked = 0
        self._coming = Piecemeal(self)
        self.where = Choice(desk.look, "Which backups")
        self.where.activated.connect(lambda _: self.ask())
        self.now = quiet_button("Back up now", self._back_up)
        self.stop = quiet_button("Stop", self._stop)
        self.told = label("", "quiet")
        self.setAccessibleName("Backups")
        self._lay_out()
        self.lead_with(self.now)
        desk.changed.connect(self.refresh)
        desk.ending.connect(self._stop)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.list = QVBoxLayout()
        self.list.setSpacing(0)
        self.body.addWidget(label("Backups", "head"))
        self.body.addWidget(label(backup_wording.HOW, "quiet"))
        self.body.addLayout(row(self.now, self.stop, None, self.where, gap=px(1)))
        self.body.addWidget(self.told)
        self.body.addLayout(self.list)
        self.body.addStretch(1)
        self.where.hide()
        self._show_work(None)

    def show_night(self, night: date) -> None:
        """The same on any night."""
        self.ask()

    # what is shown

    def ask(self) -> None:
        """Ask for the backups of the folder chosen."""
        which, self._asked = self.where.currentData() or "own", self._asked + 1
        number = self._asked
        self.desk.reader.run(lambda store, task: _look(store, which), lambda came: self._show(number, *came))

    def _show(self, number: int, those: tuple[folders.Folder, ...], backups: tuple[Backup, ...]) -> None:
        if number != self._asked:
            return
        self._show_where(those)
        if [one.backup for one in self.rows] == list(backups) and self._coming.over() and self.rows:
            return
        self.rows = []
        emptied(self.list)
        if not backups:
            self.list.addWidget(label("None yet. The first is made once nobody has typed for a while.", "quiet"))
        self._coming.begin(few_at_a_time(AT_A_TIME, self._add_row, backups), at_once=1)

    def _show_where(self, those: tuple[folders.Folder, ...]) -> None:
        chosen = self.where.currentData() or "own"
        self.where.clear()
        for folder in those:
            self.where.addItem(backup_wording.NAMES[folder.which], folder.which)
        self.where.setCurrentIndex(max(0, self.where.findData(chosen)))
        self.where.setVisible(len(those) > 1)

    def _add_row(self, backup: Backup) -> None:
        made = BackupRow(self.desk, backup, self.wanted.emit, self._ask_whether)
        made.let_act(not self._work.under_way and not self.desk.store.only_read)
        self.list.addWidget(made)
        self.rows.append(made)

    # what the person wants

    def _back_up(self) -> None:
        clock = self.desk.clock
        self._begin(lambda store, task: making.back_up_now(store, making.own_place(store), clock, task.progress, task.stopped), self._made)

    def _made(self, made: making.Made) -> None:
        self._end(making.BackedUp(made.path.parent.parent, made).told or "Backed up, and checked.")

    def _ask_whether(self, backup: Backup) -> None:
        if BringBackDialog(self.desk, backup, self.window()).exec():
            self.bring(backup)

    def bring(self, backup: Backup) -> None:
        """Let the keeper hold what a backup holds, after all that is typed is kept."""
        self.desk.keeping.emit()
        clock = self.desk.clock
        self.desk.write(lambda store: None, lambda _: self._begin(
            lambda store, task: bring_back(store, backup, clock, task.progress, task.stopped),
            lambda came: self._brought(backup, came),
        ))  # fmt: skip

    def _brought(self, backup: Backup, came: BroughtBack) -> None:
        lost = f" {wording.counted(came.lacking, 'photo')} could not be brought back; nowhere is there a whole copy." if came.lacking else ""
        self.desk.take_up_settings()
        self._end(f"Brought back: the keeper as of {wording.full_date(backup.day)}. What was there stands in this list.{lost}")
        self.desk.changed.emit()

    def _begin(self, work, done) -> None:
        self._work.anew(work, done, self._fail, self._hear)
        self._show_work("Under way\u2026")

    def _hear(self, share: float, words: str) -> None:
        self.told.setText(f"{words}: {wording.percent(share)}" if words else "Under way\u2026")

    def _fail(self, error: KeeperError) -> None:
        self._end(str(error))

    def _end(self, told: str) -> None:
        self._show_work(None, told)
        self.ask()

    def _stop(self) -> None:
        if self._work.under_way:
            self._work.stop()
            self._end("Stopped. The keeper is as it was.")

    def _show_work(self, words: str | None, told: str = "") -> None:
        busy, may = words is not None, not self.desk.store.only_read
        self.stop.setVisible(busy)
        self.now.setEnabled(may and not busy)
        self.told.setText(words or told)
        self.told.setVisible(bool(words or told))
        for one in self.rows:
            one.let_act(may and not busy)


def _look(store, which: str) -> tuple[tuple[folders.Folder, ...], tuple[Backup, ...]]:
    those = tuple(one for one in folders.every(store) if one.there)
    chosen = next((one for one in those if one.which == which), those[0])
    return those, listed_in(chosen.place)

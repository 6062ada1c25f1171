"""A look into an archive: what it would bring, what differs; and taking it in."""

from datetime import date
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from keeper.actions.giving.taking import ArchiveSeen, ArchiveTaken, Difference, look, take
from keeper.errors import KeeperError, shown_name
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.giving import wording as giving_wording
from keeper.window.giving.difference import DifferenceRow
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row

AT_A_TIME = 2
MOST_SHOWN = 400
"""So many differences are shown; of the others what is here stays."""


class ReceiveLeaf(BasicPage, Paper):
    """What an archive would bring, each difference with both wordings; ``left`` tells that the first leaf is wanted again."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.folder: Path | None = None
        self.rows: list[DifferenceRow] = []
        self._work = Errand(desk.worker)
        self._taking = False
        self._coming = Piecemeal(self)
        self.heading, self.told, self.how = label("", "head"), label("", "plain"), label(giving_wording.STAYS, "quiet")
        self.back = quiet_button("\u2039 give and receive", self.left.emit, "Give and receive")
        self.take = quiet_button("Take it in", self._take)
        self.stop = quiet_button("Stop", self._stop)
        self.all = quiet_button("Tick all", self._tick_all, "Let the archive\u2019s words stand in all lines that differ")
        self._lay_out()
        self.lead_with(self.back)
        desk.ending.connect(self._end_work)

    @property
    def under_way(self) -> bool:
        """Whether an archive is being looked into, or taken in."""
        return self._work.under_way

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.list = QVBoxLayout()
        self.list.setSpacing(0)
        self.body.addLayout(headed(self.heading, self.back))
        self.body.addWidget(self.told)
        self.body.addLayout(row(self.take, self.stop, None, self.all, gap=px(1)))
        self.body.addWidget(self.how)
        self.body.addSpacing(px(0.4))
        self.body.addLayout(self.list)
        self.body.addStretch(1)

    def show_night(self, night: date) -> None:
        """The same on any night."""

    def look_into(self, folder: Path) -> None:
        """Check an archive, and show what it would bring."""
        self.folder, self._taking = folder, False
        self.heading.setText(f"The archive {shown_name(folder)}")
        self._show_differences(())
        self._show_work("Looking into it\u2026", False)
        self._work.anew(lambda store, task: look(store, folder, task.progress, task.stopped), self._seen, self._fail, self._hear)

    def _seen(self, seen: ArchiveSeen) -> None:
        anything = bool(seen.nights or seen.lines or seen.photos or seen.other or seen.differences)
        differing = f" {wording.counted(len(seen.differences), 'thing')} {'differs' if len(seen.differences) == 1 else 'differ'}."
        self._show_work(None, anything, seen.sentence + (differing if seen.differences else ""))
        self._show_differences(seen.differences)
        if anything and self.isVisible():
            self.take.setFocus()

    def _show_differences(self, those: tuple[Difference, ...]) -> None:
        self.rows = []
        emptied(self.list)
        self.how.setVisible(bool(those))
        self.all.setVisible(sum(bool(one.kind) for one in those) > 1)
        shown = those[:MOST_SHOWN]
        pieces = few_at_a_time(AT_A_TIME, self._add, shown)
        if len(those) > len(shown):
            more = f"And {wording.counted(len(those) - len(shown), 'more difference')}, of which what is here stays."
            pieces.append(lambda: self.list.addWidget(label(more, "quiet")))
        self._coming.begin(pieces, at_once=2)

    def _add(self, one: Difference) -> None:
        made = DifferenceRow(self.desk, one)
        self.list.addWidget(made)
        self.rows.append(made)

    def _tick_all(self) -> None:
        for one in self.rows:
            one.tick.setChecked(bool(one.difference.kind))

    # taking in

    def _take(self) -> None:
        folder, clock = self.folder, self.desk.clock
        chosen = [(one.difference.night, one.difference.kind) for one in self.rows if one.chosen]
        self._taking = True
        self._show_work("Under way\u2026", False)
        self.desk.keeping.emit()
        # Behind all that is still to be written.
        self.desk.write(lambda store: None, lambda _: self._work.anew(
            lambda store, task: take(store, folder, clock, chosen, task.progress, task.stopped), self._taken, self._fail, self._hear
        ))  # fmt: skip

    def _taken(self, taken: ArchiveTaken) -> None:
        self._show_differences(())
        self._show_work(None, False, taken.sentence)
        self.desk.take_up_settings()
        self.desk.changed.emit()
        self.back.setFocus()

    def _hear(self, share: float, words: str) -> None:
        self.told.setText(f"{words}: {wording.percent(share)}")

    def _fail(self, error: KeeperError) -> None:
        self._show_work(None, False, str(error))
        self.back.setFocus()

    def _stop(self) -> None:
        if not self._work.under_way:
            return
        self._work.stop()
        self._show_work("Stopping\u2026", False)
        self.stop.setEnabled(False)
        # It undoes what came so far, and only then is done.
        self.desk.worker.run(lambda store, task: None, lambda _: self._stopped())

    def _stopped(self) -> None:
        self.stop.setEnabled(True)
        self._show_work(None, self._taking, "Stopped. The keeper is as it was.")
        self.desk.changed.emit()

    def _end_work(self) -> None:
        self._work.stop()

    def _show_work(self, words: str | None, may_take: bool, told: str = "") -> None:
        busy = words is not None
        self.stop.setVisible(busy)
        self.take.setVisible(may_take and not busy)
        self.take.setEnabled(not self.desk.store.only_read)
        self.told.setText(words or told)
        if busy:
            self.stop.setFocus()

"""A look inside a backup: its nights month by month, to be read only; those chosen can be brought back."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QVBoxLayout

from keeper.actions.backups import Backup
from keeper.actions.backups.inside import Inside, bring_nights, look_inside, nights_inside
from keeper.errors import KeeperError
from keeper.model import Night
from keeper.window.backups import wording as backup_wording
from keeper.window.backups.night import NightInside
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row

AT_A_TIME = 4


class InsidePage(BasicPage, Paper):
    """One month of a backup at a time, the last that has something first; ``left`` tells that the list is wanted again."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.backup: Backup | None = None
        self.inside = Inside((), frozenset())
        self.month: date | None = None
        self.chosen: set[date] = set()
        self.nights: list[NightInside] = []
        self._coming = Piecemeal(self)
        self.heading, self.held, self.told = label("", "head"), label("", "quiet"), label("", "quiet")
        self.back = quiet_button("\u2039 all backups", self.left.emit, "All backups")
        self.of_month = label("", "words")
        self.before = quiet_button("\u2039 earlier", lambda: self._step(-1), "The month before")
        self.after = quiet_button("later \u203a", lambda: self._step(1), "The month after")
        self.only = QCheckBox("Only nights that differ from the keeper now")
        self.only.toggled.connect(lambda _: self._show_month(self.month))
        self.bring = quiet_button("", self._bring)
        self._lay_out()
        self.lead_with(self.back)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.list = QVBoxLayout()
        self.list.setSpacing(0)
        self.body.addLayout(headed(self.heading, self.back))
        self.body.addWidget(self.held)
        self.body.addWidget(self.only)
        self.body.addLayout(row(self.bring, None))
        self.body.addWidget(self.told)
        self.body.addSpacing(px(0.6))
        self.body.addLayout(headed(self.of_month, self.before, self.after))
        self.body.addLayout(self.list)
        self.body.addStretch(1)

    def show_night(self, night: date) -> None:
        """The same on any night."""

    def look_into(self, backup: Backup) -> None:
        """Show what a backup holds."""
        self.backup, self.month, self.chosen = backup, None, set()
        self.inside = Inside((), frozenset())
        self.heading.setText(f"Inside {wording.full_date(backup.day)}")
        self.held.setText(backup_wording.held(backup))
        self.only.blockSignals(True)
        self.only.setChecked(False)
        self.only.blockSignals(False)
        self._tell("")
        self._show_nights(())
        self._look_again()

    def _look_again(self) -> None:
        backup = self.backup
        self.desk.reader.run(lambda store, task: look_inside(store, backup), lambda came: self._take(backup, came), self._fail)

    def _take(self, backup: Backup, came: Inside) -> None:
        if backup is self.backup:
            self.inside = came
            self.only.setVisible(bool(came.lacking))
            self._show_month(self.month)

    # month by month

    def _months(self) -> list[date]:
        those = self.inside.lacking if self.only.isChecked() else self.inside.nights
        return sorted({night.replace(day=1) for night in those})

    def _show_month(self, month: date | None) -> None:
        months = self._months()
        self.month = month if month in months else max(months, default=None)
        self.before.setEnabled(bool(months) and self.month != months[0])
        self.after.setEnabled(bool(months) and self.month != months[-1])
        self.of_month.setText(wording.month_and_year(self.month) if self.month else "Nothing is kept in it.")
        only, backup, month = self.only.isChecked(), self.backup, self.month
        wanted = [night for night in self.inside.nights if night.replace(day=1) == month and (not only or night in self.inside.lacking)]
        self.desk.reader.run(
            lambda store, task: nights_inside(backup, wanted), lambda came: self._take_nights(backup, month, only, came), self._fail
        )

    def _take_nights(self, backup: Backup, month: date | None, only: bool, came: tuple[Night, ...]) -> None:
        if (backup, month, only) == (self.backup, self.month, self.only.isChecked()):
            self._show_nights(came)

    def _show_nights(self, came: tuple[Night, ...]) -> None:
        self.nights = []
        emptied(self.list)
        self._coming.begin(few_at_a_time(AT_A_TIME, self._add_night, came), at_once=2)
        self._say_chosen()

    def _add_night(self, night: Night) -> None:
        made = NightInside(self.desk, night, night.date in self.inside.lacking, night.date in self.chosen)
        made.tick.toggled.connect(lambda ticked: self._choose(night.date, ticked))
        self.list.addWidget(made)
        self.nights.append(made)

    def _step(self, by: int) -> None:
        months = self._months()
        self._show_month(months[months.index(self.month) + by])
        self.verticalScrollBar().setValue(0)

    # chosen nights

    def _choose(self, night: date, ticked: bool) -> None:
        (self.chosen.add if ticked else self.chosen.discard)(night)
        self._say_chosen()

    def _say_chosen(self) -> None:
        many = len(self.chosen)
        self.bring.setText(f"Bring back {wording.counted(many, 'night')}" if many else "Choose nights to bring them back")
        self.bring.setAccessibleName(self.bring.text())
        self.bring.setEnabled(bool(many) and not self.desk.store.only_read)

    def _bring(self) -> None:
        backup, chosen = self.backup, sorted(self.chosen)
        self.bring.setEnabled(False)
        self.desk.keeping.emit()
        self.desk.write(lambda store: bring_nights(store, backup, chosen), self._brought, self._fail)

    def _brought(self, sentence: str) -> None:
        self.chosen = set()
        self._tell(sentence)
        self.desk.changed.emit()
        self._look_again()

    def _fail(self, error: KeeperError) -> None:
        self._tell(str(error))
        self._say_chosen()

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.setVisible(bool(sentence))

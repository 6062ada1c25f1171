"""A folder that was named and has no keeper: begin one there, or bring back the newest of its backups."""

from pathlib import Path

from PySide6.QtWidgets import QDialog, QVBoxLayout

from keeper.actions import opening
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import KeeperError
from keeper.window.desk.lanes import LaneWithoutKeeper
from keeper.window.desk.look import Look
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import breakable, label, plain_button, quiet_button, row


class BeginDialog(QDialog):
    """``exec()`` returns 1 when there is a keeper to open, or one is to be begun."""

    def __init__(self, look: Look, folder: Path) -> None:
        super().__init__()
        self._folder, self._lane = folder, LaneWithoutKeeper(folder, "beginning")
        self._errand = Errand(self._lane)
        self._backup = None
        self.setWindowTitle("Keeper of Days")
        px = look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        self.told = label(breakable(opening.none_yet(folder)), "plain")
        self.kept = label("", "plain")
        self.progress = label("", "quiet")
        self.stop = quiet_button("Stop", self._stop)
        layout.addWidget(self.told)
        layout.addWidget(self.kept)
        layout.addWidget(label("You can begin a new one there. If you meant another, its disk may not be connected.", "quiet"))
        layout.addLayout(row(self.progress, self.stop, None))
        self.leave, self.begin = plain_button("Cancel", self.reject), plain_button("Begin a keeper", self.accept)
        self.bring = plain_button("Bring it back", self._bring_back)
        layout.addLayout(row(None, self.leave, self.begin, self.bring))
        self.setMinimumWidth(px(28))
        for part in (self.kept, self.bring, self.progress, self.stop):
            part.hide()
        # A key pressed too early begins nothing.
        self.leave.setFocus()
        self._errand.anew(lambda store, task: _newest(folder), self._show_backup)

    def _show_backup(self, backup) -> None:
        if backup is None:
            return
        self._backup = backup
        day, nights = written.long_date(backup.day), written.counted(backup.nights, "night")
        self.kept.setText(f"Its backup of {day} is there, with {nights} and {written.counted(backup.lines, 'line')}.")
        self.kept.show()
        self.bring.show()
        self._grow()

    def _grow(self) -> None:
        # What was said since it opened needs room of its own.
        self.resize(self.width(), max(self.height(), self.layout().heightForWidth(self.width())))

    def _bring_back(self) -> None:
        from keeper.actions.backups.bringing_back import bring_back_into

        folder, backup = self._folder, self._backup
        self._errand.anew(
            lambda store, task: bring_back_into(folder, backup, Clock(), task.progress, task.stopped),
            lambda _: self.accept(), self._fail, self._hear,
        )  # fmt: skip
        self._show_working("Bringing it back\u2026")
        self.stop.setFocus()

    def _hear(self, share: float, words: str) -> None:
        self.progress.setText(f"{words or 'Bringing it back'}: {share:.0%}")

    def _fail(self, error: KeeperError) -> None:
        self._show_working("")
        self.progress.setText(breakable(str(error)))
        self.progress.show()
        self._grow()

    def _stop(self) -> None:
        self._errand.stop()
        self._show_working("")
        self.bring.setFocus()

    def _show_working(self, words: str) -> None:
        self.progress.setText(words)
        for part in (self.progress, self.stop):
            part.setVisible(bool(words))
        for part in (self.begin, self.bring):
            part.setDisabled(bool(words))
        self._grow()

    def done(self, result: int) -> None:
        self._errand.stop()
        self._lane.end()
        super().done(result)


def _newest(folder: Path):
    from keeper.actions.backups.listing import newest_good

    return newest_good(folder)

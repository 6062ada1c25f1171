"""Backups in the settings: where they go, how old they are there, and the way to their page."""

from datetime import date
from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from keeper.actions.backups import folders
from keeper.actions.backups.folders import Folder
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.small import breakable, emptied, label, quiet_button, row

TOLD = (
    "A backup is made once a day when something changed. A second folder and a third, on a stick or another disk, are caught "
    "up whenever they are there."
)
_CALLED = {"own": "In this keeper\u2019s folder", "second": "Second folder", "third": "Third folder"}


class BackupsBox(AsksAgain, QWidget):
    """One row for each folder."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.open = quiet_button("All backups, and bringing back", lambda: desk.go("backups"))
        self.told = label("", "quiet")
        self.told.hide()
        self.choose: dict[str, QWidget] = {}
        self.drop: dict[str, QWidget] = {}
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(desk.look.px(0.3))
        self._list = QVBoxLayout()
        self._list.setSpacing(desk.look.px(0.3))
        body.addWidget(label("Backups", "words"))
        body.addWidget(label(TOLD, "quiet"))
        body.addLayout(self._list)
        body.addWidget(self.told)
        body.addLayout(row(self.open, None))
        desk.changed.connect(self.refresh)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask for the folders."""
        self._desk.reader.run(lambda store, task: folders.every(store), self._show)

    def _show(self, those: tuple[Folder, ...]) -> None:
        focused = next(((which, place) for place, parts in enumerate((self.choose, self.drop)) for which, part in parts.items() if part.hasFocus()), None)
        emptied(self._list)
        self.choose, self.drop = {}, {}
        known = {one.which: one for one in those}
        before: QWidget | None = None
        for which in ("own", *folders.WHICH):
            self._list.addWidget(self._row(which, known.get(which)))
            for part in (self.choose.get(which), self.drop.get(which)):
                if part:
                    self.setTabOrder(before, part) if before else None
                    before = part
        if before:
            self.setTabOrder(before, self.open)
        if focused:
            (self.drop.get(focused[0]) or self.choose[focused[0]]).setFocus()

    def _row(self, which: str, folder: Folder | None) -> QWidget:
        made = QWidget()
        body = QVBoxLayout(made)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(0)
        buttons = [] if which == "own" else self._buttons(which, folder)
        told = label(age(folder, self._desk.clock.now().date()) if folder else "none chosen", "quiet")
        above = row(label(_CALLED[which], wrap=False), told, *buttons, gap=self._desk.look.px(0.8))
        above.setStretch(1, 1)
        body.addLayout(above)
        if folder and which != "own":
            body.addWidget(label(breakable(str(folder.place)), "quiet"))
        return made

    def _buttons(self, which: str, folder: Folder | None) -> list[QWidget]:
        may = not self._desk.store.only_read
        self.choose[which] = quiet_button("Another\u2026" if folder else "Choose\u2026", lambda: self._choose(which), f"Choose the {which} folder for backups")
        self.choose[which].setEnabled(may)
        if folder is None:
            return [self.choose[which]]
        self.drop[which] = quiet_button("Remove", lambda: self._drop(which), f"Remove the {which} folder; its backups stay")
        self.drop[which].setEnabled(may)
        return [self.choose[which], self.drop[which]]

    def _choose(self, which: str) -> None:
        home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.HomeLocation)
        if named := QFileDialog.getExistingDirectory(self, f"The {which} folder for backups", home):
            self.take(which, Path(named))

    def take(self, which: str, folder: Path) -> None:
        """Let backups go into a folder, and the first of them at once."""
        clock = self._desk.clock

        def done(_: object) -> None:
            self._tell("Under way\u2026")
            self._desk.worker.run(lambda store, task: folders.back_up_everywhere(store, clock, stopped=task.stopped), self._caught_up, self._fail)

        self._desk.write(lambda store: folders.choose(store, which, folder), done, self._fail)

    def _caught_up(self, came: folders.Round) -> None:
        self._tell(came.said)
        self._desk.changed.emit()

    def _drop(self, which: str) -> None:
        self._desk.write(lambda store: folders.drop(store, which), lambda _: self._desk.changed.emit(), self._fail)

    def _fail(self, error: KeeperError) -> None:
        self._tell(str(error))

    def _tell(self, sentence: str) -> None:
        self.told.setText(breakable(sentence))
        self.told.setVisible(bool(sentence))


def age(folder: Folder, today: date) -> str:
    """How old what lies in a folder is, and whether its disk is there."""
    told = "no backup yet" if folder.last is None else f"last one {_when(folder.last, today)}"
    return told if folder.there else f"{told}; not connected now"


def _when(last: date, today: date) -> str:
    days = (today - last).days
    if days in (0, 1):
        return ("today", "yesterday")[days]
    return f"{wording.number(days)} days ago" if 0 < days < 100 else f"on {wording.full_date(last)}"

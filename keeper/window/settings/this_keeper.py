"""This keeper's folder in the settings, moving it, and the other keepers known on this computer."""

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from keeper.actions.keepers import known
from keeper.actions.keepers.known import KnownKeeper
from keeper.actions.keepers.moving import target_in
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.other_windows import open_keeper
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.small import breakable, emptied, label, quiet_button, row


class KeeperRow(QWidget):
    """Another keeper: when it was last open, and where it lies."""

    def __init__(self, desk: Desk, one: KnownKeeper, forget) -> None:
        super().__init__()
        self.open = quiet_button("Open", lambda: open_keeper(one.folder), f"Open the keeper in {one.folder}")
        self.forget = quiet_button("Take off the list", lambda: forget(one.folder), f"Take the keeper in {one.folder} off the list")
        self.open.setVisible(one.there)
        told = f"last open {wording.short_date(one.opened)}" if one.there else "gone, or its disk is not connected"
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(0)
        beside = row(label(breakable(_shown(one.folder))), self.open, self.forget, gap=desk.look.px(0.8))
        beside.setStretch(0, 1)
        body.addLayout(beside)
        body.addWidget(label(told, "quiet"))


class ThisKeeperBox(AsksAgain, QWidget):
    """Where this one lies, and the others."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.rows: list[KeeperRow] = []
        self.move_it = quiet_button("Move it to another folder\u2026", self._move)
        self.move_it.setEnabled(not desk.store.only_read)
        self.open = quiet_button("Open another keeper\u2026", self._open)
        self.told = label("", "quiet")
        self.told.hide()
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(desk.look.px(0.3))
        body.addWidget(label("This keeper", "words"))
        body.addWidget(label(breakable(f"It lies in {_shown(desk.folder)}. Nothing in it ever leaves this computer by itself.")))
        body.addLayout(row(self.move_it, None, gap=desk.look.px(1)))
        self.others = label("Other keepers", "words")
        body.addSpacing(desk.look.px(0.8))
        body.addWidget(self.others)
        self._list = QVBoxLayout()
        self._list.setSpacing(desk.look.px(0.3))
        body.addLayout(self._list)
        body.addLayout(row(self.open, None))
        body.addWidget(self.told)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask for the keepers known."""
        self._desk.reader.run(lambda store, task: known.every(), self._show)

    def _show(self, those: tuple[KnownKeeper, ...]) -> None:
        emptied(self._list)
        self.rows = [KeeperRow(self._desk, one, self._forget) for one in those if one.folder != self._desk.folder.absolute()]
        for one in self.rows:
            self._list.addWidget(one)

    def _forget(self, folder: Path) -> None:
        self._desk.reader.run(lambda store, task: known.forget(folder), lambda _: self.ask(), self._fail)

    def _open(self) -> None:
        if chosen := self._asked("The folder of a keeper"):
            open_keeper(chosen)

    def _move(self) -> None:
        if chosen := self._asked("Where this keeper is to go"):
            self._desk.moving_wanted.emit(target_in(chosen, self._desk.folder))

    def _asked(self, title: str) -> Path | None:
        home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.HomeLocation)
        named = QFileDialog.getExistingDirectory(self, title, home)
        return Path(named) if named else None

    def _fail(self, error: KeeperError) -> None:
        self.told.setText(str(error))
        self.told.show()


def _shown(folder: Path) -> str:
    # Bytes that are no text have a mark in their place.
    return str(folder).encode("utf-8", "replace").decode()

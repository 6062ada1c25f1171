"""The in-tray on its page: which folder it is, what waits there, and taking it in."""

from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from keeper.actions.taking_in import tray
from keeper.errors import KeeperError, shown_name
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import breakable, label, quiet_button, row

HOW = (
    "A folder of your choosing. Texts and photos that appear there, by whatever way, are offered when the program opens; "
    "what was taken in is moved into its folder \u201ctaken in\u201d."
)


class TrayBox(AsksAgain, QWidget):
    """One row for the folder, one for what waits."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._work = Errand(desk.worker)
        self.where, self.told = label("", "plain"), label("", "quiet")
        self.choose = quiet_button("Choose a folder\u2026", self._choose, "Choose the in-tray")
        self.drop = quiet_button("Have none", lambda: self.take_for(None), "Have no in-tray; the folder stays as it is")
        self.take = quiet_button("Take it in", self._take, "Take in what waits in the in-tray")
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(desk.look.px(0.3))
        body.addWidget(label("In-tray", "words"))
        body.addWidget(label(HOW, "quiet"))
        body.addWidget(self.where)
        body.addWidget(self.told)
        body.addLayout(row(self.take, self.choose, self.drop, None, gap=desk.look.px(1)))
        desk.changed.connect(self.refresh)

    def ask(self) -> None:
        """Ask which folder it is and what waits."""
        self._desk.reader.run(lambda store, task: (tray.folder_of(store), tray.waiting(store)), lambda came: self._show(*came))

    def _show(self, folder: Path | None, there: tray.Waiting | None) -> None:
        may = not self._desk.store.only_read
        self.where.setText(breakable(str(folder)) if folder else "none chosen")
        self.choose.setText("Another folder\u2026" if folder else "Choose a folder\u2026")
        self.choose.setEnabled(may)
        self.drop.setVisible(folder is not None)
        self.take.setVisible(bool(there and there.told) and may)
        self.told.setText(_waits(folder, there))
        self.told.setVisible(folder is not None)

    def _choose(self) -> None:
        home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.HomeLocation)
        if named := QFileDialog.getExistingDirectory(self, "The in-tray", home):
            self.take_for(Path(named))

    def take_for(self, folder: Path | None) -> None:
        """Let this folder be the in-tray; None for none."""
        def done(_: object) -> None:
            self._desk.take_up_settings()
            self._desk.changed.emit()

        self._desk.write(lambda store: tray.choose(store, folder), done, self._fail)

    def _take(self) -> None:
        self.take.setEnabled(False)
        take_in(self._desk, self._work, self._taken, self._fail)

    def _taken(self, taken: tray.TakenFromTray) -> None:
        self.take.setEnabled(True)
        self._desk.said.emit(taken.sentence)
        self._desk.changed.emit()

    def _fail(self, error: KeeperError) -> None:
        self.take.setEnabled(True)
        self.told.setText(str(error))
        self.told.show()


def take_in(desk: Desk, work: Errand, done, failed, heard=None) -> None:
    """Take in what waits, away from the window's thread."""
    clock, spelling = desk.clock, own_spelling()
    work.anew(lambda store, task: tray.take_in(store, clock, spelling, None, task.progress, task.stopped), done, failed, heard)


def _waits(folder: Path | None, there: tray.Waiting | None) -> str:
    if folder is None:
        return ""
    if there is None:
        return "It cannot be reached now."
    left = "; ".join(f"{shown_name(one.path)} {one.why}" for one in there.left[:3])
    more = f"; and {len(there.left) - 3} more" if len(there.left) > 3 else ""
    return f"{there.told or 'Nothing'} in it.{f' {left}{more}.' if left else ''}"

"""Something being made: how far it is, a way to stop, and what came of it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QProgressBar, QVBoxLayout, QWidget

from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Work
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.printing import wording


class UnderWay(QWidget):
    """Makes things in the background; ``acts`` are the buttons that begin it, and are put away meanwhile."""

    def __init__(self, desk: Desk, *acts: QWidget) -> None:
        super().__init__()
        self._acts = acts
        self._errand = Errand(desk.worker)
        self.saved: Path | None = None
        self.bar, self.told = QProgressBar(), label("", "quiet")
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("Progress")
        self.stop = quiet_button("Stop", self.break_off)
        self.open_folder = quiet_button("Open the folder", self.show_folder)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row(*acts, self.stop, self.open_folder, None, gap=desk.look.px(1.2)))
        layout.addWidget(self.bar)
        layout.addWidget(self.told)
        self._show(False)

    @property
    def working(self) -> bool:
        """Whether something is being made."""
        return self._errand.under_way

    def begin(self, work: Work, done: Callable[[object], str]) -> None:
        """Make something; ``done`` takes what came of it, and returns what is told."""
        self.saved = None
        self.bar.setValue(0)
        self.told.setText("")
        self._show(True)
        self._errand.anew(work, lambda made: self._end(done(made)), self._failed, self._heard)

    def break_off(self) -> None:
        """Stop what is being made; nothing is left of it."""
        if self.working:
            self._errand.stop()
            self._end(wording.STOPPED)

    def tell(self, sentence: str) -> None:
        """Say something below the buttons."""
        self.told.setText(sentence)
        self.told.setVisible(bool(sentence))

    def show_folder(self) -> None:
        """Open the folder in which it was saved."""
        if self.saved:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.saved.parent)))

    def _heard(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.tell(words)

    def _failed(self, error: KeeperError) -> None:
        self._end(str(error))

    def _end(self, sentence: str) -> None:
        self.tell(sentence)
        self._show(False)

    def _show(self, working: bool) -> None:
        had = any(part.hasFocus() for part in (self.stop, *self._acts))
        for part in (self.bar, self.stop):
            part.setVisible(working)
        for part in self._acts:
            part.setVisible(not working)
        self.open_folder.setVisible(self.saved is not None and not working)
        self.told.setVisible(bool(self.told.text()))
        if had:
            (self.stop if working else self._acts[0]).setFocus()


def ask_where(parent: QWidget, title: str, name: str, ending: str, kind: str) -> Path | None:
    """Ask where a file is to lie; None when nothing was said."""
    documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    offered = str(Path(documents or Path.home()) / f"{name}{ending}")
    chosen, _ = QFileDialog.getSaveFileName(parent, title, offered, f"{kind} (*{ending})")
    if not chosen:
        return None
    return Path(chosen) if Path(chosen).suffix.casefold() == ending else Path(f"{chosen}{ending}")

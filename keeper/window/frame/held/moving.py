"""Moving the keeper to another folder: its window closes, all is moved and checked, and a window opens there."""

import threading
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication, QDialog, QProgressBar, QVBoxLayout

from keeper.actions import trouble
from keeper.actions.keepers.moving import move
from keeper.errors import KeeperError, Stopped
from keeper.window.parts.small import breakable, label, plain_button, row

if TYPE_CHECKING:
    from keeper.window.frame.window import Frame


class _Work(QObject):
    """The moving itself, on a thread of its own."""

    heard = Signal(float)
    ended = Signal(str)

    def __init__(self, folder: Path, target: Path, today: date) -> None:
        super().__init__()
        self._what = folder, target, today
        self.stop = threading.Event()
        threading.Thread(target=self._go, name="moving", daemon=True).start()

    def _go(self) -> None:
        try:
            move(*self._what, lambda share, words: self.heard.emit(share), self.stop.is_set)
        except Stopped:
            self.ended.emit("Stopped. The keeper is where it was.")
        except KeeperError as error:
            self.ended.emit(str(error))
        except Exception as problem:
            self.ended.emit(trouble.note(self._what[0], problem))
        else:
            self.ended.emit("")


class KeeperMoving(QDialog):
    """Asks once more, closes the window of the keeper, and shows how far the moving is.

    ``frame.then_open`` is the folder whose window opens when this program has
    ended: the new one, or the old one where it could not be moved.
    """

    def __init__(self, frame: "Frame", target: Path) -> None:
        super().__init__()
        self._frame, self._folder, self._target = frame, frame.desk.folder, target
        self._today = frame.desk.clock.now().date()
        self._work: _Work | None = None
        self.setWindowTitle("Move the keeper")
        px = frame.desk.look.px
        self.told = label(breakable(
            f"The keeper goes to {target}, with its photos and backups. All is copied and checked before the old folder goes. "
            "The window closes for that, and opens again."
        ))  # fmt: skip
        self.bar = QProgressBar()
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("Progress")
        self.bar.hide()
        self.leave, self.go_on = plain_button("Cancel", self.reject), plain_button("Move", self._begin)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.8))
        layout.addWidget(self.told)
        layout.addWidget(self.bar)
        layout.addLayout(row(None, self.leave, self.go_on))
        self.setMinimumWidth(px(32))
        self.leave.setFocus()

    def _begin(self) -> None:
        # This one stays, or the program would end with its window.
        if not self._frame.close():
            self.reject()
            return
        self._frame.then_open = self._folder
        self.told.setText(breakable(f"On the way to {self._target}."))
        self.bar.show()
        self.go_on.hide()
        self.leave.setText("Stop")
        self._work = _Work(self._folder, self._target, self._today)
        self._work.heard.connect(lambda share: self.bar.setValue(round(share * 1000)))
        self._work.ended.connect(self._end)

    def _end(self, told: str) -> None:
        if not told:
            self._frame.then_open = self._target
            self._leave_for_good()
            return
        self.bar.hide()
        self.told.setText(breakable(told))
        self.leave.setText("Close")
        self._work = None

    def reject(self) -> None:
        if self._work:
            self._work.stop.set()
            return
        self._leave_for_good()

    def _leave_for_good(self) -> None:
        self._work = None
        self.accept()
        if not self._frame.isVisible():
            QApplication.quit()

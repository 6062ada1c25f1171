"""A keeper that cannot be opened at all: what can be saved of it, before there is a window."""

from pathlib import Path

from PySide6.QtWidgets import QDialog, QVBoxLayout

from keeper.window.desk.lanes import LaneWithoutKeeper
from keeper.window.desk.look import Look
from keeper.window.desk.on_screen import resize_within_screen
from keeper.window.mending.view import MendingView
from keeper.window.parts.small import Paper, label, plain_button, row


class BrokenDialog(QDialog):
    """``exec()`` returns 1 when a mended keeper waits to be opened."""

    def __init__(self, look: Look, folder: Path, sentence: str) -> None:
        super().__init__()
        self.setWindowTitle("Keeper of Days")
        self._lane = LaneWithoutKeeper(folder, "mending")
        self.view = MendingView(look, folder, self._lane, self.accept)
        self.view.say_why(sentence)
        self.leave = plain_button("Leave it as it is", self.reject)
        paper = Paper(look)
        paper.body.addWidget(label("This keeper cannot be opened", "head"))
        paper.body.addWidget(self.view)
        paper.body.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addWidget(paper)
        layout.addLayout(row(None, self.leave))
        resize_within_screen(self, look.px(52), look.px(44))
        self.view.see.setFocus()

    def done(self, result: int) -> None:
        self._lane.end()
        super().done(result)

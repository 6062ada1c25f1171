"""Words that were rescued while nothing could be written: offered on the page of the night, and kept when chosen."""

from PySide6.QtWidgets import QCheckBox, QDialog, QVBoxLayout

from keeper.actions.damage import rescued
from keeper.dates import written
from keeper.window.desk.desk import Desk
from keeper.window.desk.on_screen import resize_within_screen
from keeper.window.parts.small import Paper, breakable, label, plain_button, quiet_button, row

OFFER = "Words from when nothing could be kept"


class RescuedOffer:
    """A quiet button for the page of the night, seen while such words wait."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._waiting: tuple[rescued.Rescued, ...] = ()
        self.button = quiet_button(OFFER, self.open)
        self.button.hide()
        self.ask()

    def ask(self) -> None:
        """Look whether any wait."""
        self._desk.reader.run(lambda store, task: rescued.waiting(store), self._show)

    def _show(self, waiting: tuple[rescued.Rescued, ...]) -> None:
        self._waiting = waiting
        self.button.setVisible(bool(waiting))

    def open(self) -> None:
        """Show them, and keep those that are wanted."""
        dialog = RescuedDialog(self._desk, self._waiting, self.button.window())
        dialog.finished.connect(lambda _: self.ask())
        dialog.open()


class RescuedDialog(QDialog):
    """Each with its night and words; those that are ticked become lines. The files stay, by another name."""

    def __init__(self, desk: Desk, waiting: tuple[rescued.Rescued, ...], parent) -> None:
        super().__init__(parent)
        self._desk, self._waiting = desk, waiting
        self.setWindowTitle(OFFER)
        px = desk.look.px
        paper = Paper(desk.look, 36)
        paper.body.addWidget(label("These were typed when nothing could be kept. Keep them as lines of their nights?", "plain"))
        self.boxes = [self._add(paper, one) for one in waiting]
        paper.body.addStretch(1)
        self.later = plain_button("Not now", self.reject)
        self.keep = plain_button("Keep these", self._keep)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1), px(1), px(1), px(1))
        layout.addWidget(paper)
        layout.addLayout(row(None, self.later, self.keep))
        resize_within_screen(self, px(40), px(30))
        self.keep.setFocus()

    def _add(self, paper: Paper, one: rescued.Rescued) -> QCheckBox:
        when = f"{written.long_date(one.night)}, {one.kind}" if len(one.kind) < 36 else written.long_date(one.night)
        box = QCheckBox(when)
        box.setChecked(True)
        box.setAccessibleName(f"Keep the words of {when}")
        words = label(breakable(one.text), "spoken")
        box.setAccessibleDescription(words.text())
        paper.body.addWidget(box)
        paper.body.addWidget(words)
        if one.there:
            paper.body.addWidget(label(f"They are added to: {breakable(one.there)}", "quiet"))
        return box

    def _keep(self) -> None:
        chosen = [one for one, box in zip(self._waiting, self.boxes, strict=True) if box.isChecked()]
        clock = self._desk.clock
        self._desk.write(lambda store: rescued.keep(store, chosen, clock), self._on_kept)

    def _on_kept(self, left: tuple[rescued.Rescued, ...]) -> None:
        still = {one.file for one in left}
        rescued.decided(one.file for one in self._waiting if one.file not in still)
        if left:
            self._desk.said.emit("Not all of these words could be kept; they stay where they are.")
        self._desk.changed.emit()
        self.accept()

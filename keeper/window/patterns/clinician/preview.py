"""The pages as they will be, drawn off the window's thread each time something else is chosen."""

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QProgressBar, QVBoxLayout, QWidget

from keeper.actions.clinician.chosen import Chosen
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import emptied, label, quiet_button, row
from keeper.window.patterns.clinician.picture import PagePicture

SETTLED = 400
"""Milliseconds after the last choice before the pages are drawn."""

DOTS_PER_INCH = 104.0


class Preview(QWidget):
    """Asks for the pages of what is chosen; ``shown`` comes when they are seen, or why there are none is said."""

    shown = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.chosen: Chosen | None = None
        self.pages: list[PagePicture] = []
        self._errand = Errand(desk.worker)
        desk.ending.connect(self._errand.stop)
        self._soon = once_after(self, SETTLED, self._work)
        self.told, self.doing = label("", "quiet"), label("", "quiet", wrap=False)
        self.bar = QProgressBar()
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("Progress")
        self.stop = quiet_button("Stop", self.break_off, "Stop drawing the page")
        self.again = quiet_button("Draw the page", self._work)
        self._lay_out()
        self._say("")

    def _lay_out(self) -> None:
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(self.desk.look.px(0.6))
        body.addWidget(self.told)
        body.addWidget(self.bar)
        body.addLayout(row(self.doing, self.stop, self.again, None))
        self._pages = QVBoxLayout()
        self._pages.setSpacing(self.desk.look.px(0.8))
        body.addLayout(self._pages)

    @property
    def under_way(self) -> bool:
        """Whether pages are drawn, or will be in a moment."""
        return self._errand.under_way or self._soon.isActive()

    def ask(self, chosen: Chosen) -> None:
        """Draw these in a moment."""
        self._errand.stop()
        self.chosen = chosen
        self._soon.start()

    def nothing(self, why: str) -> None:
        """Show no page, and say why."""
        self._errand.stop()
        self._soon.stop()
        self.chosen = None
        emptied(self._pages)
        self.pages = []
        self._say(why)

    def _work(self) -> None:
        from keeper.actions.clinician import making
        from keeper.actions.opening import passing_folder

        chosen, here, dots = self.chosen, self.desk.tonight(), DOTS_PER_INCH * self.devicePixelRatioF()
        if chosen is None:
            return

        def work(store, task) -> tuple[list[bytes], tuple[str, ...]]:
            with passing_folder(store) as folder:
                proof = making.proof_page(store, chosen, Path(folder), here, task.progress, task.stopped)
                return [page.read_bytes() for page in making.picture_pages(proof, dots)], proof.left_out

        self._heard(0.0, "Gathering the readings")
        self._errand.anew(work, self._show, self._failed, self._heard)

    def _heard(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.doing.setText(words)
        self.again.hide()
        for part in (self.bar, self.doing, self.stop):
            part.show()

    def _show(self, made: tuple[list[bytes], tuple[str, ...]]) -> None:
        pictures, left_out = made
        emptied(self._pages)
        self.pages = [PagePicture(self.desk.look, one, f"Page {at} of {len(pictures)}") for at, one in enumerate(pictures, 1)]
        for page in self.pages:
            self._pages.addWidget(page)
        self._say(" ".join(left_out))
        self.shown.emit()

    def _failed(self, error: KeeperError) -> None:
        self.nothing(str(error))
        self.shown.emit()

    def break_off(self) -> None:
        """Stop; it can be asked again."""
        self._errand.stop()
        self._say("")
        self.again.show()
        self.again.setFocus()

    def _say(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.setVisible(bool(sentence))
        for part in (self.bar, self.doing, self.stop, self.again):
            part.hide()

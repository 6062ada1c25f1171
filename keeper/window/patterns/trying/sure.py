"""How sure a plan could be: tried on past nights, off the window's thread, and to be stopped."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.trying.beginning import WantedPlan
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import label, quiet_button, row

SETTLED = 400
"""Milliseconds after the last choice: who goes through a list need not wait for each."""


class SureTold(QWidget):
    """Sentences on a plan, or how far the trying of it is."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.plan: WantedPlan | None = None
        self._errand = Errand(desk.worker)
        desk.ending.connect(self._errand.stop)
        self._soon = once_after(self, SETTLED, self._work)
        self.told = label("")
        self.doing = label("", "quiet", wrap=False)
        self.stop = quiet_button("Stop", self.break_off, "Stop trying the plan on past nights")
        self.again = quiet_button("How sure could it be?", self._work)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.told)
        layout.addLayout(row(self.doing, self.stop, self.again, None))
        self._show("")

    def ask(self, plan: WantedPlan | str) -> None:
        """Tell of this plan in a moment; "" of none."""
        self._errand.stop()
        self._soon.stop()
        self.plan = plan or None
        if self.plan is None:
            self._show("")
        elif self.isVisible():
            self._soon.start()

    def showEvent(self, event) -> None:
        super().showEvent(event)
        if self.plan and not self.told.text():
            self._soon.start()

    @property
    def under_way(self) -> bool:
        """Whether it is being tried, or will be in a moment."""
        return self._errand.under_way or self._soon.isActive()

    def _work(self) -> None:
        from keeper.actions.trying import wording as trying_wording
        from keeper.actions.trying.sureness import how_sure

        plan, tonight = self.plan, self.desk.tonight()
        if plan is None:
            return
        self._errand.anew(
            lambda store, task: trying_wording.sure(how_sure(store, plan, tonight, task.progress)),
            lambda sentences: self._show(" ".join(sentences)), self._failed, self._heard,
        )  # fmt: skip
        self._heard(0.0, "Trying the plan on nights of the past")

    def _heard(self, share: float, words: str) -> None:
        self.doing.setText(f"{words}: {wording.percent(share)}")
        self.again.hide()
        for part in (self.doing, self.stop):
            part.show()

    def _failed(self, error: KeeperError) -> None:
        self._show(str(error))

    def break_off(self) -> None:
        """Stop; it can be asked again."""
        self._soon.stop()
        self._errand.stop()
        self._show("")
        self.again.show()
        self.again.setFocus()

    def _show(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.setVisible(bool(sentence))
        for part in (self.doing, self.stop, self.again):
            part.hide()

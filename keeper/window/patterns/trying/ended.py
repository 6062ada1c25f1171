"""A trying that is over: one row, and what came of it when it is unfolded."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.trying import results
from keeper.actions.trying import wording as trying_wording
from keeper.actions.trying.results import CameOfIt, Known
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import breakable, emptied, label, quiet_button, row


class EndedTrying(QWidget):
    """The plan as it was; ``unfold`` asks what came of it."""

    def __init__(self, desk: Desk, known: Known) -> None:
        super().__init__()
        self.desk, self.known = desk, known
        self.found: CameOfIt | None = None
        self._errand = Errand(desk.worker)
        desk.ending.connect(self._errand.stop)
        self.plan = label(breakable(trying_wording.plan(known)), "quiet")
        self.more = quiet_button("What came of it", self.unfold, f"What came of trying \u201c{known.mark.name}\u201d")
        self.stop = quiet_button("Stop", self.break_off, "Stop working out what came of it")
        self.told = QVBoxLayout()
        self._lay_out()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, px(0.5), 0, px(0.5))
        body.setSpacing(px(0.35))
        body.addWidget(self.plan)
        self.told.setSpacing(px(0.35))
        body.addLayout(self.told)
        body.addLayout(row(self.more, self.stop, None))
        self.stop.hide()

    def unfold(self) -> None:
        """Work out what came of it, and tell."""
        trying_id, tonight = self.known.trying.id, self.desk.tonight()
        self.more.hide()
        self.stop.show()
        self._errand.anew(
            lambda store, task: results.came_of(store, trying_id, tonight, task.progress), self._show,
            lambda error: self._tell((str(error),)),
        )  # fmt: skip

    def break_off(self) -> None:
        """Stop; it can be asked again."""
        self._errand.stop()
        self.stop.hide()
        self.more.show()
        self.more.setFocus()

    def _show(self, found: CameOfIt) -> None:
        self.found = found
        first, *others = trying_wording.came_of_it(found)
        self._tell((first, " ".join(others), trying_wording.lot(found)))

    def _tell(self, sentences) -> None:
        emptied(self.told)
        self.stop.hide()
        for number, sentence in enumerate(one for one in sentences if one):
            self.told.addWidget(label(breakable(sentence), "" if number == 0 else "quiet"))

"""What was worded otherwise and what was taken out, where the words sought stood in it; each can be had back."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.history import lately
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.history.done_list import DoneList
from keeper.window.parts.history.rows import LatelyModel, rows_of
from keeper.window.parts.small import label, row


class EarlierFound(QWidget):
    """Earlier wordings first, then what was taken out."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._errand = Errand(desk.seeker)
        self.model = LatelyModel(lambda: None)
        self.list = DoneList(desk, self.model, "Earlier wordings and what was taken out")
        self.told = label("", "quiet")
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.addWidget(self.told)
        body.addWidget(self.list, 1)
        body.addLayout(row(self.list.back, self.list.there, None, gap=desk.look.px(1)))

    def ask(self, typed: str) -> None:
        """Ask for what had these words; all of the latest, where there are none."""
        self.told.setText("Looking\u2026")
        self._errand.anew(lambda store, task: lately.earlier_or_gone(store, typed), lambda found: self._show(typed, *found))

    def _show(self, typed: str, wordings: tuple, gone: tuple) -> None:
        zone = self._desk.clock.now().tzinfo
        self.model.show(rows_of(wordings, zone), typed, False)
        self.model.append_group(rows_of(gone, zone), "Taken out", typed)
        if wordings or gone:
            self.told.setText("Worded otherwise before, or taken out. Enter goes there; U has it back.")
            self.list.setCurrentIndex(self.model.index(0))
        else:
            self.told.setText("No earlier wording has these words, nor has what was taken out." if typed.strip() else
                              "Nothing was worded otherwise or taken out.")  # fmt: skip
        self.list.say_acts()

"""What an eye was kept on, when as many nights more are in: what was told then, and what is now."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.review.patterns.whole import Due
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import breakable, emptied, label, quiet_button, row

Question = tuple[str, str, int]


class DueRows(QWidget):
    """Hidden while nothing is due; each is kept an eye on for as long again, or no longer."""

    def __init__(self, desk: Desk, again: Callable[[Question, str], None], enough: Callable[[Question], None]) -> None:
        super().__init__()
        self.desk, self._again, self._enough = desk, again, enough
        self.buttons: list[QWidget] = []
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, desk.look.px(0.5), 0, 0)
        self.body.setSpacing(desk.look.px(0.15))
        self.hide()

    def show_due(self, due: Sequence[Due]) -> None:
        """Show these."""
        emptied(self.body)
        self.buttons = []
        for one in due:
            again = quiet_button("Tell me again as many nights later", lambda one=one: self._again(one.question, one.now or one.then))
            enough = quiet_button("Enough", lambda one=one: self._enough(one.question), "Keep no eye on it")
            self.buttons += [again, enough]
            self.body.addWidget(label(breakable(one.sentence), "spoken"))
            self.body.addLayout(row(again, enough, None, gap=self.desk.look.px(1.2)))
        self.setVisible(bool(due))

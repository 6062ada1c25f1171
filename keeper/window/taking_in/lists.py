"""Lists that unfold under a sentence: what was not understood, and nights that have other words."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QStringListModel
from PySide6.QtWidgets import QListView, QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.small import label, quiet_button, row


class Unfolding(QWidget):
    """A sentence with a button that shows the list beneath it. ``beside`` are parts that stand in its row."""

    def __init__(self, look: Look, name: str, *beside: QWidget) -> None:
        super().__init__()
        self._look, self._name = look, name
        self._make: Callable[[], Sequence[str]] = tuple
        self.told = label("", "plain")
        self.fold = quiet_button("Show them", self._turn, f"Show: {name}")
        self.list = QListView()
        self.list.setModel(QStringListModel(self))
        self.list.setWordWrap(True)
        # A few at a time: there may be thousands.
        self.list.setLayoutMode(QListView.LayoutMode.Batched)
        self.list.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.list.setAccessibleName(name)
        self.list.setProperty("told", True)
        self.list.hide()
        body = QVBoxLayout(self)
        body.setContentsMargins(0, look.px(0.4), 0, 0)
        body.setSpacing(look.px(0.2))
        body.addWidget(self.told)
        body.addLayout(row(self.fold, *beside, None, gap=look.px(1)))
        body.addWidget(self.list)
        self.hide()

    def show_list(self, sentence: str, make: Callable[[], Sequence[str]]) -> None:
        """Tell a sentence, the rows beneath it made when they are first to be seen; an empty sentence hides all."""
        self._make = make
        self.told.setText(sentence)
        self.setVisible(bool(sentence))
        self._unfold(sentence and not self.list.isHidden())

    def _turn(self) -> None:
        self._unfold(self.list.isHidden())

    def _unfold(self, wanted: bool) -> None:
        rows = list(self._make()) if wanted else []
        self.list.model().setStringList(rows)
        self.list.setFixedHeight(self._look.px(min(16, 2.2 * max(len(rows), 2))))
        self.list.setVisible(bool(wanted))
        self.fold.setText("Hide them" if wanted else "Show them")
        self.fold.setAccessibleName(f"{'Hide' if wanted else 'Show'}: {self._name}")

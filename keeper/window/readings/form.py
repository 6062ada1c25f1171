"""A tracker asked for, and what changing it would do, said while it is typed."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from keeper.actions.readings import changing, once, trackers
from keeper.actions.readings.shape import checked, free_key
from keeper.dates.written import full_date
from keeper.errors import KeeperError
from keeper.model import Tracker
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, plain_button, row
from keeper.window.readings.fields import TrackerFields


class TrackerForm(QDialog):
    """Asks for a tracker; ``tracker`` is the one that is changed, or None for another one."""

    def __init__(self, desk: Desk, parent: QWidget, tracker: Tracker | None = None) -> None:
        super().__init__(parent)
        self.desk, self._was = desk, tracker
        self.setWindowTitle("Change a reading" if tracker else "A reading of your own")
        self.fields = TrackerFields(desk, tracker)
        self.told = label("", "quiet")
        self.leave, self.act = plain_button("Cancel", self.reject), plain_button("Set" if tracker else "Begin", self.take)
        self._lay_out()
        self.fields.name.textEdited.connect(self._offer_letter)
        self.fields.edited.connect(self._follow)
        self.fields.entered.connect(self.take)
        self._follow()
        self.fields.name.setFocus()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        layout.addWidget(self.fields)
        layout.addWidget(self.told)
        layout.addStretch(1)
        layout.addLayout(row(None, self.leave, self.act))
        # So that the sentence has room, and little moves when it changes.
        self.told.ensurePolished()
        self.told.setMinimumHeight(self.told.fontMetrics().lineSpacing() * 4)
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)

    def sizeHint(self) -> QSize:
        wide = self.desk.look.px(32)
        return QSize(wide, max(super().sizeHint().height(), self.layout().totalHeightForWidth(wide)))

    # telling

    def _offer_letter(self, name: str) -> None:
        if self._was is None:
            under_way = trackers.in_force(self.desk.store, self.desk.tonight())
            self.fields.key.setText(free_key(name, under_way).upper())
            self._follow()

    def _follow(self) -> None:
        self.tell(self._would())

    def _would(self) -> str:
        if not self.fields.name.text().strip():
            return "A name is enough; all else can stay as it is."
        try:
            others = [one for one in trackers.every(self.desk.store) if self._was is None or one.id != self._was.id]
            made = checked(self.fields.meant(), others)
            if self._was:
                return " ".join(changing.would(self.desk.store, made))
        except KeeperError as error:
            return str(error)
        until = f" until {full_date(made.ended)}" if made.ended else ""
        return f"{made.name} is asked for from {full_date(made.began)} on{until}."

    def tell(self, sentence: str) -> None:
        """Say what it would do, or what cannot be."""
        self.told.setText(sentence)
        layout = self.layout()
        layout.activate()
        needed = layout.totalHeightForWidth(self.width())
        if self.isVisible() and self.height() < needed:
            self.resize(self.width(), needed)

    # doing

    def take(self) -> None:
        """Keep it, and close; what cannot be is told, and stays to be mended."""
        try:
            made = self.fields.meant()
        except KeeperError as error:
            self.tell(str(error))
            return
        act, tonight = (changing.change if self._was else changing.begin), self.desk.tonight()

        def keep(store) -> str:
            act(store, made)
            return once.of_many(store, tonight)

        self.desk.write(keep, self._on_kept, lambda error: self.tell(str(error)))

    def _on_kept(self, word: str) -> None:
        if word:
            self.desk.said.emit(word)
        self.desk.changed.emit()
        self.accept()

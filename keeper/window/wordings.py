"""Earlier wordings of a line, to look at and bring back."""

from datetime import date

from PySide6.QtWidgets import QDialog, QHBoxLayout, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.window import wording
from keeper.window.desk import Desk
from keeper.window.parts import label, plain_button, row


class WordingsDialog(QDialog):
    """Lists the earlier wordings; ``chosen`` is the one to bring back."""

    def __init__(self, desk: Desk, night: date, kind: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.chosen = ""
        self.setWindowTitle("Earlier wordings")
        self.setMinimumSize(desk.look.px(36), desk.look.px(20))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[desk.look.px(1.2)] * 4)
        layout.addWidget(label(f"{wording.KIND_NAMES[kind]}, {wording.long_date(night)}", "quiet"))
        self.list = QListWidget()
        self.list.setWordWrap(True)
        self.list.setProperty("words", True)
        for earlier in reading.wordings(desk.store, night, kind):
            item = QListWidgetItem(earlier.text)
            item.setToolTip(f"Replaced {wording.short_date(earlier.replaced_at.astimezone().date())}")
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self.list.itemActivated.connect(lambda _: self._bring_back())
        layout.addWidget(self.list)
        layout.addLayout(self._buttons())

    def _buttons(self) -> QHBoxLayout:
        answers = (("Cancel", self.reject), ("Bring back", self._bring_back))
        return row(None, *(plain_button(text, pressed, by_enter=True) for text, pressed in answers))

    def _bring_back(self) -> None:
        if self.list.currentItem():
            self.chosen = self.list.currentItem().text()
            self.accept()

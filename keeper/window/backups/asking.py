"""Asking whether a whole keeper is to be brought back."""

from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from keeper.actions.backups import Backup
from keeper.window.backups import wording as backup_wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, plain_button, row


class BringBackDialog(QDialog):
    """``exec()`` returns 1 when it is."""

    def __init__(self, desk: Desk, backup: Backup, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Bring back")
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        layout.addWidget(label(f"The keeper as of {backup_wording.when(backup)}", "words"))
        layout.addWidget(label(backup_wording.held(backup), "quiet"))
        layout.addWidget(label(
            "The keeper will hold this and nothing later. What it holds now is kept aside first, and stands in the list of "
            "backups. To bring back single nights, look inside."
        ))  # fmt: skip
        self.leave, self.bring = plain_button("Cancel", self.reject), plain_button("Bring back", self.accept)
        layout.addLayout(row(None, self.leave, self.bring))
        self.setMinimumWidth(px(30))
        # A key pressed too early brings nothing back.
        self.leave.setFocus()

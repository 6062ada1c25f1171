"""One backup in the list."""

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.backups import Backup
from keeper.window.backups import wording as backup_wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row

Act = Callable[[Backup], None]


class BackupRow(QWidget):
    """When it was made and what it holds; one that cannot be read offers nothing."""

    def __init__(self, desk: Desk, backup: Backup, look_inside: Act, bring_back: Act) -> None:
        super().__init__()
        self.backup = backup
        px, when = desk.look.px, backup_wording.when(backup)
        self.when, self.held = label(when, "spoken"), label(backup_wording.held(backup), "quiet")
        self.look = quiet_button("Look inside", lambda: look_inside(backup), f"Look inside the backup of {when}")
        self.bring = quiet_button("Bring back", lambda: bring_back(backup), f"Bring back the backup of {when}")
        body = QVBoxLayout(self)
        body.setContentsMargins(0, px(0.3), 0, px(0.3))
        body.setSpacing(0)
        above = row(self.when, self.look, self.bring, gap=px(1))
        above.setStretch(0, 1)
        body.addLayout(above)
        body.addWidget(self.held)
        for button in (self.look, self.bring):
            button.setVisible(backup.sound)

    def let_act(self, may: bool) -> None:
        """While a keeper is being brought back no other is."""
        self.bring.setEnabled(may)

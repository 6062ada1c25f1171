"""Asking whether a keeper is to be begun, in a folder that was named and has none."""

from PySide6.QtWidgets import QDialog, QVBoxLayout

from keeper.window.desk.look import Look
from keeper.window.parts.small import breakable, label, plain_button, row


class BeginDialog(QDialog):
    """``exec()`` returns 1 when a keeper is to be begun."""

    def __init__(self, look: Look, sentence: str) -> None:
        super().__init__()
        self.setWindowTitle("Keeper of Days")
        px = look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.7))
        self.told = label(breakable(sentence), "plain")
        layout.addWidget(self.told)
        layout.addWidget(label("You can begin a new one there. If you meant another, its disk may not be connected.", "quiet"))
        self.leave, self.begin = plain_button("Cancel", self.reject), plain_button("Begin a keeper", self.accept)
        layout.addLayout(row(None, self.leave, self.begin))
        self.setMinimumWidth(px(28))
        # A key pressed too early begins nothing.
        self.leave.setFocus()

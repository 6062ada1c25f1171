"""The sheet of keys: quiet, closed by the key that opened it."""

from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QScrollArea, QVBoxLayout, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.desk.on_screen import resize_within_screen
from keeper.window.parts.keys_shown import rows
from keeper.window.parts.small import label, plain_button, row


class KeysSheet(QDialog):
    """All keys and what they do."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.8))
        layout.addWidget(label("Keys", "words"))
        sheet = QWidget()
        sheet.setLayout(rows(desk.look))
        around = QScrollArea()
        around.setAccessibleName("Keys")
        around.setWidget(sheet)
        around.setWidgetResizable(True)
        layout.addWidget(around, 1)
        self.close_button = plain_button("Close", self.accept)
        layout.addLayout(row(None, self.close_button))
        QShortcut(QKeySequence("F1"), self).activated.connect(self.accept)
        around.setFocus()
        room = sheet.sizeHint()
        resize_within_screen(self, px(46), room.height() + px(9))

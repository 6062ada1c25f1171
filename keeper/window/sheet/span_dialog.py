"""Which nights stand on the sheet, where they are not a month."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QGridLayout, QVBoxLayout, QWidget

from keeper.actions.sheet.asking import check_span
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.date_edit import SUCH_AS, DateEdit, span_told


class NightsDialog(QDialog):
    """Asks for the first and the last night; ``span`` is what was chosen."""

    def __init__(self, desk: Desk, first: date, last: date, parent: QWidget) -> None:
        super().__init__(parent)
        self.span = (first, last)
        self.setWindowTitle("Nights on the sheet")
        self.first, self.last = DateEdit(desk, "From, the first night"), DateEdit(desk, "Until, the last night")
        self.first.setText(wording.shorter_date(first))
        self.last.setText(wording.shorter_date(last))
        self.told = label("", "quiet")
        self.act = plain_button("Show", self.take)
        px = desk.look.px
        grid = QGridLayout()
        for number, (word, edit) in enumerate((("From", self.first), ("Until", self.last))):
            grid.addWidget(label(word, "quiet", wrap=False), number, 0)
            grid.addWidget(edit, number, 1)
            edit.textEdited.connect(lambda _: self._follow())
        self.first.returnPressed.connect(self.last.setFocus)
        self.last.returnPressed.connect(self.take)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[px(1.2)] * 4)
        layout.setSpacing(px(0.6))
        layout.addLayout(grid)
        layout.addWidget(self.told)
        layout.addStretch(1)
        layout.addLayout(row(None, plain_button("Cancel", self.reject), self.act))
        self.setMinimumSize(px(26), px(13))
        self._follow()
        self.first.selectAll()
        self.first.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Enter belongs to the fields: it goes on to the next of them.
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)

    def _follow(self) -> None:
        self.told.setText(span_told(self.first, self.last, "from", "until") or f"Such as {SUCH_AS}.")

    def take(self) -> None:
        """Take these nights; say what is wrong with them."""
        try:
            begins, ends = self.first.meant(), self.last.meant()
            if begins is None or ends is None:
                self.told.setText(f"The first night and the last, such as {SUCH_AS}.")
                return
            check_span(begins.first, ends.last)
        except KeeperError as error:
            self.told.setText(str(error))
            return
        self.span = (begins.first, ends.last)
        self.accept()

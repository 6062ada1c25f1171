"""A line moved to another night, or made one of another kind."""

from datetime import date

from PySide6.QtWidgets import QDialog, QGridLayout, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.history.moving import move_line
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.date_edit import SUCH_AS, DateEdit


class MoveLineDialog(QDialog):
    """Asks for a night and a kind; says what is in the way, and goes to the line once it is moved."""

    def __init__(self, desk: Desk, night: date, kind: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self.night, self.kind = desk, night, kind
        self.setWindowTitle("Move a line")
        self.to_night = DateEdit(desk, "The night it belongs to")
        self.to_night.setText(wording.full_date(night))
        self.to_night.setPlaceholderText(SUCH_AS)
        self.to_kind = Choice(desk.look, "The kind it is")
        kinds = [one for one in reading.every_kind(desk.store) if one.key == kind or one.asked_on(night)]
        for one in kinds:
            self.to_kind.addItem(one.title, one.key)
        self.to_kind.setCurrentIndex(self.to_kind.findData(kind))
        self.told = label("What it says stays here as an earlier wording.", "quiet")
        self.act = plain_button("Move", self.take)
        self._lay_out()
        self.to_night.returnPressed.connect(self.take)
        self.to_night.setFocus()
        self.to_night.selectAll()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        layout.addWidget(label(f"{self.to_kind.currentText()}, {wording.long_date(self.night)}"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(0.6))
        grid.setVerticalSpacing(px(0.4))
        for number, (word, edit) in enumerate((("To", self.to_night), ("As", self.to_kind))):
            grid.addWidget(label(word, "quiet", wrap=False), number, 0)
            grid.addWidget(edit, number, 1)
        grid.setColumnStretch(1, 1)
        layout.addLayout(grid)
        layout.addWidget(self.told)
        layout.addStretch(1)
        layout.addLayout(row(None, plain_button("Cancel", self.reject), self.act))
        self.told.ensurePolished()
        self.told.setMinimumHeight(self.told.fontMetrics().lineSpacing() * 3)
        self.setMinimumWidth(px(30))

    def take(self) -> None:
        """Move it; what is in the way is said, and nothing is moved."""
        meant = self.to_night.meant_or_none()
        night = meant.first if meant else None
        if night is None or meant.last != night or night > self.desk.latest_night():
            self.told.setText(f"Which night is meant? Such as {SUCH_AS}; none that is still to come.")
            return
        here, kind, to, clock = self.night, self.kind, self.to_kind.currentData(), self.desk.clock
        self.desk.write(
            lambda store: move_line(store, here, kind, night, to, clock), lambda line: self._on_moved(line), self._on_failed
        )

    def _on_moved(self, line) -> None:
        self.accept()
        self.desk.changed.emit()
        self.desk.go("night", line.night)
        self.desk.said.emit(f"Moved: {line.kind_title}, {wording.long_date(line.night)}.")

    def _on_failed(self, error: KeeperError) -> None:
        self.told.setText(str(error))
        self.to_night.setFocus()

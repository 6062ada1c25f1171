"""The field for a later word under an old line: kept as it is typed, never asked for."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.remembering import later
from keeper.actions.writing import readable
from keeper.dates.written import full_date, shortest
from keeper.errors import KeeperError
from keeper.model import Line
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, row, rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

_TOLD = 60
"""So many letters of a line tell which one it is."""


class LaterField(QWidget):
    """What is thought tonight of one line; where a mood was noted on its night, how that looks from here.

    ``field`` has the words, ``looks`` the number.
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk, self.line, self._night = desk, None, desk.tonight()
        self.under = label("", "quiet")
        self.field = Field()
        self.field.setPlaceholderText("A later word")
        self.field.read_both_ways()
        self.field.left.connect(self.keep)
        self._words = PutBy(desk, self.field, "later word", self._write)
        self._words.kept.connect(lambda *_: self._say_state())
        self.state = label("", "quiet", wrap=False)
        self.noted = label("", "quiet", wrap=False)
        self.looks = QLineEdit()
        self.looks.setFixedWidth(desk.look.px(2.6))
        self._number = PutBy(desk, self.looks, "how it looks", self._look_anew)
        self.looks.editingFinished.connect(self._number.put_by)
        self.field.textChanged.connect(self._say_state)
        self._lay_out()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)
        self.dress()

    def _lay_out(self) -> None:
        px = self._desk.look.px
        column = QVBoxLayout(self)
        column.setContentsMargins(0, px(0.9), 0, px(0.5))
        column.setSpacing(px(0.3))
        head = row(self.under, self.state)
        head.setStretch(0, 1)
        head.setAlignment(self.state, Qt.AlignmentFlag.AlignTop)
        column.addLayout(head)
        column.addWidget(self.field)
        column.addWidget(rule())
        self.mood = QWidget()
        self.mood.setLayout(row(self.noted, self.looks, None))
        column.addWidget(self.mood)
        self.hide()

    def dress(self) -> None:
        """Take up the typeface in force."""
        self.field.ensurePolished()
        self.field.document().setDefaultFont(self.field.font())
        self.field.fit()

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        # When the field has its new width, it has other rows.
        QTimer.singleShot(0, self.field, self.field.fit)

    # showing

    def show_line(self, line: Line | None) -> None:
        """Be for this line, or for none; what was typed for another is kept."""
        if line is None or line.night >= self._desk.tonight():
            self.line = None
            self.hide()
            return
        if self.line is not None and self.line.id != line.id:
            self.keep()
        self.line, self._night = line, self._desk.tonight()
        told = f"A later word under {line.kind_in_sentence} of {full_date(line.night)}"
        words = " ".join(line.text.split())
        cut = words if len(words) <= _TOLD else f"{words[:_TOLD].rstrip()}\u2026"
        self.under.setText(f"{told}: \u201c{cut}\u201d")
        self.field.setAccessibleName(told)
        self.show()
        self.refresh()

    def refresh(self) -> None:
        """Ask again what is kept; what is being typed stays."""
        if self.line is None:
            return
        try:
            now = later.under(self._desk.store, self.line.id, self._night)
        except KeeperError as error:
            self._desk.said.emit(str(error))
            self.hide()
            return
        self._words.show(self.line.id, now.text)
        self.mood.setVisible(now.tracker is not None)
        if now.tracker:
            self.noted.setText(f"{now.tracker.name} {shortest(now.was.value)} that night; from here")
            self.looks.setAccessibleName(f"How {now.tracker.name} of that night looks from here")
            self._number.show(self.line.id, "" if now.looks is None else shortest(now.looks))
        self._say_state()

    def _say_state(self) -> None:
        words = self.field.words().strip()
        self.state.setText("" if not words else "\u2026" if self._words.waits() else "kept")

    # writing

    def keep(self) -> None:
        """Keep what is typed."""
        self.field.settle()
        self._words.put_by()
        self._number.put_by()

    def _write(self, store, line_id: str, words: str) -> None:
        later.write(store, line_id, self._night, readable(words), self._desk.clock)

    def _look_anew(self, store, line_id: str, typed: str) -> None:
        later.look_anew(store, line_id, self._night, typed, self._desk.clock)

"""A line met anywhere, or the lines of a night: their later words, and the field for another."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from keeper.actions.remembering.later import under
from keeper.errors import KeeperError
from keeper.model import Line
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.on_screen import resize_within_screen
from keeper.window.parts.later.field import LaterField
from keeper.window.parts.later.shown import LaterWords
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.small import label, plain_button, quiet_button, row
from keeper.window.parts.words_shown import line_words


class LaterDialog(QDialog):
    """Opened over whatever page a line is met on; what is typed is kept as it is typed."""

    def __init__(self, desk: Desk, lines: Sequence[Line], parent: QWidget | None = None, said_on: date | None = None) -> None:
        """``said_on``: the field is for what was said then of the first line, else for tonight."""
        super().__init__(parent)
        self._desk, self._lines = desk, lines
        self._before: dict[str, LaterWords] = {}
        self.setWindowTitle("A later word")
        self.later = LaterField(desk)
        px = desk.look.px
        inside = QWidget()
        self._column = QVBoxLayout(inside)
        self._column.setContentsMargins(px(1.4), px(1.0), px(1.4), 0)
        self._column.setSpacing(px(0.3))
        self._column.addWidget(label(wording.long_date(lines[0].night), "section"))
        for line in lines:
            self._add(line)
        self._column.addWidget(self.later)
        self._column.addStretch(1)
        scrolled = LowWindow()
        scrolled.setWidget(inside)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, px(1.0))
        layout.addWidget(scrolled, 1)
        foot = row(None, plain_button("Close", self.accept))
        foot.setContentsMargins(px(1.4), 0, px(1.4), 0)
        layout.addLayout(foot)
        self._turn_to(lines[0], said_on)
        desk.changed.connect(self._show_before)
        resize_within_screen(self, px(40), inside.sizeHint().height() + px(5))

    def _add(self, line: Line) -> None:
        other = quiet_button("A later word", lambda: self._turn_to(line), f"A later word under {line.kind_in_sentence}")
        # Of a single one the field is there already.
        other.setVisible(len(self._lines) > 1)
        head = row(label(line.kind_title, "quiet"), other)
        head.setStretch(0, 1)
        self._column.addLayout(head)
        self._column.addWidget(line_words(line.text))
        self._before[line.id] = LaterWords(self._desk, line, self._turn_to)
        self._column.addWidget(self._before[line.id])

    def _turn_to(self, line: Line, said_on: date | None = None) -> None:
        self.later.show_line(line, said_on)
        self._show_before()
        self.later.field.setFocus()

    def _show_before(self) -> None:
        """Show what was said under each line, but for what stands in the field."""
        for shown in self._lines:
            try:
                line = under(self._desk.store, shown.id, self._desk.tonight()).line
            except KeeperError:
                # The field says so.
                continue
            self._before[line.id].show_line(line, self.later.night if self.later.line and line.id == self.later.line.id else None)

    def done(self, result: int) -> None:
        """Keep what is typed, whichever way it is closed."""
        self.later.keep()
        super().done(result)

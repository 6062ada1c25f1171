"""A line met anywhere, or the lines of a night: their later words, and the field for another."""

from collections.abc import Sequence

from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

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

    def __init__(self, desk: Desk, lines: Sequence[Line], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._lines = desk, lines
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
        self.later.show_line(lines[0])
        self.later.field.setFocus()
        resize_within_screen(self, px(40), inside.sizeHint().height() + px(5))

    def _add(self, line: Line) -> None:
        other = quiet_button("A later word", lambda: self._turn_to(line), f"A later word under {line.kind_in_sentence}")
        # Of a single one the field is there already.
        other.setVisible(len(self._lines) > 1)
        head = row(label(line.kind_title, "quiet"), other)
        head.setStretch(0, 1)
        self._column.addLayout(head)
        self._column.addWidget(line_words(line.text))
        before = LaterWords(self._desk.look, line)
        # What is said of it tonight stands in the field.
        before.show_line(line, self._desk.tonight())
        self._column.addWidget(before)

    def _turn_to(self, line: Line) -> None:
        self.later.show_line(line)
        self.later.field.setFocus()

    def done(self, result: int) -> None:
        """Keep what is typed, whichever way it is closed."""
        self.later.keep()
        super().done(result)

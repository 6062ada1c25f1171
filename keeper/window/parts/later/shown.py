"""The later words under a line, as they stand with it."""

from collections.abc import Callable
from datetime import date

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from keeper.dates.distance import years_on
from keeper.dates.written import full_date, shortest
from keeper.model import Line
from keeper.model.later import LaterWord
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, label, quiet_button, row
from keeper.window.parts.words_shown import line_words


def head_of(line: Line, word: LaterWord) -> str:
    """Such as "A year on, 14 November 2026 · mood 6 from there, 3 that night"."""
    on = years_on(line.night, word.said_on) if word.said_on > line.night else "Later"
    return " \u00b7 ".join(part for part in (f"{on}, {full_date(word.said_on)}", looks_told(word)) if part)


def looks_told(word: LaterWord) -> str:
    """How a reading of the line's night looks from the later one; "" where that was not said."""
    if word.looks is None or not word.of:
        return ""
    was = f", {shortest(word.was)} that night" if word.was is not None else ""
    return f"{word.of} {shortest(word.looks)} from there{was}"


class LaterWords(QWidget):
    """What was said of a line on later nights, the oldest first, each to be changed; nothing where nothing was.

    ``change`` is called with the line and the night of a word that is to be
    changed; without it the word is asked for by the desk.
    """

    def __init__(self, desk: Desk, line: Line, change: Callable[[Line, date], None] | None = None) -> None:
        super().__init__()
        self._desk, self._change = desk, change or desk.change_wanted.emit
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(desk.look.px(1.2), 0, 0, 0)
        self._column.setSpacing(0)
        self._shown: tuple | None = None
        self.show_line(line)

    def show_line(self, line: Line, but: date | None = None) -> None:
        """Show those of a line as they are now, but not what was said on a night on which it stands in a field."""
        words = tuple(word for word in line.later if word.said_on != but)
        if words == self._shown:
            return
        self._shown = words
        emptied(self._column)
        for word in words:
            self._column.addLayout(self._head(line, word))
            if word.text:
                self._column.addWidget(line_words(word.text))
            self._column.addSpacing(self._desk.look.px(0.25))
        self.setVisible(bool(words))

    def _head(self, line: Line, word: LaterWord) -> QHBoxLayout:
        said = f"Change what was said of {line.kind_in_sentence} on {full_date(word.said_on)}"
        made = row(label(head_of(line, word), "quiet"), quiet_button("Change", lambda: self._change(line, word.said_on), said))
        made.setStretch(0, 1)
        return made

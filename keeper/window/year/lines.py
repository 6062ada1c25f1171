"""Lines that stand for a month or a year, each to be replaced or left out."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QGridLayout, QPushButton, QVBoxLayout, QWidget

from keeper.model import Line
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import quiet_button
from keeper.window.parts.words_shown import line_words

Replace = Callable[[Line], None]


class LineRows(QWidget):
    """One line a row: its night, its words, and what can be done with it.

    ``another`` and ``leave_out`` hear the line; without them the rows are only
    to be read.
    """

    def __init__(self, desk: Desk, another: Replace | None = None, leave_out: Replace | None = None) -> None:
        super().__init__()
        self.desk = desk
        self.lines: tuple[Line, ...] = ()
        self._another, self._leave_out = another, leave_out
        self._rows: list[list[QWidget]] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._grid: QWidget | None = None

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show these lines; the focus stays in its row."""
        lines = tuple(lines)
        if lines == self.lines and self._grid:
            return
        held = self._focus_held()
        self.lines = lines
        if self._grid:
            self._grid.hide()
            self._grid.deleteLater()
        self._grid = self._made(lines)
        self._layout.addWidget(self._grid)
        if held and self._rows:
            place, column = min(held[0], len(self._rows) - 1), held[1]
            self._rows[place][column].setFocus()

    def _focus_held(self) -> tuple[int, int] | None:
        focus = QApplication.focusWidget()
        return next(((place, parts.index(focus)) for place, parts in enumerate(self._rows) if focus in parts), None)

    def _made(self, lines: Sequence[Line]) -> QWidget:
        made = QWidget()
        grid = QGridLayout(made)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(self.desk.look.px(0.9))
        grid.setVerticalSpacing(self.desk.look.px(0.35))
        grid.setColumnStretch(1, 1)
        self._rows = [self._row(grid, place, line) for place, line in enumerate(lines)]
        return made

    def _row(self, grid: QGridLayout, place: int, line: Line) -> list[QWidget]:
        name = wording.weekday_and_day(line.night)
        night = quiet_button(name, lambda: self.desk.go("night", line.night), f"Open the night of {name}")
        night.setMinimumWidth(self.desk.look.px(5.2))
        parts: list[QWidget] = [night]
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(night, place, 0, top)
        grid.addWidget(line_words(line.text), place, 1)
        for column, (text, told, act) in enumerate(self._acts(line), 2):
            button: QPushButton = quiet_button(text, lambda act=act: act(line), f"{told} of {name}")
            grid.addWidget(button, place, column, top)
            parts.append(button)
        return parts

    def _acts(self, line: Line):
        if self._another:
            yield "Another", f"Put another line in the place of {line.kind_in_sentence}", self._another
        if self._leave_out:
            yield "Remove", f"Remove {line.kind_in_sentence}", self._leave_out

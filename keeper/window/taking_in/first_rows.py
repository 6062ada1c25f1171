"""The first rows of a file, with what each column is chosen above it."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QBrush, QColor
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.meant import DATE
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.choice import Choice
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.tips import plain_tip

_ROW, _CHOICE, _NARROWEST, _WIDEST = 1.7, 2.2, 9, 24
"""Heights and widths in times the text's height."""

MOST_COLUMNS = 40
_AT_A_TIME = 4
_LONGEST_FILE = 22
_MOST_LETTERS = 200


class FirstRows(QTableWidget):
    """Twenty rows at most. ``chosen`` comes when a column is said to be something else."""

    chosen = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.choices: list[Choice] = []
        self._looked: FileLooked | None = None
        self._coming = Piecemeal(self)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setCornerButtonEnabled(False)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setAccessibleName("The first rows of the file, under what each column is")

    def show_file(self, looked: FileLooked, offered: Sequence[tuple[str, str]]) -> None:
        """Show the rows of a file; ``offered`` is what a column can be, each with its name."""
        self._looked = looked
        self.clear()
        self.choices = []
        wide = min(len(looked.names), MOST_COLUMNS)
        self.setColumnCount(wide)
        self.setRowCount(1 + len(looked.rows))
        self.setHorizontalHeaderLabels([name.replace("&", "&&") for name in looked.names[:wide]])
        self.setVerticalHeaderLabels(["", *(f"{_short(row.file)}  " if row.file else f"{row.number}  " for row in looked.rows)])
        # Of many columns the last are not seen before the first.
        pieces = few_at_a_time(_AT_A_TIME, lambda at: self._add_choice(at, looked.meant.columns[at], offered), range(wide))
        self._coming.begin(pieces, at_once=2)
        self._fill()
        self.fit()

    def columns(self) -> tuple[str, ...]:
        """What each column is said to be, those not shown as they were taken to be."""
        said = tuple(choice.currentData() for choice in self.choices)
        return said + (self._looked.meant.columns[len(said) :] if self._looked else ())

    def _add_choice(self, at: int, what: str, offered: Sequence[tuple[str, str]]) -> None:
        choice = Choice(self._look, f"What the column {self._looked.names[at]} is")
        for value, name in offered:
            choice.addItem(name, value)
        choice.setCurrentIndex(max(0, choice.findData(what)))
        choice.currentIndexChanged.connect(self._on_chosen)
        self.choices.append(choice)
        within = QWidget()
        beside = QHBoxLayout(within)
        beside.setContentsMargins(0, 0, self._look.px(0.8), 0)
        beside.addWidget(choice, 1)
        self.setCellWidget(0, at, within)
        # They come last, and stand above what lies below the rows.
        self.setTabOrder(self.choices[-2] if at else self, choice)
        self._fit_column(at)

    def _on_chosen(self) -> None:
        self._fill()
        self.chosen.emit()

    def _fill(self) -> None:
        columns, quiet = self.columns(), QBrush(QColor(self._look.palette.quiet))
        for place, row in enumerate(self._looked.rows, 1):
            for at in range(self.columnCount()):
                cell = row.cells[at] if at < len(row.cells) else ""
                told, plain = self._told(cell, columns[at])
                item = QTableWidgetItem(told[:_MOST_LETTERS])
                item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
                if len(cell) > 24:
                    item.setToolTip(plain_tip(cell[:1000]))
                if not plain:
                    item.setForeground(quiet)
                self.setItem(place, at, item)

    def _told(self, cell: str, what: str) -> tuple[str, bool]:
        """A cell as it is understood, and whether it is read at all and could be."""
        if what != DATE:
            return " ".join(cell.split()), bool(what)
        night = self._looked.dates.night(cell)
        return (wording.short_date(night), True) if night else (f"{cell} (not a date)" if cell else "", False)

    def fit(self) -> None:
        """Take up the palette and text size in force."""
        px = self._look.px
        self.verticalHeader().setDefaultSectionSize(px(_ROW))
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setFixedHeight(px(1.9))
        self.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.verticalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        if self.rowCount():
            self.setRowHeight(0, px(_CHOICE))
        for at in range(len(self.choices)):
            self._fit_column(at)
        # All rows are seen without a bar of their own: the page scrolls.
        self.setFixedHeight(px(1.9) + px(_CHOICE) + px(_ROW) * max(self.rowCount() - 1, 0) + px(0.8))
        if self._looked:
            self._fill()

    def _fit_column(self, at: int) -> None:
        px = self._look.px
        wanted = max(self.sizeHintForColumn(at) + px(1), self.choices[at].sizeHint().width() + px(0.8))
        self.setColumnWidth(at, min(max(wanted, px(_NARROWEST)), px(_WIDEST)))


def _short(file: str) -> str:
    return file if len(file) <= _LONGEST_FILE else f"\u2026{file[1 - _LONGEST_FILE :]}"

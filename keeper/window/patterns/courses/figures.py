"""The numbers behind a chart, as a table to be walked through by keys."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from keeper.review.courses.values import Figures
from keeper.window.desk.look import Look

_ROWS = 16
"""So many rows are seen at once; of more the table scrolls."""


class FiguresTable(QTableWidget):
    """Read only; Tab goes on to what comes after it."""

    def __init__(self, look: Look, name: str) -> None:
        super().__init__()
        self._look = look
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.verticalHeader().hide()
        self.horizontalHeader().setHighlightSections(False)
        # As far from the edge as what stands below.
        self.horizontalHeader().setStyleSheet("QHeaderView::section { padding: 0 3px; }")
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def show_figures(self, figures: Figures) -> None:
        """Show other numbers."""
        self.setColumnCount(len(figures.heads))
        self.setRowCount(len(figures.rows))
        for column, head in enumerate(figures.heads):
            self.setHorizontalHeaderItem(column, _item(head, column))
        if figures.heads:
            # What a row is of is read whole, in whatever size of letters.
            self.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        for place, row in enumerate(figures.rows):
            for column, text in enumerate(row):
                item = _item(text, column)
                # Read aloud, a number alone says nothing.
                item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{figures.heads[column]} {text or 'none'}".strip())
                self.setItem(place, column, item)
        self.fit()

    def fit(self) -> None:
        """Be as high as the rows ask for."""
        high = self._look.px(1.7)
        self.verticalHeader().setDefaultSectionSize(high)
        self.horizontalHeader().setFixedHeight(high)
        self.setFixedHeight(high * (min(self.rowCount(), _ROWS) + 1) + 4)


def _item(text: str, column: int) -> QTableWidgetItem:
    made = QTableWidgetItem(text)
    side = Qt.AlignmentFlag.AlignLeft if column == 0 else Qt.AlignmentFlag.AlignRight
    made.setTextAlignment(side | Qt.AlignmentFlag.AlignVCenter)
    return made

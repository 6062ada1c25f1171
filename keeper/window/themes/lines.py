"""A theme's lines: drawn as Find draws them, under the years they belong to."""

from collections.abc import Callable

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QListView, QStyleOptionViewItem

from keeper.model import Found
from keeper.window.desk.look import Look
from keeper.window.parts.found_list import FoundDelegate, FoundList, FoundModel

_SELECT = QItemSelectionModel.SelectionFlag.Select
_NO_UPDATE = QItemSelectionModel.SelectionFlag.NoUpdate


class _ByYear(FoundDelegate):
    """Writes the year over the first line of each."""

    by_year = True

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        size = super().sizeHint(option, index)
        return size + QSize(0, self._head_height()) if self._begins(index) else size

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        if self._begins(index):
            look, head = self._look, QRectF(option.rect)
            head.setHeight(self._head_height())
            painter.setFont(look.serif(1.25))
            painter.setPen(QColor(look.palette.quiet))
            year = str(index.model().at(index.row()).line.night.year)
            where = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
            painter.drawText(head.adjusted(look.px(0.4), 0, 0, -look.px(0.15)), where, year)
            option.rect.setTop(option.rect.top() + self._head_height())
        super().paint(painter, option, index)

    def _head_height(self) -> int:
        return self._look.px(2.3)

    def _begins(self, index: QModelIndex | QPersistentModelIndex) -> bool:
        row, model = index.row(), index.model()
        if not self.by_year:
            return False
        return row == 0 or model.at(row).line.night.year != model.at(row - 1).line.night.year


class ThemeLines(FoundList):
    """The lines of a theme; several can be chosen."""

    def __init__(self, look: Look, more: Callable[[], None]) -> None:
        rows = FoundModel(more)
        super().__init__(look, rows, "Lines of this theme", _ByYear)
        self.rows = rows
        self.setSelectionMode(QListView.SelectionMode.ExtendedSelection)
        self.setAccessibleDescription("Enter opens the night; Shift and the arrows choose several lines; Ctrl+J says a later word under one.")

    def show_lines(self, found: tuple[Found, ...], unfinished: bool, by_year: bool) -> None:
        """Show other lines; those chosen before stay chosen, where they are still here."""
        chosen, scrolled = {one.line.id for one in self.chosen()}, self.verticalScrollBar().value()
        at = self.currentIndex().row()
        self.itemDelegate().by_year = by_year
        self.rows.show(found, "", unfinished)
        if 0 <= at < len(found):
            self.selectionModel().setCurrentIndex(self.rows.index(at, 0), _NO_UPDATE)
        for row, one in enumerate(found):
            if one.line.id in chosen:
                self.selectionModel().select(self.rows.index(row, 0), _SELECT)
        self.verticalScrollBar().setValue(scrolled)

    def chosen_ids(self) -> tuple[str, ...]:
        """The ids of the lines chosen."""
        return tuple(found.line.id for found in self.chosen())

    def chosen(self) -> list[Found]:
        """The lines chosen, from the top."""
        return [self.rows.at(row) for row in sorted(index.row() for index in self.selectedIndexes())]

"""A theme's lines: drawn as Find draws them, under the years they belong to."""

from collections.abc import Callable, Collection

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter
from PySide6.QtWidgets import QListView, QStyleOptionViewItem

from keeper.model import Found
from keeper.window.desk.look import Look
from keeper.window.parts.found_list import FoundDelegate, FoundList, FoundModel

_SELECT = QItemSelectionModel.SelectionFlag.Select
_NO_UPDATE = QItemSelectionModel.SelectionFlag.NoUpdate


class MarksPlace(FoundDelegate):
    """Marks the line one is at, chosen or not: keys do something to it."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().paint(painter, option, index)
        if index.row() == self._view.currentIndex().row() and self._view.hasFocus():
            painter.fillRect(option.rect.left(), option.rect.top() + 2, 2, option.rect.height() - 4, QColor(self._look.palette.ink))


class _ByYear(MarksPlace):
    """Writes the year over the first line of each."""

    by_year = True

    def head(self, found: Found) -> str:
        """When, where and kind, and the other theme that it stands in or comes nearest to."""
        beside = self._view.rows.beside_told(found)
        return f"{super().head(found)} \u00b7 {beside}" if beside else super().head(found)

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


class ThemeLinesModel(FoundModel):
    """A theme's lines; ``beside`` has number and name of the other theme of each, ``loose`` says that it is only the nearest.

    ``leaving`` are the ids of lines that are being put elsewhere: they are shown no more.
    """

    def __init__(self, more: Callable[[], None]) -> None:
        super().__init__(more)
        self.beside: dict[str, tuple[int, str]] = {}
        self.loose = False
        self.leaving: set[str] = set()

    def show(self, found: tuple[Found, ...], typed: str, unfinished: bool) -> None:
        """Show other lines, but for those that are leaving."""
        super().show(self._staying(found), typed, unfinished)

    def append(self, found: tuple[Found, ...], unfinished: bool) -> None:
        """Show more lines, but for those that are leaving."""
        super().append(self._staying(found), unfinished)

    def _staying(self, found: tuple[Found, ...]) -> tuple[Found, ...]:
        return tuple(one for one in found if one.line.id not in self.leaving)

    def let_go(self, line_ids: Collection[str]) -> None:
        """Let lines leave at once; the others close up."""
        self.leaving.update(line_ids)
        for row in reversed(range(self.rowCount())):
            if self._found[row].line.id in self.leaving:
                self.beginRemoveRows(QModelIndex(), row, row)
                del self._found[row]
                self.endRemoveRows()

    def beside_told(self, found: Found) -> str:
        """The other theme in words."""
        name = self.beside.get(found.line.id, (0, ""))[1]
        return f"{'nearest' if self.loose else 'also'}: {name}" if name else ""

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        told = super().data(index, role)
        if role == Qt.ItemDataRole.AccessibleTextRole and told:
            beside = self.beside_told(self.at(index.row()))
            return f"{told} {beside[:1].upper()}{beside[1:]}." if beside else told
        return told


class ThemeLines(FoundList):
    """The lines of a theme; several can be chosen. ``put_in`` comes when P is pressed."""

    put_in = Signal()

    def __init__(self, look: Look, more: Callable[[], None]) -> None:
        rows = ThemeLinesModel(more)
        super().__init__(look, rows, "Lines of this theme", _ByYear)
        self.rows = rows
        self.setSelectionMode(QListView.SelectionMode.ExtendedSelection)
        self.setAccessibleDescription("Enter opens the night; Shift and the arrows choose several lines; Ctrl+J says a later word under one.")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.rows.loose and event.text() in ("p", "P"):
            # A key held down is one wish.
            if not event.isAutoRepeat():
                self.put_in.emit()
        else:
            super().keyPressEvent(event)

    def here(self) -> list[Found]:
        """The lines chosen, or else the one one is at."""
        row = self.currentIndex().row()
        return self.chosen() or ([self.rows.at(row)] if 0 <= row < self.rows.rowCount() else [])

    def show_lines(self, found: tuple[Found, ...], unfinished: bool, by_year: bool) -> None:
        """Show other lines; those chosen before stay chosen, where they are still here."""
        chosen, scrolled = {one.line.id for one in self.chosen()}, self.verticalScrollBar().value()
        at = self.currentIndex().row()
        self.itemDelegate().by_year = by_year
        self.rows.show(found, "", unfinished)
        # Among the loose the first key already is for a line; one put elsewhere leaves its place to the next.
        self.be_at(max(at, 0) if self.rows.loose else at)
        for row in range(self.rows.rowCount()):
            if self.rows.at(row).line.id in chosen:
                self.selectionModel().select(self.rows.index(row, 0), _SELECT)
        self.verticalScrollBar().setValue(scrolled)

    def let_go(self, line_ids: Collection[str]) -> None:
        """Let lines leave; one is then at the line that comes next."""
        row = self.currentIndex().row()
        before = sum(self.rows.at(at).line.id in line_ids for at in range(max(0, row)))
        self.clearSelection()
        self.rows.let_go(line_ids)
        self.be_at(row - before)

    def be_at(self, row: int) -> None:
        """Be at a line, the last where there are not so many; none is chosen by that."""
        at = min(row, self.rows.rowCount() - 1)
        if at >= 0:
            self.selectionModel().setCurrentIndex(self.rows.index(at, 0), _NO_UPDATE)

    def chosen_ids(self) -> tuple[str, ...]:
        """The ids of the lines chosen."""
        return tuple(found.line.id for found in self.chosen())

    def chosen(self) -> list[Found]:
        """The lines chosen, from the top."""
        return [self.rows.at(row) for row in sorted(index.row() for index in self.selectedIndexes())]

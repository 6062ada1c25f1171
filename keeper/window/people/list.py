"""The list of people: its rows, and how they are drawn."""

from collections.abc import Sequence

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFontMetrics, QPainter
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.actions.people import Named
from keeper.window.desk.look import Look
from keeper.window.people import wording as people_wording

_Index = QModelIndex | QPersistentModelIndex


class PeopleModel(QAbstractListModel):
    """People in the order in which they are told."""

    def __init__(self) -> None:
        super().__init__()
        self.people: list[Named] = []

    def show(self, people: Sequence[Named]) -> None:
        """Show these."""
        self.beginResetModel()
        self.people = list(people)
        self.endResetModel()

    def row_of(self, person_id: str) -> int:
        """The row of somebody, or -1."""
        return next((row for row, one in enumerate(self.people) if one.person.id == person_id), -1)

    def rowCount(self, parent: _Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.people)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        one = self.people[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return one.person.names[0]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{one.person.names[0]}. {people_wording.row(one)}"
        return None


class PeopleDelegate(QStyledItemDelegate):
    """Draws a name, and below it how often and when it stood in a line last."""

    def __init__(self, look: Look, view: QListView) -> None:
        super().__init__(view)
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(self._look.px(10), self._look.px(3.3))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        look, px, area = self._look, self._look.px, QRectF(option.rect)
        one = index.model().people[index.row()]
        painter.save()
        if option.state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_MouseOver):
            painter.fillRect(area, QColor(look.palette.wash))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.fillRect(QRectF(area.left(), area.top() + 2, 2, area.height() - 4), QColor(look.palette.ink))
        words = area.adjusted(px(0.6), px(0.3), -px(0.4), -px(0.3))
        self._write(painter, words, Qt.AlignmentFlag.AlignTop, one.person.names[0], look.serif(1.2), look.palette.ink)
        self._write(painter, words, Qt.AlignmentFlag.AlignBottom, people_wording.row(one), look.sans(0.9), look.palette.quiet)
        painter.restore()

    def _write(self, painter: QPainter, area: QRectF, where: Qt.AlignmentFlag, words: str, font, colour: str) -> None:
        painter.setFont(font)
        painter.setPen(QColor(colour))
        shown = QFontMetrics(font).elidedText(words, Qt.TextElideMode.ElideRight, int(area.width()))
        painter.drawText(area, where | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.TextFlag.TextSingleLine, shown)


class PeopleList(QListView):
    """People to choose from: ``opened`` comes with the id of the one clicked or entered."""

    opened = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.rows = PeopleModel()
        self.setModel(self.rows)
        self.setItemDelegate(PeopleDelegate(look, self))
        self.setUniformItemSizes(True)
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("People")
        self.clicked.connect(lambda index: self.opened.emit(self.id_at(index)))
        self.activated.connect(lambda index: self.opened.emit(self.id_at(index)))

    def show_people(self, people: Sequence[Named]) -> None:
        """Show these, staying at whom one is at."""
        was, row, scrolled = self.id_at(self.currentIndex()), self.currentIndex().row(), self.verticalScrollBar().value()
        self.rows.show(people)
        at = self.rows.row_of(was)
        if at < 0 <= row and people:
            at = min(row, len(people) - 1)
        if at >= 0:
            self.setCurrentIndex(self.rows.index(at, 0))
        self.verticalScrollBar().setValue(scrolled)
        self._begin()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._begin()

    def _begin(self) -> None:
        # So that the keys have a place to start from.
        if self.hasFocus() and not self.currentIndex().isValid() and self.rows.rowCount():
            self.setCurrentIndex(self.rows.index(0, 0))

    def id_at(self, index: _Index) -> str:
        """The id of somebody by their row, "" for none."""
        return self.rows.people[index.row()].person.id if index.isValid() else ""

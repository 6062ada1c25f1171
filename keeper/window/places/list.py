"""The list of places: its rows, and how they are drawn."""

from collections.abc import Sequence

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.review.places import PlaceKept
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.places.mark import paint_mark


class PlacesModel(QAbstractListModel):
    """Places in the order in which they are told."""

    def __init__(self) -> None:
        super().__init__()
        self.places: list[PlaceKept] = []

    def show(self, places: Sequence[PlaceKept], latest_first: bool) -> None:
        """Show these places (most nights first), or the latest first; those without a night last."""
        shown = list(places)
        if latest_first:
            shown.sort(key=lambda kept: kept.last.toordinal() if kept.last else 0, reverse=True)
        self.beginResetModel()
        self.places = shown
        self.endResetModel()

    def row_of(self, place_id: str) -> int:
        """The row of a place, or -1."""
        return next((row for row, kept in enumerate(self.places) if kept.place.id == place_id), -1)

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.places)

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        kept = self.places[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return kept.place.name
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{kept.place.name}. {told(kept)}"
        return None


def told(kept: PlaceKept) -> str:
    """Nights, visits and last night of a place, in few words."""
    if kept.last is None:
        parts = ["no night yet"]
    else:
        visits = wording.counted(kept.visits, "visit") if kept.visits > 1 else ""
        parts = [wording.counted(kept.nights, "night"), visits, f"last {wording.shorter_date(kept.last)}"]
    parts = [place_wording.roof(kept.roof), *parts]
    lies = "on the way" if kept.place.on_the_way else "" if kept.point else "no position"
    parts += [lies, "resting" if kept.place.resting else ""]
    return " \u00b7 ".join(part for part in parts if part)


class PlacesDelegate(QStyledItemDelegate):
    """Draws a place: its mark, its name, and below how often one was there."""

    def __init__(self, look: Look, view: QListView) -> None:
        super().__init__(view)
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(self._look.px(10), self._look.px(3.3))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        look, px, area = self._look, self._look.px, QRectF(option.rect)
        kept = index.model().places[index.row()]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if option.state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_MouseOver):
            painter.fillRect(area, QColor(look.palette.wash))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.fillRect(QRectF(area.left(), area.top() + 2, 2, area.height() - 4), QColor(look.palette.ink))
        if kept.place.mark is not None:
            paint_mark(painter, look, QPointF(area.left() + px(0.9), area.center().y()), px(0.36), kept.place.mark)
        words = area.adjusted(px(1.8), px(0.3), -px(0.4), -px(0.3))
        self._write(painter, words, Qt.AlignmentFlag.AlignTop, kept.place.name, look.serif(1.2), look.palette.ink)
        self._write(painter, words, Qt.AlignmentFlag.AlignBottom, told(kept), look.sans(0.9), look.palette.quiet)
        painter.restore()

    def _write(self, painter: QPainter, area: QRectF, where, words: str, font, colour: str) -> None:
        painter.setFont(font)
        painter.setPen(QColor(colour))
        shown = QFontMetrics(font).elidedText(words, Qt.TextElideMode.ElideRight, int(area.width()))
        painter.drawText(area, where | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextSingleLine, shown)


class PlacesList(QListView):
    """Places to choose from: ``opened`` comes with the id of the one clicked or entered.

    ``looked_at`` comes with the id of the one under the pointer or the keys.
    """

    opened = Signal(str)
    looked_at = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.rows = PlacesModel()
        self._beginning = False
        self.setModel(self.rows)
        self.setItemDelegate(PlacesDelegate(look, self))
        self.setUniformItemSizes(True)
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Places")
        self.clicked.connect(lambda index: self.opened.emit(self._id(index)))
        self.activated.connect(lambda index: self.opened.emit(self._id(index)))
        self.entered.connect(lambda index: self.looked_at.emit(self._id(index)))

    def show_places(self, places: Sequence[PlaceKept], latest_first: bool) -> None:
        """Show these, staying at the place one is at."""
        was, scrolled = self._id(self.currentIndex()), self.verticalScrollBar().value()
        self.rows.show(places, latest_first)
        row = self.rows.row_of(was)
        if row >= 0:
            self._stand_at(row)
        self.verticalScrollBar().setValue(scrolled)
        self._begin()

    def currentChanged(self, current: QModelIndex, previous: QModelIndex) -> None:
        super().currentChanged(current, previous)
        if self.hasFocus() and not self._beginning:
            self.looked_at.emit(self._id(current))

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self._begin()

    def _begin(self) -> None:
        # So that the keys have a place to start from; nobody has looked at it yet.
        if self.hasFocus() and not self.currentIndex().isValid() and self.rows.rowCount():
            self._stand_at(0)

    def _stand_at(self, row: int) -> None:
        self._beginning = True
        self.setCurrentIndex(self.rows.index(row, 0))
        self._beginning = False

    def _id(self, index: QModelIndex) -> str:
        return self.rows.places[index.row()].place.id if index.isValid() else ""

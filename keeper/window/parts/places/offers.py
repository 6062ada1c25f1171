"""What the place field offers below it: known places, then towns, then the name as typed."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, QStringListModel, Qt
from PySide6.QtGui import QFont, QFontMetrics, QGuiApplication, QPainter, QPalette
from PySide6.QtWidgets import QCompleter, QLineEdit, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.model import Place
from keeper.town import Town, fold
from keeper.window.parts.places.wording import lies_in

Chosen = Place | Town | str
"""A known place (without an id, one to be begun), a town of the gazetteer, or the name of a new place."""


@dataclass(frozen=True, slots=True)
class Offer:
    """One row: what is taken when it is picked, its name, and quietly where that is."""

    chosen: Chosen
    name: str
    where: str

    @property
    def told(self) -> str:
        """The whole row as one text."""
        return ", ".join(part for part in (self.name, self.where) if part)


def of_place(place: Place) -> Offer:
    """The row of a known place."""
    return Offer(place, place.name, "on the way" if place.on_the_way else lies_in(place))


def of_town(town: Town) -> Offer:
    """The row of a town, by the name under which it was sought."""
    name = town.called
    other = town.local_name or town.name
    # A town's region is often called as the town; once is enough.
    parts = {fold(part): part for part in (town.region, other) if part and fold(part) != fold(name)}
    return Offer(town, name, ", ".join([*reversed(parts.values()), town.country_name]))


def of_name(name: str) -> Offer:
    """The row of a new place."""
    return Offer(name, name, "a new place of your own")


def of_moving(name: str) -> Offer:
    """The row of a new place that is on the way."""
    return Offer(Place("", name, on_the_way=True), name, "on the way: a ferry, a night train")


def unknown_towns(towns: Sequence[Town], known: Sequence[Place]) -> list[Town]:
    """The towns that are not among the known places."""
    ids = {place.geoname_id for place in known}
    return [town for town in towns if town.geoname_id not in ids]


class Offers(QCompleter):
    """The list of offers; ``rows`` are what is in it."""

    def __init__(self, field: QLineEdit, most: int) -> None:
        super().__init__(QStringListModel(field), field)
        self.rows: list[Offer] = []
        self._field, self._edge = field, ""
        self.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        self.setMaxVisibleItems(most)
        self.setWidget(field)
        self.popup().setItemDelegate(_OfferDelegate(self, field))
        self.popup().setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.popup().setAccessibleName("Places offered")

    def show_rows(self, rows: list[Offer], picked: int) -> None:
        """Open the list on these rows, one of them picked out; -1 picks none."""
        self.rows = rows
        self.model().setStringList([row.told for row in rows])
        if not rows:
            self.popup().hide()
            return
        field, popup = self._field, self.popup()
        delegate = popup.itemDelegate()
        edge = QGuiApplication.palette().color(QPalette.ColorRole.Mid).name()
        # A sheet of styles has all of the list dressed anew: at each letter that takes longer than all the rest.
        if edge != self._edge:
            self._edge = edge
            popup.setStyleSheet(f"QListView {{ border: 1px solid {edge}; }}")
        wide = max(field.width(), max(delegate.width(row) for row in rows) + 24)
        self.complete(field.rect().adjusted(0, 0, wide - field.width(), 0))
        popup.setCurrentIndex(self.model().index(picked, 0) if picked >= 0 else QModelIndex())

    def picked(self) -> Offer | None:
        """The row picked out in the open list."""
        row = self.popup().currentIndex().row() if self.popup().isVisible() else -1
        return self.rows[row] if 0 <= row < len(self.rows) else None


class _OfferDelegate(QStyledItemDelegate):
    """Draws a row: the name in the person's voice, where it is in the program's."""

    def __init__(self, offers: Offers, field: QLineEdit) -> None:
        super().__init__(offers)
        self._offers = offers
        self._field = field

    def _quiet(self) -> QFont:
        font = QFont("Source Sans 3")
        font.setPointSizeF(self._field.font().pointSizeF() * 0.8)
        return font

    def width(self, row: Offer) -> int:
        """Pixels that a row takes."""
        name, where = QFontMetrics(self._field.font()), QFontMetrics(self._quiet())
        return name.horizontalAdvance(row.name) + name.height() + where.horizontalAdvance(row.where)

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(100, round(QFontMetrics(self._field.font()).height() * 1.5))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        row, colours = self._offers.rows[index.row()], QGuiApplication.palette()
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(option.rect, colours.color(QPalette.ColorRole.AlternateBase))
        area = QRectF(option.rect).adjusted(4, 0, -4, 0)
        middle = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextSingleLine
        painter.setFont(self._field.font())
        painter.setPen(colours.color(QPalette.ColorRole.Text))
        metrics = painter.fontMetrics()
        name = metrics.elidedText(row.name, Qt.TextElideMode.ElideRight, int(area.width()))
        painter.drawText(area, middle, name)
        area.setLeft(area.left() + metrics.horizontalAdvance(name) + metrics.height() * 0.5)
        painter.setFont(self._quiet())
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        painter.drawText(area, middle, row.where)
        painter.restore()

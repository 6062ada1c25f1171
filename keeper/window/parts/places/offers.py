"""What the place field offers below it: known places, then towns, then the name as typed."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

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
    parts = {_folded(part): part for part in (town.region, other) if part and _folded(part) != _folded(name)}
    return Offer(town, name, ", ".join([*reversed(parts.values()), town.country_name]))


@lru_cache(256)
def _folded(name: str) -> str:
    return fold(name)


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
        self.dress()
        field, popup = self._field, self.popup()
        wide = max(field.width(), max(map(popup.itemDelegate().width, rows)) + 24)
        self.complete(field.rect().adjusted(0, 0, wide - field.width(), 0))
        popup.setCurrentIndex(self.model().index(picked, 0) if picked >= 0 else QModelIndex())

    def dress(self) -> None:
        """Take up the palette in force, if that is another."""
        edge = QGuiApplication.palette().color(QPalette.ColorRole.Mid).name()
        # A sheet of styles has all of the list dressed anew: at each letter that takes longer than all the rest.
        if edge != self._edge:
            self._edge = edge
            self.popup().setStyleSheet(f"QListView {{ border: 1px solid {edge}; }}")
            self.popup().ensurePolished()

    def picked(self) -> Offer | None:
        """The row picked out in the open list."""
        row = self.popup().currentIndex().row() if self.popup().isVisible() else -1
        return self.rows[row] if 0 <= row < len(self.rows) else None


class _OfferDelegate(QStyledItemDelegate):
    """Draws a row: the name in the person's voice, where it is in the program's."""

    def __init__(self, offers: Offers, field: QLineEdit) -> None:
        super().__init__(offers)
        self._offers, self._field = offers, field
        self._voice: QFont | None = None
        self._take_up_font()

    def _take_up_font(self) -> None:
        # A typeface is looked for each time it is named: once for each size, not for each row at each letter.
        voice = self._field.font()
        if voice != self._voice:
            self._voice, self._quiet = voice, QFont("Source Sans 3")
            self._quiet.setPointSizeF(voice.pointSizeF() * 0.8)
            self._name, self._where = QFontMetrics(voice), QFontMetrics(self._quiet)

    def width(self, row: Offer) -> int:
        """Pixels that a row takes."""
        self._take_up_font()
        return self._name.horizontalAdvance(row.name) + self._name.height() + self._where.horizontalAdvance(row.where)

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        self._take_up_font()
        return QSize(100, round(self._name.height() * 1.5))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        row, colours = self._offers.rows[index.row()], QGuiApplication.palette()
        self._take_up_font()
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(option.rect, colours.color(QPalette.ColorRole.AlternateBase))
        area = QRectF(option.rect).adjusted(4, 0, -4, 0)
        middle = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextSingleLine
        painter.setFont(self._voice)
        painter.setPen(colours.color(QPalette.ColorRole.Text))
        metrics = self._name
        name = metrics.elidedText(row.name, Qt.TextElideMode.ElideRight, int(area.width()))
        painter.drawText(area, middle, name)
        area.setLeft(area.left() + metrics.horizontalAdvance(name) + metrics.height() * 0.5)
        painter.setFont(self._quiet)
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        painter.drawText(area, middle, row.where)
        painter.restore()

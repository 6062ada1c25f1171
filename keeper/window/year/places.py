"""A year's whereabouts: the map, and the places with their nights."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from keeper.review.places import PlaceKept, PlacesView, Travels
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import Look
from keeper.window.parts.places.journeys import Journeys
from keeper.window.parts.places.map import MapView
from keeper.window.parts.places.map_supply import MapSupply
from keeper.window.parts.places.mark import paint_mark

MAP_HIGH = 17
NAMED = 12
"""Places named below the map, those of the most nights first."""

_LINE = 1.7
"""Height of a row, in times the text's height."""


class _PageMap(MapView):
    """The map on a page that scrolls: the wheel moves the page until the map has the focus."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def event(self, event: QEvent) -> bool:
        # A click opens a place or moves the map; for the wheel it then is at hand.
        if event.type() == QEvent.Type.MouseButtonPress:
            self.setFocus(Qt.FocusReason.MouseFocusReason)
        return super().event(event)


class PlaceNames(QWidget):
    """Places with their marks and nights, in two columns."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._places: Sequence[PlaceKept] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_places(self, places: Sequence[PlaceKept]) -> None:
        """Show these, the most nights first; beyond NAMED only how many more there are."""
        self._places = tuple(places)
        told = (f"{kept.place.name}, {wording.counted(kept.nights, 'night')}" for kept in places)
        self.setAccessibleName("Places and nights: " + "; ".join(told))
        self.updateGeometry()
        self.update()

    def more(self) -> str:
        """How many places are not named; "" for none."""
        left = len(self._places) - NAMED
        return f"and {wording.counted(left, 'more place')}" if left > 0 else ""

    def _down(self) -> int:
        return -(-min(len(self._places), NAMED) // 2)

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(30), self._look.px(_LINE * (self._down() + bool(self.more()))))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, kept in enumerate(self._places[:NAMED]):
            left = self.width() / 2 * (place // self._down())
            self._paint(painter, kept, left, self._look.px(_LINE) * (place % self._down()))
        painter.setFont(self._look.sans(0.9))
        painter.setPen(QColor(self._look.palette.quiet))
        room = QRectF(0, self._look.px(_LINE * self._down()), self.width(), self._look.px(_LINE))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, self.more())
        painter.end()

    def _paint(self, painter: QPainter, kept: PlaceKept, left: float, top: float) -> None:
        px, high = self._look.px, self._look.px(_LINE)
        paint_mark(painter, self._look, QPointF(left + px(0.6), top + high / 2), px(0.4), kept.place.mark or 0)
        nights = wording.counted(kept.nights, "night")
        painter.setFont(self._look.sans())
        metrics = QFontMetricsF(painter.font())
        room = QRectF(left + px(1.6), top, self.width() / 2 - px(2.4), high)
        name = metrics.elidedText(kept.place.name, Qt.TextElideMode.ElideRight, room.width() - px(5))
        painter.setPen(QColor(self._look.palette.ink))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, name)
        painter.setFont(self._look.sans(0.9))
        painter.setPen(QColor(self._look.palette.quiet))
        room.setLeft(room.left() + metrics.horizontalAdvance(name) + px(0.6))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, nights)


class YearPlaces(QWidget):
    """The map of a year, with the ways between its places, and their nights."""

    def __init__(self, desk: Desk, open_place: Callable[[str], object]) -> None:
        super().__init__()
        self.desk = desk
        self.map = _PageMap(desk.look)
        self.map.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._supply = MapSupply(desk, self.map)
        self.journeys = Journeys(desk, self.map)
        self.map.picked.connect(open_place)
        self.names = PlaceNames(desk.look)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.5))
        layout.addWidget(self.map)
        layout.addWidget(self.names)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.map.setFixedHeight(self.desk.look.px(MAP_HIGH))
        self.map.draw_anew()

    def show_year(self, view: PlacesView, travels: Travels) -> None:
        """Show where the nights of a year were spent."""
        self.dress()
        self.map.setVisible(any(kept.point and kept.nights for kept in view.places))
        self.map.show_places(view.places, fit=True)
        self.names.show_places(view.places)
        self.journeys.travels = travels
        self._supply.bring_ways(travels.ways)

"""The map: an outline of the land with the places one has been, to push about and look closer."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.review.places import PlaceKept
from keeper.study.chart import Chart, fitted
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.places.map_picture import Picture, Spot, set_off, shortened
from keeper.window.parts.places.map_shapes import LEVELS, DrawnWay, Shape, level_for
from keeper.window.parts.places.mark import Marks

_STEP = 1.25
"""How much closer one notch of the wheel, or one press of a key, brings the map."""


class MapView(QWidget):
    """The land, the places, the ways between them.

    ``picked`` comes with the id of the place clicked, ``way_picked`` with the
    Way clicked, ``way_pointed`` with the one under the pointer, or None.
    ``level_wanted`` comes
    with the level of the land that is to be given. ``left_out`` comes with
    more than 0 when not all places and ways in sight could be drawn. ``drawn``
    comes after each drawing, ``shown`` whenever one comes back to the map.
    """

    picked = Signal(str)
    way_picked = Signal(object)
    way_pointed = Signal(object)
    level_wanted = Signal(str)
    left_out = Signal(int)
    drawn = Signal()
    shown = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.chart = Chart()
        self.places: tuple[PlaceKept, ...] = ()
        self._land: dict[str, tuple[Shape, ...]] = {}
        self._asked: set[str] = set()
        self._ways: list[DrawnWay] = []
        self._picture: Picture | None = None
        self._marks: Marks | None = None
        self._untouched = True
        self._held: QPointF | None = None
        self._dragged = False
        self.marked = ""
        self.under = ""
        self._way_under: DrawnWay | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Map of places")
        self._describe()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(36), self._look.px(24))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._look.px(14), self._look.px(11))

    # what it shows

    def show_places(self, places: Sequence[PlaceKept], fit: bool) -> None:
        """Show these places, most nights first; those without a position are left out."""
        self.places = tuple(kept for kept in places if kept.point and kept.nights)
        if fit:
            self.fit()
        self._describe()
        self.draw_anew()

    def show_ways(self, ways: Sequence[DrawnWay]) -> None:
        """Show these ways, the latest first."""
        self._ways = list(ways)
        self._way_under = None
        self.draw_anew()

    def give_land(self, level: str, shapes: tuple[Shape, ...]) -> None:
        """The land at a level; none where it cannot be had. Nothing is drawn before the first is given."""
        self._land[level] = shapes
        self.draw_anew()

    def mark(self, place_id: str) -> None:
        """Set a place off from the others."""
        self.marked = place_id
        self.update()

    def fit(self) -> None:
        """Show all places, as close as they can be seen together."""
        self._untouched = True
        self._frame(fitted([kept.point for kept in self.places], self.width(), self.height(), self._look.px(3)))

    def look_at(self, place_id: str) -> None:
        """Bring a place to the middle, if it is on the map and not in sight."""
        kept = next((kept for kept in self.places if kept.place.id == place_id), None)
        if kept is None:
            return
        x, y = self.chart.nearest_spot(kept.point)
        if not self.rect().adjusted(20, 20, -20, -20).contains(int(x), int(y)):
            self._touch(replace(self.chart, latitude=kept.point[0], longitude=kept.point[1]).moved(0, 0))

    def zoom(self, factor: float, spot: QPointF | None = None) -> None:
        """Look closer, or from further away, a spot staying where it is."""
        self._touch(self.chart.zoomed(factor, *((spot.x(), spot.y()) if spot else ())))

    def draw_anew(self) -> None:
        """Forget the picture; it is drawn again when it is next seen."""
        self._picture = None
        self.update()

    def is_drawn(self) -> bool:
        """Whether there is a picture, so that nothing is to be drawn before something changes."""
        return self._picture is not None

    def _touch(self, chart: Chart) -> None:
        self._untouched = False
        self._frame(chart)

    def _frame(self, chart: Chart) -> None:
        self.chart = chart
        self.update()

    def _describe(self) -> None:
        self.setAccessibleDescription(
            f"{wording.counted(len(self.places), 'place')} on the map. Arrows move it, plus and minus zoom, "
            "Home shows all places. The list beside it opens each place, Journeys below it each journey."
        )

    # drawing

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.shown.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        picture = self._picture_now()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if picture is None:
            painter.fillRect(self.rect(), QColor(self._look.palette.paper))
        else:
            self._lay_down(painter, picture)
        painter.setPen(QPen(QColor(self._look.palette.ink if self.hasFocus() else self._look.palette.faint), 1))
        painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()

    def _lay_down(self, painter: QPainter, picture: Picture) -> None:
        left, top = self._offset(picture)
        painter.drawPixmap(QPointF(left, top), picture.pixmap)
        if self._way_under:
            picture.stress(painter, self._way_under, left, top)
        for spot in picture.spots:
            if spot.kept.place.id in (self.marked, self.under):
                seen = replace(spot, x=spot.x + left, y=spot.y + top)
                words = f"{shortened(spot.kept.place.name)} \u00b7 {wording.counted(spot.kept.nights, 'night')}"
                set_off(painter, self._look, seen, words, self.width())

    def _picture_now(self) -> Picture | None:
        shapes = self._shapes()
        if not self._land:
            return None
        if self._picture is None or not self._still_good(self._picture):
            margin = self._margin()
            chart = replace(self.chart, width=self.width() + 2 * margin, height=self.height() + 2 * margin)
            self._picture = Picture(self._look, self._marks_now(), chart)
            seen = QRectF(margin, margin, self.width(), self.height())
            self._picture.draw(seen, shapes, self._ways, self.places)
            self.left_out.emit(self._picture.left_out)
            self.drawn.emit()
        return self._picture

    def _marks_now(self) -> Marks:
        ratio = self.devicePixelRatioF()
        if self._marks is None or (self._marks.palette, self._marks.ratio) != (self._look.palette, ratio):
            self._marks = Marks(self._look, ratio)
        return self._marks

    def _margin(self) -> int:
        return min(self.width(), self.height()) // 6

    def _offset(self, picture: Picture) -> tuple[float, float]:
        drawn = picture.chart
        x, y = self.chart.nearest_spot((drawn.latitude, drawn.longitude))
        return x - drawn.width / 2, y - drawn.height / 2

    def _still_good(self, picture: Picture) -> bool:
        drawn = picture.chart
        if (drawn.scale, drawn.parallel) != (self.chart.scale, self.chart.parallel):
            return False
        left, top = self._offset(picture)
        return left <= 0 and top <= 0 and left + drawn.width >= self.width() and top + drawn.height >= self.height()

    def _shapes(self) -> tuple[Shape, ...]:
        wanted = level_for(self.chart)
        if wanted not in self._land and wanted not in self._asked:
            self._asked.add(wanted)
            self.level_wanted.emit(wanted)
        nearest = sorted(self._land, key=lambda level: abs(LEVELS.index(level) - LEVELS.index(wanted)))
        return self._land[nearest[0]] if nearest else ()

    # moving

    def place_at(self, where: QPointF) -> str:
        """The id of the place under a point, or ""."""
        if self._picture is None:
            return ""
        left, top = self._offset(self._picture)
        near = [(_beyond(spot, where.x() - left, where.y() - top), spot) for spot in self._picture.spots]
        found = min(near, key=lambda pair: pair[0], default=None)
        return found[1].kept.place.id if found and found[0] <= 5 else ""

    def way_at(self, where: QPointF) -> DrawnWay | None:
        """The way drawn under a point, or None."""
        if self._picture is None:
            return None
        left, top = self._offset(self._picture)
        return self._picture.way_at(where.x() - left, where.y() - top)

    def wheelEvent(self, event: QWheelEvent) -> None:
        self.zoom(_STEP ** (event.angleDelta().y() / 120), event.position())
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._held, self._dragged = event.position(), False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held is not None and event.buttons() & Qt.MouseButton.LeftButton:
            by = event.position() - self._held
            if self._dragged or by.manhattanLength() > 4:
                self._dragged, self._held = True, event.position()
                self._touch(self.chart.moved(by.x(), by.y()))
            return
        self._look_under(self.place_at(event.position()), self.way_at(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        found = self.place_at(event.position())
        way = self.way_at(event.position())
        clicked = event.button() == Qt.MouseButton.LeftButton and self._held is not None and not self._dragged
        self._held = None
        if clicked and found:
            self.picked.emit(found)
        elif clicked and way:
            self.way_picked.emit(way.way)

    def leaveEvent(self, event) -> None:
        super().leaveEvent(event)
        self._look_under("")

    def _look_under(self, place_id: str, way: DrawnWay | None = None) -> None:
        way = None if place_id else way
        if (place_id, way) == (self.under, self._way_under):
            return
        if way is not self._way_under:
            self.way_pointed.emit(way.way if way else None)
        self.under, self._way_under = place_id, way
        self.setCursor(Qt.CursorShape.PointingHandCursor if place_id or way else Qt.CursorShape.ArrowCursor)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = max(20, min(self.width(), self.height()) // 8)
        pushes = {
            Qt.Key.Key_Left: (step, 0), Qt.Key.Key_Right: (-step, 0),
            Qt.Key.Key_Up: (0, step), Qt.Key.Key_Down: (0, -step),
        }  # fmt: skip
        if event.key() in pushes:
            self._touch(self.chart.moved(*pushes[event.key()]))
        elif event.key() in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom(_STEP)
        elif event.key() == Qt.Key.Key_Minus:
            self.zoom(1 / _STEP)
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_0):
            self.fit()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.chart = self.chart.sized(self.width(), self.height())
        if self._untouched:
            self.fit()
        self.draw_anew()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        self.update()


def _beyond(spot: Spot, x: float, y: float) -> float:
    """How many pixels a point lies outside a place's mark; negative within."""
    return ((spot.x - x) ** 2 + (spot.y - y) ** 2) ** 0.5 - spot.radius

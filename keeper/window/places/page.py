"""Places: where one has been, as a map and as a list."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QPushButton, QVBoxLayout, QWidget

from keeper.actions.places import known as places
from keeper.review.places import PlacesView, Travels
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.page_stack import PageStack
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.places.journeys import Journeys
from keeper.window.parts.places.map import MapView
from keeper.window.parts.places.map_supply import MapSupply
from keeper.window.parts.small import headed, label, quiet_button, row
from keeper.window.places.list import PlacesList

if TYPE_CHECKING:
    from keeper.window.parts.word_picture.page import WordPicturePage
    from keeper.window.places.place import PlacePage

NO_MAP = "No place has a position yet, so there is no map. A place\u2019s own page lets you say where it lies."

JOIN = "Count across unknown nights"
LEAVE_OPEN = "Leave unknown nights out"


class PlacesOverview(BasicPage, AsksAgain, LowWindow):
    """The map and the list of all places, for all years or one."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.view: PlacesView | None = None
        self.travels: Travels | None = None
        self._errand = Errand(desk.reader)
        self.heading = label("Places", "head", wrap=False)
        self.year = Choice(desk.look, "Years")
        self.year.addItem("all years", None)
        self.order = QPushButton("Most nights first")
        self.order.setCheckable(True)
        self.order.setProperty("quiet", True)
        self.told = label("", "quiet")
        self.map = MapView(desk.look)
        self._supply = MapSupply(desk, self.map)
        self.journeys = Journeys(desk, self.map)
        self.map_told = label("Zoom in to see everything.", "quiet")
        self.list = PlacesList(desk.look)
        self.beside = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._lay_out()
        self._connect()
        self.lead_with(self.list)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        body = QVBoxLayout(self.within)
        body.setContentsMargins(px(1.5), px(1.4), px(1.5), px(0.6))
        body.setSpacing(px(0.5))
        body.addLayout(headed(self.heading, self.year, self.order))
        body.addWidget(self.told)
        self.mapped = QWidget()
        below = QVBoxLayout(self.mapped)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(px(0.2))
        below.addWidget(self.map, 1)
        below.addLayout(self._nearer_and_farther())
        self.beside.setSpacing(px(1))
        self.beside.addWidget(self.mapped, 3)
        self.beside.addWidget(self.list, 2)
        self._turn()
        body.addLayout(self.beside, 1)

    def _nearer_and_farther(self):
        zoom = self.map.zoom
        self.nearer = quiet_button("Closer", lambda: zoom(1.6), "Look closer at the map")
        self.farther = quiet_button("Farther", lambda: zoom(1 / 1.6), "Look at the map from farther off")
        self.all = quiet_button("All of it", self.map.fit, "Show all places on the map")
        self.join = quiet_button(JOIN, self._join_or_leave)
        listed = self.list_journeys = quiet_button("Journeys", lambda: self.journeys.open_all(listed), "The latest journeys")
        # Its room is kept: where it came, the map would be drawn once more for its new height.
        kept = self.map_told.sizePolicy()
        kept.setRetainSizeWhenHidden(True)
        self.map_told.setSizePolicy(kept)
        self.map_told.hide()
        made = row(Flow(self.desk.look, self.nearer, self.farther, self.all, self.join, listed), self.map_told)
        made.setStretch(0, 3)
        made.setStretch(1, 1)
        self.map_told.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        return made

    def _connect(self) -> None:
        self.year.currentIndexChanged.connect(lambda _: self.ask())
        self.order.toggled.connect(self._on_order)
        self.list.looked_at.connect(self._look_at)
        self.map.left_out.connect(self._tell_left_out)
        self.desk.changed.connect(self.refresh)
        self.desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.list.rows.layoutChanged.emit()
        self.map.draw_anew()
        self._turn()

    # asking

    def ask(self) -> None:
        """Ask for the places of the years chosen, then for the journeys."""
        year, ask = self.year.currentData(), self._errand
        ask.anew(lambda store, task: places.places_view(store, year), self._show)
        ask.also(lambda store, task: places.travels(store, year), self._show_travels)
        ask.also(lambda store, task: places.joined_up(store), lambda up: self.join.setText(LEAVE_OPEN if up else JOIN))

    def _show(self, view: PlacesView) -> None:
        if view == self.view:
            return
        another = self.view is None or view.year != self.view.year or not self.map.places
        if self.view and view.year != self.view.year:
            self.travels = None
            self._supply.stop()
        self.view = view
        self._fill_years(view)
        self.list.show_places(view.places, self.order.isChecked())
        self.map.show_places(view.places, fit=another)
        self.mapped.setVisible(any(kept.point and kept.nights for kept in view.places))
        # Where there is no place yet, there is nothing to choose among.
        self.year.setVisible(bool(view.years))
        self.order.setVisible(bool(view.places))
        self._turn()
        self._tell()

    def _show_travels(self, travels: Travels) -> None:
        if travels == self.travels:
            return
        self.travels = self.journeys.travels = travels
        self.list_journeys.setVisible(bool(travels.legs or travels.open_legs))
        self._name_years(travels)
        self._tell()
        self._supply.bring_ways(travels.ways)

    def _join_or_leave(self) -> None:
        joined = self.join.text() == JOIN
        self.desk.write(lambda store: places.join_up(store, joined), lambda _: self.desk.changed.emit())

    # telling

    def _tell(self) -> None:
        parts = [place_wording.been(self.view)] if self.view else []
        parts += [place_wording.travelled(self.travels)] if self.travels else []
        if self.view and self.view.nights and self.mapped.isHidden():
            parts.append(NO_MAP)
        self.told.setText(" \u00b7 ".join(part for part in parts if part))

    def _tell_left_out(self, number: int) -> None:
        self.map_told.setVisible(number > 0)

    def _fill_years(self, view: PlacesView) -> None:
        shown = [self.year.itemData(place) for place in range(1, self.year.count())]
        if shown == list(view.years):
            return
        self.year.blockSignals(True)
        while self.year.count() > 1:
            self.year.removeItem(1)
        for year in view.years:
            self.year.addItem(str(year), year)
        self.year.setCurrentIndex(max(0, self.year.findData(view.year)))
        self.year.blockSignals(False)

    def _name_years(self, travels: Travels) -> None:
        for place in range(1, self.year.count()):
            year = self.year.itemData(place)
            far = place_wording.kilometres(travels.kilometres.get(year, 0.0) * 1000)
            self.year.setItemText(place, f"{year} \u00b7 {far}" if year in travels.kilometres else str(year))

    def _on_order(self, latest: bool) -> None:
        self.order.setText("Latest first" if latest else "Most nights first")
        if self.view:
            self.list.show_places(self.view.places, latest)

    # looking

    def _look_at(self, place_id: str) -> None:
        self.map.mark(place_id)
        if self.list.hasFocus():
            self.map.look_at(place_id)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._turn()

    def _turn(self) -> None:
        px = self.desk.look.px
        narrow = self.width() < px(42)
        sideways, down = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self.beside.setDirection(down if narrow else sideways)
        self.list.setMinimumSize(px(14), px(11))
        self.list.setMaximumWidth(self.width() if narrow or self.mapped.isHidden() else px(26))


class PlacesPage(PageStack):
    """Where one has been, and each place's own page."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, overview := PlacesOverview(desk))
        self.overview = overview
        self.place: PlacePage | None = None
        self.words: WordPicturePage | None = None
        self.overview.list.opened.connect(self.show_place)
        self.overview.map.picked.connect(self.show_place)

    def show_night(self, night: date) -> None:
        """Show where one has been."""
        self._show_all()

    def _show_all(self) -> None:
        self.see(self.overview)
        self.overview.ask()

    def show_thing(self, thing: str) -> None:
        """Show the place of this id."""
        self.show_place(thing)

    def show_place(self, place_id: str) -> None:
        """Show a place's own page."""
        if self.place is None:
            # Not before it is wanted: it brings photos along.
            from keeper.window.places.place import PlacePage

            self.place = self.join(PlacePage(self.desk), self._back)
            self.place.words_wanted.connect(self.show_words)
            self.place.theme_wanted.connect(lambda number: self.desk.go("themes", thing=number))
        self.place.show_place(place_id)
        self.turn_to(self.place)

    def show_words(self) -> None:
        """Show the picture of words of the place shown."""
        if self.words is None:
            from keeper.window.parts.word_picture.page import WordPicturePage

            self.words = self.join(WordPicturePage(self.desk, "the place"), self._back_from_words)
        self.words.of_place(self.place.place_id, self.place.heading.text())
        self.turn_to(self.words)

    def _back_from_words(self) -> None:
        self.place.ask()
        self.turn_to(self.place)
        self.place.picture.setFocus()

    def _back(self) -> None:
        self._show_all()
        self.overview.setFocus()

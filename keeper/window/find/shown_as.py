"""How what was found is shown: as a list, on the map, by month; or what was worded otherwise and taken out."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from keeper.actions import finding
from keeper.actions.finding import Sought
from keeper.actions.places.found import places_found
from keeper.window.desk.desk import Desk
from keeper.window.find.earlier import EarlierFound
from keeper.window.find.months import MonthsFound
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.found_list import FoundList

LIST, MAP, MONTHS = "as a list", "on the map", "by month"


class ShownAs(QStackedWidget):
    """``month_picked`` comes with the first day of a month, ``place_picked`` with the id of a place, ``chosen`` when shown otherwise."""

    month_picked = Signal(object)
    place_picked = Signal(str)
    chosen = Signal()

    def __init__(self, desk: Desk, answers: FoundList) -> None:
        super().__init__()
        self._desk = desk
        self._errand = Errand(desk.seeker)
        self.choice = Choice(desk.look, "Shown")
        for way in (LIST, MAP, MONTHS):
            self.choice.addItem(way)
        self.map: QWidget | None = None
        self.months = MonthsFound(desk.look)
        self.months.activated.connect(self._pick_month)
        self.months.clicked.connect(self._pick_month)
        self.earlier = EarlierFound(desk)
        self._mapped = QWidget()
        QVBoxLayout(self._mapped).setContentsMargins(0, 0, 0, 0)
        for page in (answers, self._mapped, self.months, self.earlier):
            self.addWidget(page)
        self.sought: Sought | None = None
        self.choice.currentIndexChanged.connect(lambda _: self._turn())

    @property
    def of_lines(self) -> bool:
        """Whether the list of lines is seen."""
        return self.currentIndex() == 0

    def show_found(self, sought: Sought | None) -> None:
        """Show what answers to this, in the way chosen; None: nothing is sought, or what is like a line."""
        self.sought = sought
        self._errand.stop()
        if sought is None and not self.of_lines:
            self.choice.setCurrentIndex(0)
        self._turn_to(self.choice.currentIndex())
        if sought is None or self.of_lines:
            return
        if self.choice.currentText() == MAP:
            self._errand.also(lambda store, task: places_found(store, sought), self._show_places)
        else:
            self._errand.also(lambda store, task: finding.months_found(store, sought), self.months.rows.show)

    def show_earlier(self, typed: str) -> None:
        """Show what was worded otherwise and what was taken out."""
        self._turn_to(3)
        self.earlier.ask(typed)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.months.rows.layoutChanged.emit()
        if self.map:
            self.map.map.draw_anew()

    def _turn(self) -> None:
        self.show_found(self.sought)
        self.chosen.emit()

    def _turn_to(self, place: int) -> None:
        if place == 1 and self.map is None:
            from keeper.window.find.found_map import FoundMap

            self.map = FoundMap(self._desk)
            self.map.picked.connect(self.place_picked)
            self._mapped.layout().addWidget(self.map)
        self.setCurrentIndex(place)

    def _show_places(self, places: tuple) -> None:
        self.map.show_places(places)

    def _pick_month(self, index) -> None:
        month: date = self.months.rows.months[index.row()][0]
        self.choice.setCurrentIndex(0)
        self.month_picked.emit(month)

"""Journeys of a map: told under the pointer, opened by a click or from a list of them."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, QPoint, Qt
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QMenu, QToolTip, QWidget

from keeper.review.places import Travels, Way
from keeper.study.journeys import Leg
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.places.map import MapView
from keeper.window.parts.tips import plain_tip

SHOWN = 15
"""Journeys in one list, the latest first."""


class Journeys(QObject):
    """What a map tells of the journeys on it; ``travels`` are those shown."""

    def __init__(self, desk: Desk, view: MapView) -> None:
        super().__init__(view)
        self._desk, self._view = desk, view
        self.travels: Travels | None = None
        view.way_pointed.connect(self._tell)
        view.way_picked.connect(self.open_way)

    def open_way(self, way: Way) -> None:
        """Open the night on which the one journey of a way ended, or a list of several."""
        if len(way.legs) == 1:
            self._desk.go("night", way.legs[0].arrived)
        elif way.legs:
            self.menu(way.legs, self._view).popup(QCursor.pos())

    def open_all(self, below: QWidget) -> None:
        """Open the list of the latest journeys below a button."""
        travels = self.travels
        legs = [*travels.legs, *travels.open_legs] if travels else []
        if legs:
            legs.sort(key=lambda leg: leg.arrived, reverse=True)
            self.menu(legs, below).popup(below.mapToGlobal(QPoint(0, below.height())))

    def menu(self, legs: Sequence[Leg], parent: QWidget) -> QMenu:
        """Journeys to choose from, the latest first; each opens the night of its end."""
        made = QMenu(parent)
        made.setAccessibleName("Journeys")
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for leg in legs[:SHOWN]:
            # A name may hold an ampersand, which a menu would take for a key.
            told = place_wording.journey(self.travels, leg).replace("&", "&&")
            made.addAction(told).triggered.connect(lambda _, night=leg.arrived: self._desk.go("night", night))
        if len(legs) > SHOWN:
            made.addAction(f"and {wording.counted(len(legs) - SHOWN, 'earlier journey')}").setEnabled(False)
        made.setActiveAction(made.actions()[0])
        return made

    def _tell(self, way: Way | None) -> None:
        if way is None or self.travels is None or not way.legs:
            QToolTip.hideText()
            return
        told = place_wording.journey(self.travels, way.legs[0])
        if way.times > 1:
            told = f"{wording.counted(way.times, 'journey')}, the latest {told}"
        QToolTip.showText(QCursor.pos(), plain_tip(told), self._view)

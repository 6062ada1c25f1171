"""What was found, on the map: the places of its nights, larger where there are more."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.review.places import PlaceKept
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.places.map import MapView
from keeper.window.parts.places.map_supply import MapSupply
from keeper.window.parts.small import label, quiet_button, row


class FoundMap(QWidget):
    """``picked`` comes with the id of a place that was clicked."""

    picked = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.map = MapView(desk.look)
        self._supply = MapSupply(desk, self.map)
        self.told = label("", "quiet")
        nearer = quiet_button("Closer", lambda: self.map.zoom(1.6), "Look closer at the map")
        farther = quiet_button("Farther", lambda: self.map.zoom(1 / 1.6), "Look at the map from farther off")
        whole = quiet_button("All of it", self.map.fit, "Show all places on the map")
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.addWidget(self.map, 1)
        below = row(nearer, farther, whole, self.told)
        below.setStretch(3, 1)
        body.addLayout(below)
        self.map.picked.connect(self.picked)

    def show_places(self, places: tuple[PlaceKept, ...]) -> None:
        """Show these, and say how many could not be."""
        self.map.show_places(places, True)
        off = sum(one.nights for one in places if not one.point)
        told = f"{wording.counted(sum(one.nights for one in places), 'night')} at {wording.counted(len(places), 'place')}"
        told += f"; {wording.counted(off, 'night')} at a place without a position" if off else ""
        self.told.setText(f"{told}." if places else "No night of it has a place.")

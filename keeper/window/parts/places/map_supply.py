"""What a map is given, made ready on the reader's lane: its land, and the ways between its places."""

from collections.abc import Sequence

from PySide6.QtCore import QObject

from keeper.errors import KeeperError
from keeper.review.places import Way
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.places import map_shapes
from keeper.window.parts.places.map import MapView

WAYS_AT_ONCE = 100
"""Ways made ready in one go, so that the lane stays free for others."""


class MapSupply(QObject):
    """Brings one map what it draws."""

    def __init__(self, desk: Desk, view: MapView) -> None:
        super().__init__(view)
        self._desk, self._view = desk, view
        self._wanted: Sequence[Way] = ()
        self._ready: list[map_shapes.DrawnWay] = []
        self._errand = Errand(desk.reader)
        view.level_wanted.connect(self._fetch_land)
        view.drawn.connect(self._go_on)
        view.shown.connect(self._go_on)

    def bring_ways(self, ways: Sequence[Way]) -> None:
        """Show these ways, the latest first, when all of them are ready; until then those shown before."""
        self.stop()
        self._wanted = ways
        if not ways:
            self._view.show_ways(())
        elif self._view.is_drawn():
            self._go_on()

    def stop(self) -> None:
        """Bring no more of the ways under way."""
        self._errand.stop()
        self._wanted, self._ready = (), []

    def _go_on(self) -> None:
        # Only once the places are to be seen: a lane at work makes their
        # drawing take twice as long, and that of a page one went on to.
        some = self._wanted[len(self._ready) : len(self._ready) + WAYS_AT_ONCE]
        if some and not self._errand.under_way and self._view.isVisible():
            self._errand.also(lambda store, task: map_shapes.drawn_ways(some), self._add)

    def _add(self, drawn: list[map_shapes.DrawnWay]) -> None:
        self._ready += drawn
        # Not as they come: each time the whole map would be drawn anew.
        if len(self._ready) == len(self._wanted):
            self._view.show_ways(self._ready)
        else:
            self._go_on()

    def _fetch_land(self, level: str) -> None:
        self._desk.reader.run(
            lambda store, task: map_shapes.land(level),
            lambda shapes: self._view.give_land(level, shapes),
            lambda error: self._miss_land(level, error),
        )

    def _miss_land(self, level: str, error: KeeperError) -> None:
        self._desk.said.emit(str(error))
        self._view.give_land(level, ())

"""Asking the gazetteer for towns while one types, off the window's thread."""

from collections.abc import Callable, Sequence

from keeper.earth import Point
from keeper.errors import KeeperError
from keeper.town import Town
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand

MOST = 8


class TownSearch:
    """Towns by a few letters; of several questions only the latest is answered.

    Nothing of the gazetteer is touched before ``warm`` or the first question.
    """

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._errand = Errand(desk.reader)
        self._failed = False
        self._warm = False

    def warm(self) -> None:
        """Unpack the list of towns, if it never was, so that the first letter is answered at once."""
        if not self._warm:
            self._warm = True
            self._desk.reader.run(lambda store, task: _ready(), None, self._on_failed)

    def ask(self, typed: str, near: Point | None, answer: Callable[[Sequence[Town]], None]) -> None:
        """Call ``answer`` with the towns that are meant, likeliest first."""
        self.stop()
        if typed.strip():
            self._errand.also(lambda store, task: _look_up(typed, near), answer, self._on_failed)

    def ask_zone(self, zone: str, answer: Callable[[Sequence[Town]], None]) -> None:
        """Call ``answer`` with the largest towns of a time zone, by its IANA name."""
        self._errand.anew(lambda store, task: _of_zone(zone), answer, self._on_failed)

    def stop(self) -> None:
        """Answer no more what was asked."""
        self._errand.stop()

    def _on_failed(self, error: KeeperError) -> None:
        # Once is enough: places can be named without it.
        if not self._failed:
            self._failed = True
            self._desk.said.emit(str(error))


def _ready() -> None:
    from keeper.actions.places import towns

    towns.ready(towns.towns_folder())


def _look_up(typed: str, near: Point | None) -> list[Town]:
    from keeper.actions.places import towns

    return towns.towns(towns.towns_folder(), typed, near, MOST)


def _of_zone(zone: str) -> list[Town]:
    from keeper.actions.places import towns

    return towns.towns_of_zone(towns.towns_folder(), zone, MOST)

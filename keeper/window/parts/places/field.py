"""Where: a known place by a few letters, a town of the gazetteer, or a new place by its name."""

from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import chain, islice
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QLineEdit

from keeper.actions.reading import same_letters
from keeper.model import Place

if TYPE_CHECKING:
    from PySide6.QtCore import QModelIndex
    from PySide6.QtGui import QFocusEvent, QKeyEvent

    from keeper.town import Town
    from keeper.window.parts.places.offers import Chosen, Offer, Offers
    from keeper.window.parts.places.town_search import TownSearch

MOST = 8
"""Known places offered at once; towns come after them, up to as many rows."""

_A_TOWN = 15_000
"""People a town must have to be meant by its mere name; a place of one's own may be called as a village is."""


class PlaceField(QLineEdit):
    """The place of a night.

    ``chosen`` comes with a known Place, a Town or a new place's name when the
    person has settled on one, "" when they took it out. ``refused`` comes with
    a sentence when what was typed can be no name. ``settled`` comes when the
    person is done with the field, changed or not, ``span_wanted`` when the place
    is to be said for other nights too. ``known`` gives the places
    to choose from, likeliest first; it is asked anew each time the field is
    entered. ``towns``, if any, is called for the gazetteer on the first entry.
    """

    chosen = Signal(object)
    refused = Signal(str)
    settled = Signal()
    span_wanted = Signal()

    def __init__(self, known: Callable[[], Sequence[Place]], towns: "Callable[[], TownSearch] | None" = None) -> None:
        super().__init__()
        self._ask_known = known
        self._make_towns = towns
        self._known: list[tuple[str, Place]] = []
        self._found: tuple[str, Sequence[Town]] = ("", ())
        self._settled = self._zone = ""
        self.setPlaceholderText("Where are you?")
        self.setAccessibleName("Place")
        self.textEdited.connect(self._offer)
        self.returnPressed.connect(self._on_return)

    @cached_property
    def offers(self) -> "Offers":
        """The list that opens below, made when it is first wanted."""
        from PySide6.QtCore import QModelIndex

        from keeper.window.parts.places.offers import Offers

        # Not handed over with setCompleter: the field would then write each row
        # that is merely passed over into itself.
        offers = Offers(self, 2 * MOST + 1)
        offers.activated[QModelIndex].connect(self._on_picked)
        return offers

    @cached_property
    def _towns(self) -> "TownSearch | None":
        return self._make_towns() if self._make_towns else None

    def make_ready(self) -> None:
        """Make what the first letter would else wait for."""
        self.offers.dress()
        if self._towns:
            self._towns.warm()

    def show_place(self, name: str, words: str | None, zone: str = "") -> None:
        """This place is kept, or carried on; show ``words``, or leave what is typed.

        Where nothing is carried on since the clock is in another ``zone``, that zone's places are offered.
        """
        self._settled, self._zone = name, zone
        if words is not None:
            self.setText(words)
            self.setCursorPosition(0)
            self.setModified(False)

    def settle(self) -> None:
        """Take the row picked out, or what is typed.

        That is the first known place it begins, a town of that very name, or
        a new place.
        """
        if not self.isModified():
            return
        self.setModified(False)
        picked = self.offers.picked() if "offers" in self.__dict__ else None
        self._take(picked.chosen if picked else self._meant(" ".join(self.text().split())))

    def _meant(self, typed: str) -> "Chosen":
        if not typed:
            return ""
        wanted = same_letters(typed)
        begun = next((place for name, place in self._places() if name.startswith(wanted)), None)
        if begun:
            return begun
        same = (town for town in self._towns_of(typed) if same_letters(town.spelling) == wanted)
        return next((town for town in same if town.population >= _A_TOWN), typed)

    def _places(self) -> list[tuple[str, Place]]:
        if not self._known:
            self._known = [(same_letters(place.name), place) for place in self._ask_known()]
        return self._known

    # keys and focus

    def focusInEvent(self, event: "QFocusEvent") -> None:
        super().focusInEvent(event)
        self._known = []
        if self._towns:
            self._towns.warm()
        # So that the first letter is answered as fast as the others.
        QTimer.singleShot(0, self, lambda: self.offers)
        if self._zone:
            self._offer_zone_if_gone_to(event)

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        from PySide6.QtCore import Qt

        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.settle()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        from PySide6.QtCore import Qt

        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.settle()
            self.span_wanted.emit()
        elif event.key() == Qt.Key.Key_Escape and self.text() != self._settled:
            self._put_back()
            self.offers.popup().hide()
        elif event.key() == Qt.Key.Key_Down and not self.offers.popup().isVisible():
            typed = self.text() if self.isModified() else ""
            self._offer_zone() if self._zone and not typed else self._offer(typed)
        else:
            super().keyPressEvent(event)

    def _on_return(self) -> None:
        if self.text() != self._settled:
            # Words that were left behind, and are meant after all.
            self.setModified(True)
        self.settle()
        self.settled.emit()

    # offering

    def _offer(self, typed: str) -> None:
        self._show_offers(typed)
        if self._towns:
            self._towns.ask(typed, self._last_point(), lambda towns: self._on_towns(typed, towns))

    def _offer_zone_if_gone_to(self, event: "QFocusEvent") -> None:
        from PySide6.QtCore import Qt

        # Who only passes by on the way to the lines is not stopped by a list.
        by = Qt.FocusReason
        if event.reason() in (by.MouseFocusReason, by.ShortcutFocusReason, by.OtherFocusReason):
            QTimer.singleShot(0, self, self._offer_zone)

    def _offer_zone(self) -> None:
        if self.isModified() or self.text() or not self.hasFocus():
            return
        self._found = ("", ())
        self._show_offers("")
        if self._towns:
            self._towns.ask_zone(self._zone, lambda towns: self._on_zone(towns))

    def _on_zone(self, towns: "Sequence[Town]") -> None:
        self._found = ("", towns)
        if self.hasFocus() and not self.text():
            self._show_offers("")

    def _on_towns(self, typed: str, towns: "Sequence[Town]") -> None:
        self._found = (typed, towns)
        if typed == self.text() and self.isModified() and self.hasFocus():
            self._show_offers(typed)

    def _show_offers(self, typed: str) -> None:
        from keeper.window.parts.places.offers import of_moving, of_name, of_place, of_town, unknown_towns

        picked, new = self.offers.picked(), " ".join(typed.split())
        matches = self._matches(new)
        found = self._towns_of(typed)
        towns = unknown_towns(found, [place for _, place in self._places()]) if found else ()
        rows = [*map(of_place, matches), *map(of_town, towns)]
        if new and not _are_coordinates(new) and all(same_letters(one.name) != same_letters(new) for one in matches):
            rows += [of_moving(new), of_name(new)]
        self.offers.show_rows(rows, self._row_for(rows, picked, matches, new))

    def _row_for(self, rows: "list[Offer]", picked: "Offer | None", matches: list[Place], new: str) -> int:
        # Towns come a moment after the rest: what is picked out stays so.
        if picked in rows:
            return rows.index(picked)
        if not new and self._zone:
            return -1
        sure = matches and (not new or same_letters(matches[0].name).startswith(same_letters(new)))
        return 0 if sure else -1

    def _towns_of(self, typed: str) -> "Sequence[Town]":
        return self._found[1] if self._found[0].split() == typed.split() else ()

    def _matches(self, typed: str) -> list[Place]:
        wanted = same_letters(typed)
        if self._zone and not wanted:
            # Where the person just was is the least likely.
            here = (place for _, place in self._places() if place.zone == self._zone and place.point)
            return list(islice(here, MOST))
        # Gone through once, and only until there are enough: it is asked at each letter, and there may be a thousand.
        some = [one for one in self._places() if wanted in one[0]]
        begun = (place for name, place in some if name.startswith(wanted))
        within = (place for name, place in some if f" {wanted}" in name and not name.startswith(wanted))
        return list(islice(chain(begun, within), MOST))

    def _last_point(self) -> tuple[float, float] | None:
        points = (place.point for _, place in self._places() if place.point)
        return next(points, None)

    # taking

    def _on_picked(self, index: "QModelIndex") -> None:
        if 0 <= index.row() < len(self.offers.rows):
            self._take(self.offers.rows[index.row()].chosen)
            self.settled.emit()

    def _take(self, chosen: "Chosen") -> None:
        if self._towns:
            self._towns.stop()
        name = chosen if isinstance(chosen, str) else chosen.name
        if isinstance(chosen, str) and _are_coordinates(name):
            self._put_back()
            self.refused.emit(
                f"\u201c{name}\u201d tells a position, not a name. Name the place first; "
                "its position can then be set on its own page, under Places."
            )
            return
        self.setText(name)
        self.setModified(False)
        if name != self._settled or not isinstance(chosen, str):
            self._settled = name
            self.chosen.emit(chosen)

    def _put_back(self) -> None:
        self.setModified(False)
        self.setText(self._settled)


def _are_coordinates(typed: str) -> bool:
    if not any(letter.isdigit() for letter in typed):
        return False
    from keeper.study.where import UnreadableCoordinates, read_coordinates

    try:
        read_coordinates(typed)
    except UnreadableCoordinates:
        return False
    return True

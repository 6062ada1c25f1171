"""Mending a place: another name, another position, one place out of two."""

from collections.abc import Callable

from PySide6.QtWidgets import QListWidgetItem, QWidget

from keeper.actions import reading
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.errors import KeeperError
from keeper.model import Place
from keeper.review.places import PlaceKept
from keeper.study.where import UnreadableCoordinates, read_coordinates, write_coordinates, zone_at
from keeper.town import Town
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.places.offers import of_town
from keeper.window.parts.places.town_search import TownSearch
from keeper.window.parts.small import plain_button
from keeper.window.parts.typing.asking import Asking


class _PlaceDialog(Asking):
    """Asks, and writes what is answered."""

    def write(self, work: Callable) -> None:
        """Write, then close; what is wrong is told instead."""
        self.act.setEnabled(False)
        self.desk.write(work, lambda _: self._on_written(), self._on_failed)

    def _on_written(self) -> None:
        self.desk.changed.emit()
        self.accept()

    def _on_failed(self, error: KeeperError) -> None:
        self.act.setEnabled(True)
        self.told.setText(str(error))


class RenameDialog(_PlaceDialog):
    """Another name for a place."""

    def __init__(self, desk: Desk, place: Place, parent: QWidget) -> None:
        super().__init__(desk, "Rename a place", "The place\u2019s name", "Rename", "", parent)
        self.place = place
        self.put_by("place's name", place.id, place.name)
        self.told.setText("All its nights take the new name.")

    def take(self) -> None:
        """Keep the new name."""
        name, place_id = self.typed.text(), self.place.id
        self.write(lambda store: places.rename(store, place_id, name))


class PositionDialog(_PlaceDialog):
    """Where a place lies: a town from the list, or coordinates."""

    def __init__(self, desk: Desk, place: Place, parent: QWidget) -> None:
        super().__init__(desk, f"Where {place.name} lies", "A town nearby, or coordinates", "Set", "Towns", parent)
        self.place = place
        self._towns = TownSearch(desk)
        self._towns.warm()
        self._offered: list[Town] = []
        self.none = plain_button("No position", self._take_away)
        self.none.setEnabled(place.point is not None)
        self.buttons.insertWidget(0, self.none)
        self.photo = plain_button("From its latest photo", self._take_from_photo)
        self.photo.hide()
        self.buttons.insertWidget(1, self.photo)
        self._by_photo = ""
        desk.reader.run(lambda store, task: places.position_by_photo(store, place.id), self._on_photo)
        self.typed.textEdited.connect(self._follow)
        if place.point:
            self.typed.setText(write_coordinates(*place.point))
            self.typed.selectAll()
        self._follow(self.typed.text(), ask=False)

    def _follow(self, typed: str, ask: bool = True) -> None:
        try:
            point = read_coordinates(typed)
        except UnreadableCoordinates as error:
            has_digits = any(letter.isdigit() for letter in typed)
            self.told.setText(str(error) if has_digits else "Such as a town\u2019s name, or 54.3520, 18.6466.")
            if ask:
                self._towns.ask(typed, self._near(), self._offer)
            return
        self._towns.stop()
        self._offer(())
        self.told.setText(f"{write_coordinates(*point, sexagesimal=True)} \u00b7 {zone_at(*point)}")

    def _on_photo(self, position: str) -> None:
        self._by_photo = position
        self.photo.setVisible(bool(position))

    def _take_from_photo(self) -> None:
        self.typed.setText(self._by_photo)
        self._follow(self._by_photo, ask=False)

    def _near(self) -> tuple[float, float] | None:
        return self.place.point or last_point(reading.known_places(self.desk.store))

    def _offer(self, towns) -> None:
        self._offered = list(towns)
        self.list.clear()
        for town in self._offered:
            self.list.addItem(QListWidgetItem(of_town(town).told))
        if self._offered:
            self.list.setCurrentRow(0)
            self.told.setText("The place keeps its name, and lies where the town does.")

    def take(self) -> None:
        """Keep the town chosen, or the coordinates typed."""
        row_, place_id, typed = self.list.currentRow(), self.place.id, self.typed.text()
        if 0 <= row_ < len(self._offered):
            town = self._offered[row_]
            self.write(lambda store: _set_to_town(store, place_id, town))
        elif typed.strip():
            self.write(lambda store: places.set_coordinates(store, place_id, typed))

    def _take_away(self) -> None:
        place_id = self.place.id
        self.write(lambda store: places.set_coordinates(store, place_id, ""))


class MergeDialog(_PlaceDialog):
    """Another place that is the same; ``moved`` is called with the id of the one that remains."""

    def __init__(self, desk: Desk, kept: PlaceKept, moved: Callable[[str], None], parent: QWidget) -> None:
        super().__init__(desk, f"Merge {kept.place.name}", "The other place", "Merge", "Other places", parent)
        self.kept = kept
        self._moved = moved
        self._others = [one for one in reading.known_places(desk.store) if one.id != kept.place.id]
        self._shown: list[Place] = []
        self.typed.textEdited.connect(self._narrow)
        self.list.currentRowChanged.connect(lambda _: self._tell())
        self._narrow("")

    def _narrow(self, typed: str) -> None:
        wanted = reading.same_letters(typed)
        self._shown = [one for one in self._others if wanted in reading.same_letters(one.name)][:200]
        self.list.clear()
        for one in self._shown:
            where = place_wording.lies_in(one)
            self.list.addItem(QListWidgetItem(f"{one.name}, {where}" if where else one.name))
        if typed and self._shown:
            self.list.setCurrentRow(0)
        self._tell()

    def _tell(self) -> None:
        other = self._chosen()
        self.act.setEnabled(other is not None)
        if other is None:
            self.told.setText("Choose the place that is the same as this one." if self._others else
                              "There is no other place yet.")  # fmt: skip
            return
        gone, nights = self.kept.place.name, wording.counted(self.kept.nights, "night")
        moved = f"{nights} at {gone} {'becomes a night' if self.kept.nights == 1 else 'become nights'} at {other.name}. "
        self.told.setText(f"The name {other.name} stays, {gone} goes. {moved if self.kept.nights else ''}"
                          f"On {other.name}\u2019s page they can be taken apart again.")  # fmt: skip

    def _chosen(self) -> Place | None:
        row_ = self.list.currentRow()
        return self._shown[row_] if 0 <= row_ < len(self._shown) else None

    def take(self) -> None:
        """Make one place of the two."""
        other, gone_id = self._chosen(), self.kept.place.id
        if other:
            self.into_id = other.id
            self.write(lambda store: place_merging.merge(store, gone_id, other.id, self.desk.clock))

    def _on_written(self) -> None:
        # Before the news goes round: nobody may ask for the place that is gone.
        self._moved(self.into_id)
        super()._on_written()


def last_point(known) -> tuple[float, float] | None:
    """Where the person last was, as far as a position is known."""
    return next((one.point for one in known if one.point), None)


def _set_to_town(store, place_id: str, town: Town) -> Place:
    from keeper.actions.places import towns

    return towns.set_to_town(store, place_id, town)

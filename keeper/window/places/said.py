"""What is to be remembered of a place: a note kept as it is typed, what it is, and the photo that stands for it."""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from keeper.actions.places import here, said
from keeper.actions.writing import readable
from keeper.model import Photo, PlacePage
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.photos.choice import PhotoChoice
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.small import emptied, label, plain_button, quiet_button, row
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy

CHOSEN_FROM = 200


class PlaceSaid(QWidget):
    """The note on a place, what it is, and its photo."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.place_id = ""
        self.page = PlacePage()
        self.note = Field()
        self._words = PutBy(desk, self.note, "place's note", _write)
        self.note.setAccessibleName("A note on this place")
        self.note.setPlaceholderText("The house, the room, who had the key")
        self.note.read_both_ways()
        self.note.left.connect(self.keep)
        self.roof = Choice(desk.look, "What this place is")
        for roof in ("", *said.ROOFS):
            self.roof.addItem(place_wording.roof(roof) or "what it is", roof)
        self.roof.activated.connect(lambda _: self._say_roof())
        self.choose = quiet_button("Photo of this place", self._choose, "Choose the photo that stands for this place")
        self.photo = PhotoLinks(desk, 6)
        self._lay_out()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        beside = QVBoxLayout()
        beside.setSpacing(px(0.3))
        beside.addWidget(self.note)
        beside.addLayout(row(self.roof, self.choose, None, gap=px(1.2)))
        body = QHBoxLayout(self)
        body.setContentsMargins(0, px(0.4), 0, px(0.2))
        body.setSpacing(px(1))
        body.addLayout(self.photo)
        body.setAlignment(self.photo, Qt.AlignmentFlag.AlignTop)
        body.addLayout(beside, 1)

    def dress(self) -> None:
        """Take up the typeface in force."""
        self.note.ensurePolished()
        self.note.document().setDefaultFont(self.note.font())
        self.note.fit()

    def show_said(self, place_id: str, page: PlacePage, photo: Photo | None) -> None:
        """Show what is said of a place; what is being typed stays."""
        self.place_id, self.page = place_id, page
        self._words.show(place_id, page.note)
        self.roof.setCurrentIndex(max(0, self.roof.findData(page.roof)))
        if photo is None:
            self.photo.stop()
            emptied(self.photo)
        else:
            self.photo.show_standing(photo, self._choose)

    def parts(self) -> list[QWidget]:
        """What Tab reaches, in order."""
        return [*self.photo.shown(), self.note, self.roof, self.choose]

    def keep(self) -> None:
        """Keep what is typed."""
        self.note.settle()
        self._words.put_by()

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        # When the field has its new width, it has other rows.
        QTimer.singleShot(0, self.note, self.note.fit)

    def _say_roof(self) -> None:
        place_id, roof = self.place_id, self.roof.currentData()
        if place_id and roof != self.page.roof:
            self.desk.write(lambda store: said.say_roof(store, place_id, roof), lambda _: self.desk.changed.emit())

    def _choose(self) -> None:
        if self.place_id:
            ChoosePhoto(self.desk, self.place_id, self.page.photo_id, self).exec()


class ChoosePhoto(QDialog):
    """The photos taken at a place or on its nights; one stands for it."""

    def __init__(self, desk: Desk, place_id: str, chosen: str | None, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self.place_id, self._chosen = desk, place_id, chosen
        self.setWindowTitle("The photo of this place")
        self._errand = Errand(desk.reader)
        self.told = label("Looking for its photos\u2026", "quiet")
        self.list = PhotoChoice(desk, "Photos taken here")
        self.list.picked.connect(self.choose)
        self.none = plain_button("No photo", lambda: self.choose(None))
        self.none.setEnabled(chosen is not None)
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[px(1.4)] * 4)
        layout.setSpacing(px(0.6))
        layout.addWidget(self.told)
        layout.addWidget(self.list)
        layout.addLayout(row(self.none, None, plain_button("Cancel", self.reject)))
        self.setMinimumWidth(px(34))
        self.list.hide()
        self._errand.anew(lambda store, task: here.photos_here(store, place_id, CHOSEN_FROM), self._fill)

    def _fill(self, found: tuple) -> None:
        self.told.setText("" if found else "No photo was taken here, nor on a night here.")
        self.told.setVisible(not found)
        self.list.show_photos(found, self._chosen)
        self.adjustSize()
        if found:
            self.list.setFocus()

    def choose(self, photo_id: str | None) -> None:
        """Let this photo stand for the place; none for None."""
        place_id = self.place_id
        if photo_id != self._chosen:
            self.desk.write(lambda store: said.choose_photo(store, place_id, photo_id), lambda _: self.desk.changed.emit())
        self.accept()

    def done(self, result: int) -> None:
        self._errand.stop()
        self.list.stop()
        super().done(result)


def _write(store, place_id: str, words: str) -> None:
    said.write_note(store, place_id, readable(words))

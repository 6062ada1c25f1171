"""The full view of a photo, over the window: look, go on, write what it shows."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QStandardPaths, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QFileDialog, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.photos import kept as kept_photos
from keeper.errors import CannotWrite, KeeperError
from keeper.model import Photo
from keeper.study.where import write_coordinates
from keeper.window.desk.desk import Desk
from keeper.window.parts.photos.canvas import STEP, PhotoCanvas
from keeper.window.parts.photos.thumbnail import said_of, seen_small
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.photos.acts import PhotoActs, while_alive
from keeper.window.photos.cell import Caption
from keeper.window.photos.pictures import Pictures
from keeper.window.photos.who_is_on import WhoIsOn

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QShowEvent


class PhotoView(QDialog):
    """Photos one after another; ``place`` is which one is shown.

    With a ``night`` one of them can be made its photo.
    """

    def __init__(self, desk: Desk, photos: Sequence[Photo], place: int, night: date | None, over: QWidget) -> None:
        super().__init__(over, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self.desk = desk
        self.photos = list(photos)
        self.place = 0
        self.night = night
        self.setWindowTitle("Photo")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.canvas = PhotoCanvas(desk.look)
        self.pictures = Pictures(desk, self.canvas.show_image, lambda error: self.canvas.say(str(error)))
        self._acts = PhotoActs(desk, while_alive(self, self._complain))
        self.caption = Caption(desk, self.photos[0])
        self.who = WhoIsOn(desk, self._open_person)
        self.about = label("", "quiet")
        self.told = label("", "quiet")
        self._lay_out()
        self._add_keys()
        self.caption.left.connect(self.canvas.setFocus)
        self.caption.kept.connect(self._on_caption)
        self.canvas.resized.connect(self._ask)
        self.canvas.came_closer.connect(self._ask)
        self.setGeometry(over.geometry())
        self.go(place)
        self.canvas.setFocus()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.before = quiet_button("\u2039 Back", lambda: self.go(self.place - 1), "Back: the photo before")
        self.after = quiet_button("Next \u203a", lambda: self.go(self.place + 1), "Next: the photo after")
        self.of_night = quiet_button("", self.choose)
        self.left = quiet_button("Turn left", lambda: self.turn(-1), "Turn the photo to the left")
        self.right = quiet_button("Turn right", lambda: self.turn(1), "Turn the photo to the right")
        self.mark = quiet_button("Who is on it", self.who.turn, "Who is on it: mark people on the photo")
        self.rest = quiet_button("", self.rest_or_wake)
        self.copy = quiet_button("Save a copy without its position\u2026", self.save_copy)
        self.leave = quiet_button("Close", self.accept)
        for button, key in ((self.before, "Left"), (self.after, "Right"), (self.of_night, "P"), (self.left, "Shift+T"),
                            (self.right, "T"), (self.mark, "W"), (self.rest, "R"), (self.copy, "S"), (self.leave, "Esc")):  # fmt: skip
            button.setToolTip(key)
        self.caption.setPlaceholderText("a caption")
        self.caption.setProperty("large", True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.2), px(1), px(1.2), px(0.6))
        layout.setSpacing(px(0.3))
        layout.addWidget(self.canvas, 1)
        layout.addWidget(self.caption)
        layout.addWidget(self.who)
        layout.addWidget(self.told)
        about = row(self.about, self.before, self.after, gap=px(1))
        about.setStretch(0, 1)
        layout.addLayout(about)
        layout.addLayout(row(self.of_night, self.left, self.right, self.mark, self.rest, self.copy, None, self.leave, gap=px(1.2)))

    def _add_keys(self) -> None:
        last = len(self.photos) - 1
        for keys, act in (
            ("Left", lambda: self.go(self.place - 1)), ("Right", lambda: self.go(self.place + 1)),
            ("Home", lambda: self.go(0)), ("End", lambda: self.go(last)),
            ("+", lambda: self.canvas.go_closer(STEP)), ("=", lambda: self.canvas.go_closer(STEP)),
            ("-", lambda: self.canvas.go_closer(1 / STEP)), ("0", lambda: self.canvas.set_zoom(None)),
            ("1", lambda: self.canvas.set_zoom(1.0)), ("P", self.choose), ("W", self.who.turn), ("R", self.rest_or_wake),
            ("T", lambda: self.turn(1)), ("Shift+T", lambda: self.turn(-1)), ("S", self.save_copy), ("F2", self.caption.setFocus),
            *((f"Shift+{key}", self._mover(x, y)) for key, x, y in
              (("Left", 1, 0), ("Right", -1, 0), ("Up", 0, 1), ("Down", 0, -1))),
        ):  # fmt: skip
            QShortcut(QKeySequence(keys), self).activated.connect(act)

    def _mover(self, x: int, y: int) -> Callable[[], None]:
        step = self.desk.look.px(5)
        return lambda: self.canvas.move_by(x * step, y * step)

    # going

    @property
    def photo(self) -> Photo:
        """The photo shown."""
        return self.photos[self.place]

    def go(self, place: int) -> None:
        """Show another one; at either end there it stays."""
        self.caption.commit()
        self.place = min(max(place, 0), len(self.photos) - 1)
        self.told.setText("")
        self.told.hide()
        self.canvas.begin(self.photo.width, self.photo.height, seen_small(self.photo))
        self.before.setEnabled(self.place > 0)
        self.after.setEnabled(self.place < len(self.photos) - 1)
        self._describe()
        self._ask()

    def showEvent(self, event: "QShowEvent") -> None:
        super().showEvent(event)
        self._ask()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        # Enter in the caption or on the picture must not press the first button.
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)

    def _ask(self) -> None:
        if not self.isVisible():
            # Not yet as large as it will be.
            return
        self.pictures.ask(self.photo, self.canvas.pixels_wanted())
        if self.canvas.zoom is None:
            for near in self.photos[self.place + 1 : self.place + 2]:
                self.pictures.ready(near, self.canvas.pixels_at_most())

    def _describe(self) -> None:
        photo = self.photo
        self.caption.show_caption(photo)
        self.who.show_photo(photo)
        number = f"{self.place + 1} of {len(self.photos)}" if len(self.photos) > 1 else ""
        state = "resting" if photo.resting else ""
        self.about.setText(" \u00b7 ".join(filter(None, (said_of(photo), self._where(), number, state))))
        self.canvas.setAccessibleName(photo.caption or photo.name or "Photo")
        self.canvas.setAccessibleDescription(self.about.text())
        self.rest.setText("Wake" if photo.resting else "Let rest")
        self._describe_choice()

    def _describe_choice(self) -> None:
        chosen = kept_photos.photo_of_night(self.desk.store, self.night) if self.night else None
        is_it = chosen is not None and chosen.id == self.photo.id
        self.of_night.setVisible(self.night is not None)
        self.of_night.setText("The photo of the night" if is_it else "Choose as the photo of the night")
        self.of_night.setEnabled(not is_it)

    def _where(self) -> str:
        place = reading.one_night(self.desk.store, self.night).place if self.night else None
        if place:
            return place.name
        photo = self.photo
        return "" if photo.latitude is None else write_coordinates(photo.latitude, photo.longitude)

    # doing

    def _open_person(self, person_id: str) -> None:
        self.accept()
        self.desk.go("people", None, person_id)

    def choose(self) -> None:
        """Make this the photo of the night."""
        if self.night is not None:
            self._acts.choose(self.night, self.photo, while_alive(self, self._describe_choice))

    def turn(self, quarters: int) -> None:
        """Turn this photo by quarters to the right; its file stays as it is."""
        self._acts.turn(self.photo, quarters, while_alive(self, self._on_turned))

    def _on_turned(self, turned: Photo) -> None:
        self._put(turned.id, turns=turned.turns, width=turned.width, height=turned.height)
        if turned.id == self.photo.id:
            self.canvas.begin(turned.width, turned.height, seen_small(self.photo))
            self._ask()

    def rest_or_wake(self) -> None:
        """Let this photo rest, or wake it."""
        photo = self.photo
        self._acts.rest_or_wake(photo, while_alive(self, lambda: self._on_rest(photo)))

    def _put(self, photo_id: str, **changed: str | bool | int | None) -> None:
        self.photos = [replace(photo, **changed) if photo.id == photo_id else photo for photo in self.photos]

    def _on_caption(self, photo_id: str, words: str) -> None:
        self._put(photo_id, caption=words)
        self._describe()

    def _on_rest(self, was: Photo) -> None:
        self._put(was.id, resting=not was.resting)
        self._describe()
        self.say("Awake. It can be brought up again." if was.resting else "Resting. It will not be brought up again.")

    def save_copy(self) -> None:
        """Write a JPEG that says nothing of when and where to a file the person names."""
        pictures = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.PicturesLocation)
        offered = str(Path(pictures, f"{Path(self.photo.name or 'photo').stem}.jpg"))
        name, _ = QFileDialog.getSaveFileName(self, "Save a copy without its position", offered, "JPEG (*.jpg)")
        if not name:
            return
        photo, path = self.photo, Path(name)
        told = f"Saved as {path.name}: the picture alone, without position, date or camera."
        self.desk.reader.run(
            lambda store, task: _write_copy(store, photo, path),
            while_alive(self, lambda _: self.say(told)),
            while_alive(self, self._complain),
        )

    def _complain(self, error: KeeperError) -> None:
        self.say(str(error))

    def say(self, sentence: str) -> None:
        """Tell something below the picture."""
        self.told.setText(sentence)
        self.told.show()

    def done(self, result: int) -> None:
        """Close, with the caption kept."""
        self.caption.commit()
        self.pictures.stop()
        super().done(result)


def _write_copy(store, photo: Photo, path: Path) -> None:
    data = kept_photos.to_give_away(store, photo)
    try:
        path.write_bytes(data)
    except OSError as error:
        raise CannotWrite(f"{path.name} could not be written: {(error.strerror or str(error)).lower()}.") from error

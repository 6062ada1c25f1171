"""A row of small photos, each leading to its night."""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon, QImage, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QPushButton

from keeper.actions.photos import kept as photos
from keeper.model import Photo
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import emptied
from keeper.window.parts.tips import plain_tip


class PhotoLinks(QHBoxLayout):
    """Photos with their nights; each ``ems`` high, its picture fetched in the darkroom."""

    def __init__(self, desk: Desk, ems: float) -> None:
        super().__init__()
        self._desk, self._ems = desk, ems
        self._errand = Errand(desk.darkroom)
        self.setSpacing(desk.look.px(0.5))

    def show_photos(self, found: Sequence[tuple[Photo, date]]) -> None:
        """Show these."""
        self.stop()
        emptied(self)
        for photo, night in found:
            self._add(self._frame_for(photo, night), photo)
        self.addStretch(1)

    def show_standing(self, photo: Photo, pressed: Callable[[], None]) -> None:
        """Show the one that stands for the whole; ``pressed`` is called when it is clicked or entered."""
        self.stop()
        emptied(self)
        button = self._frame(f"The photo of this place. {photo.caption}".strip(), photo.caption)
        button.clicked.connect(lambda: pressed())
        self._add(button, photo)

    def _add(self, button: QPushButton, photo: Photo) -> None:
        self.addWidget(button)
        self._errand.also(
            lambda store, task: QImage.fromData(photos.thumbnail_of(store, photo)),
            lambda image: _put(button, image),
            lambda error: _miss(button, error),
        )

    def stop(self) -> None:
        """Fetch no more pictures."""
        self._errand.stop()

    def shown(self) -> list[QPushButton]:
        """The photos, in their order."""
        widgets = (self.itemAt(place).widget() for place in range(self.count()))
        return [widget for widget in widgets if widget is not None]

    def show_all(self, seen: bool) -> None:
        """Let all be seen, or none where there is no room."""
        for button in self.shown():
            button.setVisible(seen)

    def _frame_for(self, photo: Photo, night: date) -> QPushButton:
        made = self._frame(f"Photo of {wording.long_date(night)}. {photo.caption}".strip(), wording.short_date(night))
        made.clicked.connect(lambda: self._desk.go("night", night))
        return made

    def _frame(self, name: str, tip: str) -> QPushButton:
        made = QPushButton()
        side = self._desk.look.px(self._ems)
        made.setFixedSize(side, side)
        made.setStyleSheet("QPushButton { padding: 0; }")
        made.setAccessibleName(name)
        made.setToolTip(plain_tip(tip))
        return made


def _put(button: QPushButton, image: QImage) -> None:
    high = button.height()
    button.setFixedWidth(max(1, round(high * image.width() / max(1, image.height()))))
    button.setIcon(QIcon(QPixmap.fromImage(image)))
    button.setIconSize(QSize(button.width() - 2, high - 4))


def _miss(button: QPushButton, error: Exception) -> None:
    button.setText("gone")
    button.setToolTip(plain_tip(str(error)))

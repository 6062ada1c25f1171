"""Photos side by side, one of which is chosen."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QImage, QPainter, QPixmap
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from keeper.actions.photos import kept as photos
from keeper.model import Photo
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.tips import plain_tip

_ROWS = 2


class PhotoChoice(QListWidget):
    """Photos with their nights, the chosen one marked. ``picked`` comes with the id of the one clicked or entered."""

    picked = Signal(str)

    def __init__(self, desk: Desk, name: str) -> None:
        super().__init__()
        self._desk = desk
        self._pictures = Errand(desk.darkroom)
        self.setViewMode(QListWidget.ViewMode.IconMode)
        self.setMovement(QListWidget.Movement.Static)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setAccessibleName(name)
        self.setProperty("photos", True)
        self.itemActivated.connect(self._pick)
        self.itemClicked.connect(self._pick)

    def _pick(self, item: QListWidgetItem) -> None:
        self.picked.emit(item.data(Qt.ItemDataRole.UserRole))

    def stop(self) -> None:
        """Fetch no more pictures."""
        self._pictures.stop()

    def show_photos(self, found: Sequence[tuple[Photo, date]], chosen: str | None) -> None:
        """Show these; hidden when there is none."""
        side = self._desk.look.px(8)
        self.clear()
        self.setIconSize(QSize(side, side))
        # Below a picture its date, and on a line of its own that it is chosen.
        self.setGridSize(QSize(side + self._desk.look.px(1.6), side + self._desk.look.px(3.6)))
        self.setVisible(bool(found))
        nights, seen = Counter(night for _, night in found), Counter()
        for photo, night in found:
            seen[night] += 1
            of_several = f", {seen[night]} of {nights[night]}" if nights[night] > 1 else ""
            self._add(photo, night, of_several, photo.id == chosen)
        self.fit()

    def _add(self, photo: Photo, night: date, of_several: str, chosen: bool) -> None:
        item = QListWidgetItem(wording.day_and_month(night) + of_several + ("\nchosen" if chosen else "\n"))
        item.setData(Qt.ItemDataRole.UserRole, photo.id)
        item.setToolTip(plain_tip(photo.caption))
        told = f"{wording.long_date(night)}{of_several}. {photo.caption}".strip()
        item.setData(Qt.ItemDataRole.AccessibleTextRole, told + (". Chosen." if chosen else ""))
        item.setIcon(self._icon(QImage()))
        self.addItem(item)
        if chosen:
            self.setCurrentItem(item)
        self._pictures.also(
            lambda store, task: QImage.fromData(photos.thumbnail_of(store, photo)),
            lambda image: self._put(photo.id, image),
            lambda error: None,
        )

    def _put(self, photo_id: str, image: QImage) -> None:
        items = (self.item(place) for place in range(self.count()))
        item = next((one for one in items if one.data(Qt.ItemDataRole.UserRole) == photo_id), None)
        if item and not image.isNull():
            item.setIcon(self._icon(image))

    def _icon(self, image: QImage) -> QIcon:
        pixmap = _squared(image, self.iconSize().width(), self.devicePixelRatioF())
        made = QIcon(pixmap)
        # Else the chosen one is seen through a veil.
        made.addPixmap(pixmap, QIcon.Mode.Selected)
        return made

    def fit(self) -> None:
        """Be as high as its rows, two at most."""
        grid, wide = self.gridSize(), self.parentWidget().width() if self.parentWidget() else self.width()
        across = max(1, (wide - self._desk.look.px(0.6)) // max(1, grid.width()))
        rows = min(_ROWS, -(-self.count() // across))
        self.setFixedHeight(rows * grid.height() + self._desk.look.px(0.4))


def _squared(image: QImage, points: int, ratio: float) -> QPixmap:
    """The picture at the foot of a square, so that all dates stand on one line."""
    side = round(points * ratio)
    made = QPixmap(side, side)
    made.fill(Qt.GlobalColor.transparent)
    if not image.isNull():
        small = image.scaled(
            side, side, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        painter = QPainter(made)
        painter.drawImage((side - small.width()) // 2, side - small.height(), small)
        painter.end()
    made.setDevicePixelRatio(ratio)
    return made

"""Choosing the photo of a month: its photos side by side, or any file."""

from collections import Counter
from datetime import date
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QImage, QPainter, QPixmap
from PySide6.QtWidgets import QFileDialog, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from keeper.actions.months import shown as months
from keeper.actions.photos import kept as photos
from keeper.errors import CutOffPhoto, KeeperError
from keeper.model import Photo
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.photos.files import FILES
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.parts.tips import plain_tip


class PhotoChooser(QWidget):
    """The photos of a month's nights; Enter or a click chooses one. Kept at once."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self._chosen: str | None = None
        self._errand, self._pictures = Errand(desk.reader), Errand(desk.darkroom)
        self.told = label("", "quiet")
        self.list = QListWidget()
        self.list.setViewMode(QListWidget.ViewMode.IconMode)
        self.list.setMovement(QListWidget.Movement.Static)
        self.list.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.list.setAccessibleName("Photos of the month")
        self.list.setProperty("photos", True)
        self.list.itemActivated.connect(self._choose_item)
        self.list.itemClicked.connect(self._choose_item)
        self.anyway = quiet_button("Take it anyway", self._take_anyway, "Take the photo of which only a part can be seen")
        self.anyway.hide()
        self._cut_off: Path | None = None
        self.other = quiet_button("Another file\u2026", self._browse, "Choose the month\u2019s photo from any file")
        self.none = quiet_button("No photo", lambda: self.choose(None), "Let the month have no photo")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.3))
        layout.addWidget(self.told)
        layout.addWidget(self.list)
        layout.addLayout(row(self.anyway, self.other, self.none, None, gap=desk.look.px(1.2)))
        self.setFocusProxy(self.list)

    def show_month(self, month: date, chosen: str | None) -> None:
        """Show the photos of a month, the chosen one marked."""
        self.month, self._chosen = month, chosen
        self.none.setVisible(chosen is not None)
        self.anyway.hide()
        self._pictures.stop()
        self._errand.anew(lambda store, task: months.photos_to_choose(store, month), self._fill)

    def _fill(self, found: tuple[tuple[Photo, date], ...]) -> None:
        side = self._desk.look.px(8)
        self.list.clear()
        self.list.setIconSize(QSize(side, side))
        # Below a picture its date, and on a line of its own that it is chosen.
        self.list.setGridSize(QSize(side + self._desk.look.px(1.6), side + self._desk.look.px(3.6)))
        self.list.setVisible(bool(found))
        self.told.setText("" if found else "None of its nights has a photo.")
        self.told.setVisible(not found)
        nights, seen = Counter(night for _, night in found), Counter()
        for photo, night in found:
            seen[night] += 1
            of_several = f", {seen[night]} of {nights[night]}" if nights[night] > 1 else ""
            self._add(photo, night, of_several, side)
        self._fit()

    def _add(self, photo: Photo, night: date, of_several: str, side: int) -> None:
        chosen = photo.id == self._chosen
        item = QListWidgetItem(wording.day_and_month(night) + of_several + ("\nchosen" if chosen else "\n"))
        item.setData(Qt.ItemDataRole.UserRole, photo.id)
        item.setToolTip(plain_tip(photo.caption))
        told = f"{wording.long_date(night)}{of_several}. {photo.caption}".strip()
        item.setData(Qt.ItemDataRole.AccessibleTextRole, told + (". Chosen." if chosen else ""))
        item.setIcon(self._icon(QImage(), side))
        self.list.addItem(item)
        if chosen:
            self.list.setCurrentItem(item)
        self._pictures.also(
            lambda store, task: QImage.fromData(photos.thumbnail_of(store, photo)),
            lambda image: self._put(photo.id, image),
            lambda error: None,
        )

    def _put(self, photo_id: str, image: QImage) -> None:
        items = (self.list.item(place) for place in range(self.list.count()))
        item = next((one for one in items if one.data(Qt.ItemDataRole.UserRole) == photo_id), None)
        if item and not image.isNull():
            item.setIcon(self._icon(image, self.list.iconSize().width()))

    def _icon(self, image: QImage, side: int) -> QIcon:
        pixmap = _squared(image, side, self.devicePixelRatioF())
        made = QIcon(pixmap)
        # Else the chosen one is seen through a veil.
        made.addPixmap(pixmap, QIcon.Mode.Selected)
        return made

    def _fit(self) -> None:
        grid = self.list.gridSize()
        across = max(1, (self.width() - self._desk.look.px(0.6)) // max(1, grid.width()))
        rows = min(2, -(-self.list.count() // across))
        self.list.setFixedHeight(rows * grid.height() + self._desk.look.px(0.4))

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        if self.list.count():
            self._fit()

    def _choose_item(self, item: QListWidgetItem) -> None:
        self.choose(item.data(Qt.ItemDataRole.UserRole))

    def choose(self, photo_id: str | None) -> None:
        """Make this the month's photo."""
        month = self.month
        if photo_id != self._chosen:
            self._desk.write(
                lambda store: months.choose_photo(store, month, photo_id), lambda _: self._desk.changed.emit()
            )

    def _browse(self) -> None:
        path, _ = QFileDialog.getOpenFileName(self, "The photo of the month", "", FILES)
        if path:
            self.bring(Path(path))

    def bring(self, path: Path, anyway: bool = False) -> None:
        """Take in a file and make it the month's photo; ``anyway`` though its end is missing."""
        month, clock, rollover = self.month, self._desk.clock, self._desk.rollover()
        self._desk.write(
            lambda store: months.bring_photo(store, month, path, clock, rollover, anyway),
            lambda _: self._desk.changed.emit(),
            lambda error: self._not_brought(path, error),
        )

    def _not_brought(self, path: Path, error: KeeperError) -> None:
        self._desk.said.emit(str(error))
        self._cut_off = path if isinstance(error, CutOffPhoto) else None
        self.anyway.setVisible(self._cut_off is not None)

    def _take_anyway(self) -> None:
        if self._cut_off:
            self.bring(self._cut_off, anyway=True)


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

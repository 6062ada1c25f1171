"""The nights to which many photos would go, to be looked at before they are taken in."""

from pathlib import Path

from PySide6.QtCore import QModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QImage, QPixmap, QStandardItem, QStandardItemModel
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QListView, QVBoxLayout, QWidget

from keeper.actions.photos.looking import Looked, NightToCome, small_picture
from keeper.errors import KeeperError, shown_name
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import label
from keeper.window.parts.tips import plain_tip

PEEKED = 5
"""Small pictures shown of the night that is looked at."""

_EMS = 5.6


class NightsToCome(QWidget):
    """A row for each night, ticked to be taken in; below it a few of the night's pictures.

    ``ticked`` comes when others are ticked.
    """

    ticked = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._found: tuple[NightToCome, ...] = ()
        self.list = QListView()
        self.list.setLayoutMode(QListView.LayoutMode.Batched)
        self.list.setUniformItemSizes(True)
        self.list.setAccessibleName("Nights the photos go to")
        self.list.setProperty("told", True)
        self.list.setMinimumHeight(desk.look.px(7))
        self.rows = QStandardItemModel(self)
        self.rows.itemChanged.connect(lambda _: self._on_ticked())
        self.list.setModel(self.rows)
        self.list.selectionModel().currentChanged.connect(self._on_current)
        self.peek = Peek(desk)
        self.places = QCheckBox()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.5))
        layout.addWidget(self.list, 1)
        layout.addWidget(self.peek)
        layout.addWidget(self.places)
        self.setFocusProxy(self.list)

    def show_nights(self, looked: Looked) -> None:
        """Show these, all of them ticked; places are not said unless that is ticked."""
        self._found = looked.nights
        self.rows.clear()
        for night in self._found:
            item = QStandardItem(_said(night))
            item.setEditable(False)
            item.setCheckable(True)
            item.setCheckState(Qt.CheckState.Checked)
            self.rows.appendRow(item)
        self.places.setChecked(False)
        self._say_places()
        if self._found:
            self.list.setCurrentIndex(self.rows.index(0, 0))

    def chosen(self) -> list[NightToCome]:
        """The nights that are ticked."""
        checked = Qt.CheckState.Checked
        return [night for row, night in enumerate(self._found) if self.rows.item(row).checkState() == checked]

    def _on_ticked(self) -> None:
        self._say_places()
        self.ticked.emit()

    def _say_places(self) -> None:
        many = sum(night.offer is not None for night in self.chosen()) if self.rows.rowCount() == len(self._found) else 0
        self.places.setVisible(many > 0)
        nights = "one of these nights was" if many == 1 else f"{many:,} of these nights were"
        self.places.setText(f"Note that {nights} spent where the photos were taken")

    def _on_current(self, index: QModelIndex) -> None:
        if index.isValid():
            self.peek.show_files(self._found[index.row()].files)


class Peek(QWidget):
    """A few small pictures of files that are not taken in yet, fetched in the darkroom."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._errand = Errand(desk.darkroom)
        side = desk.look.px(_EMS)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.6))
        self.frames = [QLabel() for _ in range(PEEKED)]
        for frame in self.frames:
            frame.setFixedSize(QSize(side, side))
            frame.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
            frame.setTextFormat(Qt.TextFormat.PlainText)
            layout.addWidget(frame)
        self.more = label("", "quiet", wrap=False)
        layout.addWidget(self.more)
        layout.addStretch(1)

    def show_files(self, files: tuple[Path, ...]) -> None:
        """Show the first of these."""
        self._errand.stop()
        for place, frame in enumerate(self.frames):
            frame.clear()
            name = shown_name(files[place]) if place < len(files) else ""
            frame.setAccessibleName(name)
            frame.setToolTip(plain_tip(name))
            if name:
                self._fetch(frame, files[place])
        rest = len(files) - len(self.frames)
        self.more.setText(f"and {rest:,} more" if rest > 0 else "")

    def _fetch(self, frame: QLabel, file: Path) -> None:
        self._errand.also(
            lambda store, task: QImage.fromData(small_picture(file)),
            lambda image: self._put(frame, image),
            lambda error: _miss(frame, error),
        )

    def _put(self, frame: QLabel, image: QImage) -> None:
        ratio = self.devicePixelRatioF()
        small = image.scaled(
            frame.size() * ratio, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        pixmap = QPixmap.fromImage(small)
        pixmap.setDevicePixelRatio(ratio)
        frame.setPixmap(pixmap)


def _miss(frame: QLabel, error: KeeperError) -> None:
    frame.setText("cannot be shown")
    frame.setWordWrap(True)
    frame.setToolTip(plain_tip(str(error)))


def _said(night: NightToCome) -> str:
    parts = [wording.short_date(night.night), wording.counted(len(night.files), "photo")]
    parts += [night.offer.place.name] if night.offer else []
    if night.guessed:
        all_of_them = night.guessed == len(night.files)
        parts.append(f"{'' if all_of_them else f'{night.guessed:,} '}dated by name: a guess")
    return " \u00b7 ".join(parts)

"""Choosing the photo of a month: its photos side by side, or any file."""

from datetime import date
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from keeper.actions.months import shown as months
from keeper.errors import CutOffPhoto, KeeperError
from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.photos.choice import PhotoChoice
from keeper.window.parts.photos.files import FILES
from keeper.window.parts.small import label, quiet_button, row


class PhotoChooser(QWidget):
    """The photos of a month's nights; Enter or a click chooses one. Kept at once."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.month: date = desk.tonight().replace(day=1)
        self._chosen: str | None = None
        self._errand = Errand(desk.reader)
        self.told = label("", "quiet")
        self.list = PhotoChoice(desk, "Photos of the month")
        self.list.picked.connect(self.choose)
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
        self.list.stop()
        self._errand.anew(lambda store, task: months.photos_to_choose(store, month), self._fill)

    def _fill(self, found: tuple[tuple[Photo, date], ...]) -> None:
        self.told.setText("" if found else "None of its nights has a photo.")
        self.told.setVisible(not found)
        self.list.show_photos(found, self._chosen)

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        if self.list.count():
            self.list.fit()

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

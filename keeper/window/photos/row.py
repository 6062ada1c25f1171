"""The small photos side by side; the row scrolls sideways when it is longer than the page."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QWidget

from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.kept_room import ROW_END
from keeper.window.photos.cell import PhotoCell

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QResizeEvent


class PhotoRow(QScrollArea):
    """As tall as what is in it; nothing at all when that is nothing.

    ``opened`` brings the place of the photo that was pressed.
    """

    opened = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.cells: list[PhotoCell] = []
        self._desk = desk
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Photos of the night")
        self.begin_anew()
        self.hide()

    def begin_anew(self) -> None:
        """Hold nothing, so that all is made again, as when the text is of another size."""
        held = QWidget()
        self._side_by_side = QHBoxLayout(held)
        self._side_by_side.setContentsMargins(0, 0, 0, self._desk.look.px(ROW_END))
        self._side_by_side.setSpacing(self._desk.look.px(1))
        held.installEventFilter(self)
        self.setWidget(held)
        self.cells = []

    def lay_out(self, photos: Sequence[Photo], marked: bool) -> None:
        """Show these; ``marked`` sets the first one off. What was there already stays as it is."""
        there = {(cell.photo.id, cell.marked): cell for cell in self.cells}
        while self._side_by_side.count():
            self._side_by_side.takeAt(0)
        self.cells = []
        for place, photo in enumerate(photos):
            key = (photo.id, marked and not place)
            self.cells.append(there.pop(key) if key in there else self._cell(photo, key[1]))
            self._side_by_side.addWidget(self.cells[-1], 0, Qt.AlignmentFlag.AlignBottom)
        self._side_by_side.addStretch(1)
        for gone in there.values():
            gone.hide()
            gone.deleteLater()
        self.setVisible(bool(self.cells))
        self._fit()

    def _cell(self, photo: Photo, marked: bool) -> PhotoCell:
        made = PhotoCell(self._desk, photo, marked)
        made.thumbnail.clicked.connect(lambda: self.opened.emit(self.cells.index(made)))
        for part in (made.thumbnail, made.caption):
            part.installEventFilter(self)
        return made

    def show_photos(self, photos: Sequence[Photo]) -> None:
        """Take up what has changed of the same photos."""
        for cell, photo in zip(self.cells, photos, strict=False):
            cell.show_photo(photo)
        # All or none, so that the captions stand at one height.
        any_state = any(cell.state.text() for cell in self.cells)
        for cell in self.cells:
            cell.state.setVisible(any_state)

    def parts(self) -> list[QWidget]:
        """What the keyboard goes through, in order."""
        return [part for cell in self.cells for part in (cell.thumbnail, cell.caption)]

    def place_with_keyboard(self) -> int | None:
        """Which photo has the keyboard."""
        return next((place for place, cell in enumerate(self.cells) if cell.thumbnail.hasFocus()), None)

    def place_pointed_at(self) -> int | None:
        """Which photo the mouse is on, else the keyboard."""
        under = (place for place, cell in enumerate(self.cells) if cell.thumbnail.underMouse())
        return next(under, self.place_with_keyboard())

    def focus(self, place: int) -> None:
        """Give a photo the keyboard; beyond the ends, the last there is."""
        self.cells[min(max(place, 0), len(self.cells) - 1)].thumbnail.setFocus(Qt.FocusReason.TabFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self._fit()
        elif event.type() == QEvent.Type.FocusIn and self.widget() is not None:
            self._bring_into_view(watched.parentWidget())
        return super().eventFilter(watched, event)

    def _bring_into_view(self, cell: QWidget) -> None:
        area: QWidget | None = self
        while area is not None:
            if isinstance(area, QScrollArea):
                area.ensureWidgetVisible(cell, 0, 0)
            area = area.parentWidget()

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        # Arrows go from photo to photo, they do not scroll.
        event.ignore()

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        held = self.widget()
        if held is not None:
            wanted = held.sizeHint()
            too_long = wanted.width() > self.viewport().width()
            self.setFixedHeight(wanted.height() + (self.horizontalScrollBar().sizeHint().height() if too_long else 0))

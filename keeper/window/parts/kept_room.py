"""The room of the night's photos, kept from the start so that nothing moves when they come."""

from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.small import quiet_button

HEIGHT, HEIGHT_OF_MARKED = 5.6, 7.2
"""Of a small photo, in times the text's height; of the one that is set off among several."""

BELOW = 6
"""Pixels below a small photo, for the line that sets it off."""

ABOVE, GAP, CELL_GAP, ROW_END = 0.5, 0.3, 0.15, 0.3
"""Above the photos, between their rows, within a photo's cell and below it, in times the text's height."""


class KeptRoom(QVBoxLayout):
    """Takes one widget; until it comes, the room is empty and as high as it will be."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        # A widget, since a layout of mere space gets no distance from the rows around it.
        self._space: QWidget | None = QWidget()
        super().addWidget(self._space)

    def keep_for(self, photos: int) -> None:
        """Keep the room for so many photos."""
        if self._space is not None:
            self._space.setFixedHeight(_height(self._look, photos))

    def addWidget(self, widget: QWidget) -> None:
        """Let the photos in."""
        if self._space is not None:
            self.removeWidget(self._space)
            self._space.deleteLater()
            self._space = None
        super().addWidget(widget)


def _height(look: Look, photos: int) -> int:
    px = look.px
    row = px(ABOVE) + _tall(quiet_button("Add a photo", lambda: None))
    if not photos:
        return row
    caption = QLineEdit()
    caption.setProperty("caption", True)
    cell = px(HEIGHT_OF_MARKED if photos > 1 else HEIGHT) + BELOW + px(CELL_GAP) + _tall(caption)
    return row + cell + px(ROW_END) + px(GAP)


def _tall(widget: QWidget) -> int:
    widget.ensurePolished()
    return widget.sizeHint().height()

"""A photo in a row of photos: the picture, its caption to write in, and its state."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.photos import kept as photos
from keeper.actions.writing import readable
from keeper.model import Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.kept_room import CELL_GAP, HEIGHT, HEIGHT_OF_MARKED
from keeper.window.parts.photos.thumbnail import Thumbnail
from keeper.window.parts.small import label
from keeper.window.parts.typing.put_by import PutBy

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QPaintEvent

LONGEST = 500
"""Letters of a caption."""


class Caption(QLineEdit):
    """What a photo shows, kept as it is typed.

    ``kept`` comes with the photo's id and its words, ``left`` on Enter.
    """

    kept = Signal(str, str)
    left = Signal()

    def __init__(self, desk: Desk, photo: Photo) -> None:
        super().__init__(photo.caption)
        self._words = PutBy(desk, self, "caption", _write)
        self._words.kept.connect(self.kept)
        self.setProperty("caption", True)
        self.setMaxLength(LONGEST)
        self.setAccessibleName("Caption")
        self.setTextMargins(-2, 0, 0, 0)
        self.show_caption(photo)
        self.setCursorPosition(0)
        self.returnPressed.connect(self._on_enter)

    def show_caption(self, photo: Photo) -> None:
        """Take up a caption written elsewhere, unless one is being written here."""
        self._words.show(photo.id, photo.caption)
        self.setToolTip(photo.caption)

    def commit(self) -> None:
        """Keep what is written."""
        self._words.put_by()

    def _on_enter(self) -> None:
        self.commit()
        self.left.emit()

    def paintEvent(self, event: "QPaintEvent") -> None:
        short = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width() - 2)
        if self.hasFocus() or short == self.text():
            super().paintEvent(event)
            return
        # A line edit cuts what is too long in the middle of a letter.
        painter = QPainter(self)
        painter.drawText(self.rect().adjusted(0, 0, 0, -1), Qt.AlignmentFlag.AlignVCenter, short)
        painter.end()

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        super().focusOutEvent(event)
        self.commit()
        self.setCursorPosition(0)


def _write(store, photo_id: str, words: str) -> None:
    photos.write_caption(store, photo_id, readable(words).strip())


class PhotoCell(QWidget):
    """One photo of the row; the night's own is larger, underlined and named."""

    def __init__(self, desk: Desk, photo: Photo, marked: bool) -> None:
        super().__init__()
        px = desk.look.px
        self.photo = photo
        self.marked = marked
        self._narrowest = px(8)
        self.thumbnail = Thumbnail(desk, photo, HEIGHT_OF_MARKED if marked else HEIGHT, marked)
        self.caption = Caption(desk, photo)
        self.caption.left.connect(self.thumbnail.setFocus)
        self.state = label("", "quiet", wrap=False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(px(CELL_GAP))
        layout.addStretch(1)
        layout.addWidget(self.thumbnail)
        layout.addWidget(self.caption)
        layout.addWidget(self.state)
        for part in (self.thumbnail, self.caption):
            part.installEventFilter(self)
        self.show_photo(photo)

    def show_photo(self, photo: Photo) -> None:
        """Take up what has changed of the same photo."""
        self.photo = photo
        self.thumbnail.describe(photo)
        self.setFixedWidth(max(self.thumbnail.width(), self._narrowest))
        self.caption.show_caption(photo)
        # Where there is no caption, its place is free for the state.
        self.state.setText(self._state() if photo.caption else "")
        self._hint()

    def _state(self) -> str:
        words = ("photo of the night" if self.marked else "", "resting" if self.photo.resting else "")
        return " \u00b7 ".join(filter(None, words))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut, QEvent.Type.Enter, QEvent.Type.Leave):
            # Later: while the event is under way the focus is not yet where it will be.
            QTimer.singleShot(0, self, self._hint)
        return False

    def _hint(self) -> None:
        near = any(part.hasFocus() or part.underMouse() for part in (self.thumbnail, self.caption))
        self.caption.setPlaceholderText("a caption" if near else "" if self.state.text() else self._state())

"""A photo in a row of photos: the picture, its caption to write in, and its state."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions import photos
from keeper.actions.writing import readable
from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.window.desk import Desk
from keeper.window.field import DRAFT_AFTER
from keeper.window.kept_room import CELL_GAP, HEIGHT, HEIGHT_OF_MARKED
from keeper.window.parts import label
from keeper.window.photo_acts import while_alive
from keeper.window.thumbnail import Thumbnail

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
        self._desk = desk
        self._photo = photo
        self._kept = photo.caption
        self.setProperty("caption", True)
        self.setMaxLength(LONGEST)
        self.setAccessibleName("Caption")
        self.setToolTip(photo.caption)
        self.setCursorPosition(0)
        self.setTextMargins(-2, 0, 0, 0)
        self._pause = QTimer(self, singleShot=True, interval=DRAFT_AFTER)
        self._pause.timeout.connect(self.commit)
        self.textEdited.connect(lambda _: self._pause.isActive() or self._pause.start())
        self.returnPressed.connect(self._on_enter)

    def show_caption(self, photo: Photo) -> None:
        """Take up a caption written elsewhere, unless one is being written here."""
        if photo.id == self._photo.id and self.text().strip() != self._kept:
            return
        if photo.caption != self.text().strip() or photo.id != self._photo.id:
            self.setText(photo.caption)
            self.setCursorPosition(0)
        self._photo, self._kept = photo, photo.caption
        self.setToolTip(photo.caption)

    def commit(self) -> None:
        """Keep what is written."""
        self._pause.stop()
        photo_id, words, was = self._photo.id, readable(self.text()).strip(), self._kept
        if words == was:
            return
        self._kept = words
        self._desk.write(
            lambda store: photos.write_caption(store, photo_id, words),
            lambda _: self._on_kept(photo_id, words),
            lambda error: self._on_failed(was, error),
        )

    def _on_kept(self, photo_id: str, words: str) -> None:
        while_alive(self, self.kept.emit)(photo_id, words)
        self._desk.changed.emit()

    def _on_failed(self, was: str, error: KeeperError) -> None:
        # Not kept, so it is tried again when the field is next left.
        self._kept = was
        self._desk.said.emit(str(error))

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

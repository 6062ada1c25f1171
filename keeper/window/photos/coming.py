"""Photos on their way in: dropped on the page, pasted, or chosen."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, Qt, Signal
from PySide6.QtGui import QImage, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from keeper.actions.opening import passing_folder
from keeper.actions.photos.kept import ENDING_OF, ENDINGS
from keeper.errors import CannotWrite

_FIRST_CHOICE = ("image/png", "image/jpeg")
_RAW = {kind: ENDING_OF[kind] for kind in (*_FIRST_CHOICE, *ENDING_OF)}
"""The kinds in which a copied picture is taken as it is, those first that lose nothing."""


@dataclass(frozen=True, slots=True)
class Pasted:
    """A picture that is no file yet: its bytes, or what the window system unpacked."""

    data: bytes | QImage
    ending: str


Source = Path | Pasted


def files_in(data: QMimeData) -> list[Path]:
    """The files of this computer that are named."""
    return [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]


def sources_in(data: QMimeData) -> list[Source]:
    """What may be photos: files, or else a picture that was copied."""
    return files_in(data) or _copied(data)


def _copied(data: QMimeData) -> list[Source]:
    for kind, ending in _RAW.items():
        # The bytes as they come, so that the window need not unpack them.
        if data.hasFormat(kind) and (raw := data.data(kind).data()):
            return [Pasted(raw, ending)]
    image = data.imageData() if data.hasImage() else None
    return [Pasted(image, "png")] if isinstance(image, QImage) and not image.isNull() else []


def meant_as_photos(data: QMimeData) -> bool:
    """Whether a paste among words means photos: files called so, or a picture without words."""
    files = files_in(data)
    if files:
        return any(file.suffix.lower().lstrip(".") in ENDINGS for file in files)
    return has_picture(data) and not data.hasText()


def has_picture(data: QMimeData) -> bool:
    """Whether a picture itself was copied, not a file."""
    return data.hasImage() or any(data.hasFormat(kind) for kind in _RAW)


@contextmanager
def as_file(source: Source, store) -> Iterator[Path]:
    """The source as a file; a pasted picture, in the keeper's folder, for as long as it is taken in.

    Raises CannotWrite.
    """
    if isinstance(source, Path):
        yield source
        return
    with passing_folder(store) as folder:
        file = Path(folder, f"pasted picture.{source.ending}")
        _lay_down(source, file)
        yield file


def _lay_down(source: Pasted, file: Path) -> None:
    try:
        if isinstance(source.data, bytes):
            file.write_bytes(source.data)
        elif not source.data.save(str(file), "PNG"):
            raise CannotWrite("What was pasted could not be laid down as a picture.")
    except OSError as error:
        raise CannotWrite(f"There is no room to lay down what was pasted: {error.strerror}.") from error


class Arrivals(QObject):
    """Watches a page for photos that are dropped or pasted on it.

    ``came`` brings the sources; ``hovering`` whether some are held over it.
    """

    came = Signal(object)
    hovering = Signal(bool)

    def __init__(self, page: QWidget, words: list[QWidget]) -> None:
        super().__init__(page)
        self._words = words
        self._page = page
        page.setAcceptDrops(True)
        for watched in (page, page.viewport(), *words):
            watched.installEventFilter(self)
        for field in page.findChildren(QLineEdit):
            # Else a photo that falls on it leaves its file's name there.
            field.setAcceptDrops(False)

    def watch(self, words: QWidget) -> None:
        """Watch over another field for words."""
        self._words.append(words)
        words.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind in (QEvent.Type.DragEnter, QEvent.Type.DragMove, QEvent.Type.Drop):
            return watched not in self._words and self._dragged(event)
        if kind == QEvent.Type.DragLeave:
            self.hovering.emit(False)
        elif kind == QEvent.Type.KeyPress and event.matches(QKeySequence.StandardKey.Paste):
            return self._pasted(among_words=watched in self._words)
        return False

    def _dragged(self, event: QEvent) -> bool:
        data = event.mimeData()
        if not (files_in(data) or has_picture(data)):
            return False
        # Copied, never moved: a file manager would take the file away.
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        dropped = event.type() == QEvent.Type.Drop
        self.hovering.emit(not dropped)
        if dropped:
            self.came.emit(sources_in(data))
        return True

    def _pasted(self, among_words: bool) -> bool:
        data = QApplication.clipboard().mimeData()
        if data is None or (among_words and not meant_as_photos(data)):
            return False
        sources = sources_in(data)
        if sources:
            self.came.emit(sources)
        return bool(sources)

"""What the tests of photos share: files, drops, and what the keeper has of a night."""

from pathlib import Path

from PIL import Image
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.store.photos import known as photos

PLAIN = jpeg_bytes(quarters(120, 80))
NOISE = jpeg_bytes(Image.effect_noise((240, 160), 60).convert("RGB"))
TALL = jpeg_bytes(quarters(60, 90))


def taken(path: Path, when: str = "2026:11:14 12:00:00", picture: bytes = PLAIN, **more) -> Path:
    """A photo that carries this date, each name a file of its own."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(with_exif(picture, exif(when, more=len(path.name) + sum(path.name.encode()), **more)))
    return path


def cut(path: Path, when: str = "2026:11:14 12:00:00") -> Path:
    """A photo whose lower part is missing."""
    whole = taken(path, when, NOISE).read_bytes()
    path.write_bytes(whole[: len(whole) * 6 // 10])
    return path


def names(store, night) -> list[str]:
    """The photos of a night, in order."""
    return [photo.name for photo in photos.of_night(store, night)]


def files(*paths: Path) -> QMimeData:
    """What a file manager hands over."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    return data


def held_over(target: QWidget, data: QMimeData) -> QDragEnterEvent:
    """Hold something over a widget, by way of the window as the system does."""
    at, window = _at(target)
    event = QDragEnterEvent(at, Qt.DropAction.MoveAction | Qt.DropAction.CopyAction, data,
                            Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)  # fmt: skip
    QApplication.sendEvent(window, event)
    return event


def dropped(target: QWidget, data: QMimeData) -> QDropEvent:
    """Drop something on a widget. The source offers to move it, as on one disk."""
    held_over(target, data)
    at, window = _at(target)
    offered = Qt.DropAction.MoveAction | Qt.DropAction.CopyAction
    how = (Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(window, QDragMoveEvent(at, offered, data, *how))
    event = QDropEvent(QPointF(at), offered, data, *how)
    QApplication.sendEvent(window, event)
    return event


def carried_away(target: QWidget) -> None:
    """Let what is held over a widget go elsewhere."""
    QApplication.sendEvent(target.window().windowHandle(), QDragLeaveEvent())


def _at(target: QWidget) -> tuple[QPoint, object]:
    window = target.window()
    return target.mapTo(window, target.rect().center()), window.windowHandle()

"""A photo turned to the left or right is seen so everywhere, and its file is never touched."""

import hashlib

import pytest
from photographs import taken
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from sample_pictures import CORNERS, jpeg_bytes, quarters

from keeper.actions.months import shown as months
from keeper.actions.photos import kept as actions
from keeper.store.photos import known as photos
from keeper.window.month.photo import PhotoBox
from keeper.window.month.photo_choosing import PhotoChooser
from keeper.window.parts.photos import thumbnail
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.year.photos import LargePhoto

LARGE = jpeg_bytes(quarters(600, 400), 95)
UPRIGHT = ("red", "green", "blue", "yellow")
RIGHT = ("blue", "red", "yellow", "green")
LEFT = ("green", "yellow", "red", "blue")
_NAMES = dict(zip(CORNERS.values(), UPRIGHT, strict=True))


def corners(image: QImage) -> tuple[str, ...]:
    """The colours of the quarters, from the left above to the right below."""
    wide, high = image.width(), image.height()

    def named(x: int, y: int) -> str:
        colour = image.pixelColor(x, y)
        seen = (colour.red(), colour.green(), colour.blue())
        return min(_NAMES.items(), key=lambda one: sum(abs(a - b) for a, b in zip(one[0], seen, strict=True)))[1]

    return tuple(named(wide * (1 + 2 * right) // 4, high * (1 + 2 * down) // 4) for right, down in CORNERS)


@pytest.fixture
def strip(qtbot, frame, store, clock, tonight, tmp_path):
    thumbnail._seen.clear()
    actions.take_in(store, taken(tmp_path / "a.jpg", picture=LARGE), clock, tonight)
    frame.desk.changed.emit()
    page = frame.pages["night"]
    qtbot.waitUntil(lambda: page.photos is not None and len(page.photos.row.cells) == 1)
    cell = page.photos.row.cells[0]
    qtbot.waitUntil(lambda: cell.thumbnail._image is not None)
    return page.photos


def photo_of(store, tonight):
    return photos.of_night(store, tonight)[0]


def test_keys_turn_it_in_the_row_and_turning_back_undoes_it(qtbot, strip, store, tonight, frame):
    cell, file = strip.row.cells[0], photos.file_of(store, photo_of(store, tonight))
    before = hashlib.sha256(file.read_bytes()).hexdigest()
    size = cell.thumbnail.size()
    assert corners(cell.thumbnail._image) == UPRIGHT
    cell.thumbnail.setFocus()
    qtbot.keyClick(cell.thumbnail, Qt.Key.Key_T)
    qtbot.waitUntil(lambda: cell.thumbnail._image is not None and corners(cell.thumbnail._image) == RIGHT)
    assert cell.thumbnail.width() < size.width(), "an upright picture takes less room"
    assert (photo_of(store, tonight).width, photo_of(store, tonight).height) == (400, 600)
    qtbot.keyClick(cell.thumbnail, Qt.Key.Key_T, Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: photo_of(store, tonight).turns == 0 and cell.thumbnail.size() == size)
    assert corners(cell.thumbnail._image) == UPRIGHT
    qtbot.keyClick(cell.thumbnail, Qt.Key.Key_T, Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: cell.thumbnail._image is not None and corners(cell.thumbnail._image) == LEFT)
    assert hashlib.sha256(file.read_bytes()).hexdigest() == before
    photos.check(store, photo_of(store, tonight))


def test_the_menu_of_the_row_turns_it(qtbot, strip, store, tonight):
    said = {action.text().split("\t")[0]: action for action in strip.menu(0).actions()}
    said["Turn left"].trigger()
    qtbot.waitUntil(lambda: photo_of(store, tonight).turns == 3)


def test_the_full_view_turns_it_by_button_and_key(qtbot, strip, store, tonight):
    strip.open(0)
    view = strip.view
    qtbot.waitUntil(lambda: view.canvas.image is not None and view.canvas.image.width() >= 600)
    view.right.click()
    qtbot.waitUntil(lambda: view.photo.turns == 1)
    qtbot.waitUntil(lambda: view.canvas.image is not None and corners(view.canvas.image) == RIGHT)
    assert view.canvas.image.height() > view.canvas.image.width()
    qtbot.keyClick(view.canvas, Qt.Key.Key_T)
    qtbot.waitUntil(lambda: photo_of(store, tonight).turns == 2)
    view.left.click()
    qtbot.waitUntil(lambda: photo_of(store, tonight).turns == 1)
    view.accept()
    small = strip.row.cells[0].thumbnail
    qtbot.waitUntil(lambda: small._image is not None and corners(small._image) == RIGHT)


def test_the_large_ones_of_month_and_year_follow(qtbot, frame, strip, store, tonight):
    box, large = PhotoBox(frame.desk), LargePhoto(frame.desk)
    for part in (box, large):
        qtbot.addWidget(part)
        part.resize(500, 400)
        part.show()
        part.show_photo(photo_of(store, tonight))
    qtbot.waitUntil(lambda: box._pixels is not None and large._image is not None)
    assert corners(box._pixels.toImage()) == corners(large._image) == UPRIGHT
    turned = actions.turn(store, photo_of(store, tonight).id, 1)
    for part in (box, large):
        part.show_photo(turned)
    qtbot.waitUntil(lambda: box._pixels is not None and corners(box._pixels.toImage()) == RIGHT)
    qtbot.waitUntil(lambda: large._image is not None and corners(large._image) == RIGHT)


def test_the_chooser_and_the_rows_of_small_ones_follow(qtbot, frame, strip, store, tonight):
    turned = actions.turn(store, photo_of(store, tonight).id, 1)
    chooser, links = PhotoChooser(frame.desk), PhotoLinks(frame.desk, 8)
    qtbot.addWidget(chooser)
    chooser.show()
    chooser.show_month(tonight.replace(day=1), None)
    qtbot.waitUntil(lambda: chooser.list.count() == 1)
    frame.layout().addLayout(links)
    links.show_photos([(turned, tonight)])
    side = chooser.list.iconSize().width()

    def seen() -> QImage:
        image = chooser.list.item(0).icon().pixmap(side, side).toImage()
        wide = side * 2 // 3
        return image.copy((side - wide) // 2, 0, wide, side)

    qtbot.waitUntil(lambda: seen().pixelColor(5, 5).alpha() > 0)
    assert corners(seen()) == RIGHT
    button = links.shown()[0]
    qtbot.waitUntil(lambda: not button.icon().isNull())
    assert corners(button.icon().pixmap(320, 320).toImage()) == RIGHT


def test_a_month_that_is_open_shows_its_photo_turned(qtbot, frame, strip, store, tonight):
    months.choose_photo(store, tonight.replace(day=1), photo_of(store, tonight).id)
    frame.go("month", tonight)
    page = frame.pages["month"]

    def seen() -> list[tuple[str, ...]]:
        return [corners(box._pixels.toImage()) for box in page.findChildren(PhotoBox) if box._pixels is not None]

    qtbot.waitUntil(lambda: seen() == [UPRIGHT])
    strip.turn(0, -1)
    qtbot.waitUntil(lambda: seen() == [LEFT])

"""The full view of a photo: looked at, gone through and written under, with the keyboard."""

import errno
import os
import shutil
import threading
from datetime import date

import pytest
from photographs import TALL, taken
from PIL import Image
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QFileDialog
from sample_pictures import CORNERS, laid_down, quarters, save, segments, wide_gamut_profile
from sample_pictures import exif as notes
from shiboken6 import isValid
from waiting.at_rest import at_rest

from keeper.actions import writing
from keeper.actions.photos import kept as actions
from keeper.actions.remembering import bringing_up
from keeper.store.photos import known as photos
from keeper.window.looking_back.night import RememberedNight
from keeper.window.parts.photos.thumbnail import Thumbnail
from keeper.window.photos.full_view import PhotoView

EARLIER = date(2024, 11, 14)


@pytest.fixture
def view(qtbot, frame, store, clock, tonight, tmp_path):
    """The full view on the second of three photos."""
    for name, picture in (("a.jpg", {}), ("b.jpg", {"picture": TALL}), ("c.jpg", {})):
        actions.take_in(store, taken(tmp_path / name, latitude=57.64, longitude=18.29, **picture), clock, tonight)
    qtbot.waitUntil(lambda: frame.pages["night"].photos is not None)
    frame.desk.changed.emit()
    strip = frame.pages["night"].photos
    strip.row.focus(1)
    qtbot.keyClick(strip.row.cells[1].thumbnail, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: strip.view.isActiveWindow() and strip.view.canvas.image is not None)
    yield strip.view
    QApplication.sendPostedEvents()


def shown(qtbot, frame, path, clock, store):
    """The full view of one picture, once it is unpacked."""
    photo = actions.take_in(store, path, clock, frame.desk.tonight()).photo
    view = PhotoView(frame.desk, [photo], 0, None, frame)
    view.open()
    qtbot.waitUntil(lambda: (photo.id, 0) in view.pictures._held)
    return view


def press(qtbot, key, *more) -> None:
    qtbot.keyClick(QApplication.focusWidget(), key, *more)


def closed(qtbot, frame, view) -> None:
    press(qtbot, Qt.Key.Key_Escape)
    # Without a window manager nobody hands the keyboard back.
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow)


def test_enter_opens_it_over_the_window_and_escape_leaves_the_keyboard_where_it_was(qtbot, frame, view):
    assert view.geometry() == frame.geometry()
    assert (view.photo.name, view.canvas.accessibleName()) == ("b.jpg", "b.jpg")
    press(qtbot, Qt.Key.Key_Right)
    closed(qtbot, frame, view)
    assert frame.pages["night"].photos.row.place_with_keyboard() == 2


def test_keys_go_through_the_nights_photos(qtbot, view):
    for key, name in ((Qt.Key.Key_Right, "c.jpg"), (Qt.Key.Key_Right, "c.jpg"), (Qt.Key.Key_Left, "b.jpg"),
                      (Qt.Key.Key_Home, "a.jpg"), (Qt.Key.Key_Left, "a.jpg"), (Qt.Key.Key_End, "c.jpg")):  # fmt: skip
        press(qtbot, key)
        assert view.photo.name == name
    assert view.about.text() == "Taken Saturday 14 November 2026, 12:00 · 57.6400, 18.2900 · 3 of 3"
    assert (view.before.isEnabled(), view.after.isEnabled()) == (True, False)


def test_the_place_of_the_night_is_told_instead_of_numbers(qtbot, view, store, clock, tonight):
    writing.set_place(store, tonight, "Visby", clock)
    press(qtbot, Qt.Key.Key_Left)
    assert "· Visby ·" in view.about.text()


def test_what_was_asked_last_is_what_is_shown(qtbot, view):
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Left, Qt.Key.Key_Right):
        press(qtbot, key)
    qtbot.waitUntil(lambda: (view.photo.id, 0) in view.pictures._held)
    assert view.canvas.image.width() < view.canvas.image.height()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_it_is_turned_rightly(qtbot, frame, store, clock, tmp_path, orientation):
    path = save(tmp_path / "a.png", laid_down(quarters(), orientation), notes(orientation=orientation))
    view = shown(qtbot, frame, path, clock, store)
    image = view.canvas.image
    assert (image.width(), image.height()) == (48, 32)
    for (right, down), colour in CORNERS.items():
        assert image.pixelColor(right * 24 + 12, down * 16 + 8).getRgb()[:3] == colour
    view.close()


def test_wide_colours_are_brought_to_the_screens(qtbot, frame, store, clock, tmp_path):
    # Display P3 (0.5, 0, 0) is beyond sRGB's red of the same number: about (0.55, 0, 0).
    path = save(tmp_path / "a.png", Image.new("RGB", (20, 20), (128, 0, 0)), icc_profile=wide_gamut_profile())
    view = shown(qtbot, frame, path, clock, store)
    red, green, blue = view.canvas.image.pixelColor(5, 5).getRgb()[:3]
    assert red == pytest.approx(140, abs=3) and green == blue == 0
    view.close()


def test_closed_before_it_is_known_who_is_on_it(qtbot, frame, view):
    go_on = threading.Event()
    frame.desk.reader.run(lambda store, task: go_on.wait(60))
    view.go(0)
    view.close()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    go_on.set()
    # What goes wrong in an answer fails the test.
    at_rest(qtbot, frame.desk)
    assert not isValid(view)


def test_closer_and_back_and_no_farther_than_the_whole(qtbot, view):
    canvas = view.canvas
    assert canvas.zoom is None and canvas.fitting() == 1.0
    press(qtbot, Qt.Key.Key_Plus)
    assert canvas.zoom == 1.25
    for _ in range(20):
        press(qtbot, Qt.Key.Key_Equal)
    assert canvas.zoom == 4.0
    for _ in range(30):
        press(qtbot, Qt.Key.Key_Minus)
    assert canvas.zoom is None
    press(qtbot, Qt.Key.Key_1)
    assert canvas.zoom == 1.0
    press(qtbot, Qt.Key.Key_0)
    assert canvas.zoom is None


def test_a_large_photo_fits_and_comes_closer_under_the_mouse(qtbot, frame, store, clock, tmp_path):
    view = shown(qtbot, frame, save(tmp_path / "a.jpg", quarters(4000, 3000)), clock, store)
    canvas = view.canvas
    assert max(canvas.image.width(), canvas.image.height()) < 2000 and canvas._place().width() <= canvas.width()
    corner = canvas._place().topLeft() + QPointF(3, 3)
    turned = QWheelEvent(corner, canvas.mapToGlobal(corner), QPoint(), QPoint(0, 120 * 8), Qt.MouseButton.NoButton,
                         Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False)  # fmt: skip
    QApplication.sendEvent(canvas, turned)
    assert canvas.zoom > 0.7
    qtbot.waitUntil(lambda: canvas.image.width() == 4000)
    # What was under the mouse still is: the red corner.
    assert canvas._place().contains(corner)
    colour = canvas.grab().toImage().pixelColor(corner.toPoint() + QPoint(2, 2))
    assert (colour.red() > 180, colour.green() < 90) == (True, True)
    canvas.move_by(-100_000, -100_000)
    assert canvas._place().right() == pytest.approx(canvas.width(), abs=1)
    view.close()


def test_a_caption_is_written_and_stays_when_one_goes_on(qtbot, view, store, tonight):
    press(qtbot, Qt.Key.Key_F2)
    qtbot.keyClicks(view.caption, "P+-1, the quay")
    press(qtbot, Qt.Key.Key_Left)
    assert view.photo.name == "b.jpg", "an arrow in the caption is the caption's"
    press(qtbot, Qt.Key.Key_Return)
    press(qtbot, Qt.Key.Key_Right)
    assert view.caption.text() == ""
    qtbot.waitUntil(lambda: photos.of_night(store, tonight)[1].caption == "P+-1, the quay")
    press(qtbot, Qt.Key.Key_Left)
    qtbot.waitUntil(lambda: view.caption.text() == "P+-1, the quay")


def test_escape_keeps_a_caption_under_way(qtbot, frame, view, store, tonight):
    press(qtbot, Qt.Key.Key_F2)
    qtbot.keyClicks(view.caption, "half")
    closed(qtbot, frame, view)
    qtbot.waitUntil(lambda: photos.of_night(store, tonight)[1].caption == "half")


def test_it_is_chosen_and_let_rest(qtbot, frame, view, store, tonight):
    assert view.of_night.text() == "Choose as the photo of the night"
    press(qtbot, Qt.Key.Key_P)
    qtbot.waitUntil(lambda: view.of_night.text() == "The photo of the night")
    assert photos.photo_of_night(store, tonight).name == "b.jpg"
    press(qtbot, Qt.Key.Key_R)
    qtbot.waitUntil(lambda: view.rest.text() == "Wake")
    assert photos.photo_of_night(store, tonight).resting and "resting" in view.about.text()
    press(qtbot, Qt.Key.Key_R)
    qtbot.waitUntil(lambda: view.rest.text() == "Let rest")


def test_a_copy_is_saved_without_whereabouts(qtbot, view, tmp_path, monkeypatch):
    target = tmp_path / "given.jpg"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(target), ""))
    press(qtbot, Qt.Key.Key_S)
    qtbot.waitUntil(lambda: view.told.text().startswith("Saved as given.jpg"))
    data = target.read_bytes()
    assert 0xE1 not in segments(data) and b"Exif" not in data
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "no" / "folder.jpg"), ""))
    press(qtbot, Qt.Key.Key_S)
    qtbot.waitUntil(lambda: view.told.text() == f"folder.jpg could not be written: {os.strerror(errno.ENOENT).lower()}.")


@pytest.mark.parametrize("harm", ["gone", "changed"])
def test_a_lost_or_damaged_file_is_a_sentence(qtbot, view, store, tmp_path, monkeypatch, harm):
    view.pictures._held.clear()
    file = photos.file_of(store, view.photos[0])
    file.unlink() if harm == "gone" else file.write_bytes(b"other")
    press(qtbot, Qt.Key.Key_Left)
    qtbot.waitUntil(lambda: view.canvas.sentence != "")
    assert view.canvas.sentence.startswith("“a.jpg” cannot be shown: its file ")
    assert not view.grab().isNull()
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "x.jpg"), ""))
    press(qtbot, Qt.Key.Key_S)
    qtbot.waitUntil(lambda: "cannot be shown" in view.told.text())
    press(qtbot, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: view.canvas.image is not None and view.canvas.sentence == "")


def test_every_control_has_a_name_and_is_reached_by_tab(qtbot, view):
    reached = []
    for _ in range(20):
        press(qtbot, Qt.Key.Key_Tab)
        reached.append(QApplication.focusWidget())
    for control in (
        view.canvas,
        view.caption,
        view.before,
        view.after,
        view.of_night,
        view.rest,
        view.copy,
        view.leave,
    ):
        assert control in reached and (control.accessibleName() or control.text())


def test_looking_never_holds_the_window_up(qtbot, frame, store, clock, tmp_path, monkeypatch):
    view = shown(qtbot, frame, save(tmp_path / "a.jpg", quarters(4000, 3000)), clock, store)
    asked, unpack = [], actions.pixels_of
    monkeypatch.setattr(actions, "pixels_of", lambda *given: asked.append(threading.current_thread()) or unpack(*given))
    view.canvas.set_zoom(1.0)
    qtbot.waitUntil(lambda: asked != [])
    assert threading.main_thread() not in asked
    view.close()


# brought up with an earlier night


@pytest.fixture
def remembered(store, clock, write, tmp_path):
    """A line of two years ago, and a photo with it."""
    write(EARLIER, "memory", "of that day")
    return actions.take_in(store, taken(tmp_path / "a.jpg", "2024:11:14 12:00:00"), clock).photo


def test_looking_back_shows_the_photo_and_opens_it(qtbot, frame, remembered, tonight):
    frame.go("looking back", tonight)
    page = frame.pages["looking back"]
    qtbot.waitUntil(lambda: page.findChild(Thumbnail) is not None)
    small = page.findChild(RememberedNight).findChild(Thumbnail)
    assert small.photo == remembered
    small.setFocus()
    qtbot.keyClick(small, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: frame.findChild(PhotoView) is not None and frame.findChild(PhotoView).isVisible())
    assert frame.findChild(PhotoView).photos == [remembered]
    frame.findChild(PhotoView).close()


def test_a_resting_photo_is_not_brought_up(store, remembered, tonight):
    assert bringing_up.looking_back(store, tonight).photos == {EARLIER: remembered}
    actions.rest_photo(store, remembered.id)
    found = bringing_up.looking_back(store, tonight)
    assert found.photos == {} and len(found.nights) == 1
    shutil.rmtree(store.folder / "thumbnails", ignore_errors=True)

"""Choosing the photo of a month: what stands below each, and which files are offered."""

import fnmatch
import re

import pytest
from photographs import cut, taken
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog
from sample_pictures import HEIC, quarters

from keeper.actions.photos import kept as actions
from keeper.store import month_pages
from keeper.store.photos import known as photos
from keeper.window.month.photo_choosing import PhotoChooser


@pytest.fixture
def chooser(qtbot, frame):
    made = PhotoChooser(frame.desk)
    qtbot.addWidget(made)
    made.resize(700, 400)
    made.show()
    return made


def test_each_date_is_told_once_and_what_is_chosen_in_full(qtbot, chooser, store, clock, tonight, tmp_path):
    for name in ("a.jpg", "b.jpg"):
        actions.take_in(store, taken(tmp_path / name), clock, tonight)
    actions.take_in(store, taken(tmp_path / "c.jpg", "2026:11:10 12:00:00"), clock)
    chooser.show_month(tonight.replace(day=1), photos.of_night(store, tonight)[1].id)
    qtbot.waitUntil(lambda: chooser.list.count() == 3)
    items = [chooser.list.item(place) for place in range(3)]
    assert [item.text() for item in items] == ["10 November\n", "14 November, 1 of 2\n", "14 November, 2 of 2\nchosen"]
    assert items[2].data(Qt.ItemDataRole.AccessibleTextRole) == "Saturday 14 November 2026, 2 of 2.. Chosen."
    room, metrics = chooser.list.gridSize(), chooser.list.fontMetrics()
    for item in items:
        assert all(metrics.horizontalAdvance(line) < room.width() for line in item.text().split("\n"))
    assert chooser.list.iconSize().height() + 2 * metrics.lineSpacing() < room.height()


SAVED = {"png": "PNG", "jpg": "JPEG", "jpeg": "JPEG", "jpe": "JPEG", "jfif": "JPEG", "webp": "WEBP", "avif": "AVIF",
         "tif": "TIFF", "tiff": "TIFF", "gif": "GIF", "bmp": "BMP", "dib": "BMP"}  # fmt: skip


def test_the_dialogs_offer_what_is_taken_and_all_of_it_is_taken(qtbot, chooser, frame, store, clock, tonight, tmp_path, monkeypatch):
    asked = []
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *told: asked.append(told[3]) or ("", ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *told: asked.append(told[3]) or ([], ""))
    chooser._browse()
    frame.pages["night"].photos.intake.choose(tonight)
    assert asked[0] == asked[1]
    offered = re.search(r"\((.*?)\)", asked[0])[1].split()
    for pattern in offered:
        path = tmp_path / pattern.replace("*", "photo")
        if path.suffix[1:] in SAVED:
            quarters().save(path, SAVED[path.suffix[1:]])
        else:
            path.write_bytes(HEIC.read_bytes())
        assert actions.take_in(store, path, clock, tonight).photo.width in (48, 1440), pattern
    for name in ("a.pdf", "a.mp4", "a.svg", "a.cr2", "a.txt"):
        assert not any(fnmatch.fnmatch(name, pattern) for pattern in offered)


def test_a_picture_cut_short_is_refused_and_then_offered(qtbot, chooser, frame, store, tonight, tmp_path):
    month = tonight.replace(day=1)
    chooser.show_month(month, None)
    chooser.bring(cut(tmp_path / "cut.jpg"))
    qtbot.waitUntil(chooser.anyway.isVisible)
    assert frame.said.text() == "“cut.jpg” is damaged or cut short; only a part of it can be seen."
    assert month_pages.one(store, month).photo_id is None
    qtbot.mouseClick(chooser.anyway, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: month_pages.one(store, month).photo_id is not None)
    kept = photos.by_id(store, month_pages.one(store, month).photo_id)
    seen = actions.pixels_of(store, kept)
    assert (kept.cut_off, seen.width, seen.height) == (True, 240, 160)


def test_a_picture_cut_short_is_offered_below_the_night(qtbot, frame, store, tonight, tmp_path):
    page = frame.pages["night"]
    qtbot.waitUntil(lambda: page.photos is not None)
    page.photos.take([cut(tmp_path / "cut.jpg")])
    qtbot.waitUntil(lambda: len(page.photos.offers.buttons) == 1)
    page.photos.offers.buttons[0].click()
    qtbot.waitUntil(lambda: [photo.cut_off for photo in photos.of_night(store, tonight)] == [True])

"""What is said of a place, on its page: typed, kept, offered again, undone, and its photo chosen."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from keeper.actions import drafts, writing
from keeper.actions.places import said
from keeper.model import Photo, PlacePage
from keeper.store.photos import known as photos
from keeper.window.places.said import ChoosePhoto

NIGHT = date(2026, 11, 14)


@pytest.fixture
def lubeck(store, clock):
    return writing.set_place(store, NIGHT, "L\u00fcbeck", clock)


@pytest.fixture
def page_of(qtbot, opened):
    """Opens a place's page and waits for it."""

    def open_page(place, frame=None):
        frame = frame or opened()
        frame.go("places")
        page = frame.pages["places"]
        page.show_place(place.id)
        qtbot.waitUntil(lambda: page.place.said.place_id == place.id and page.place.view is not None)
        return page.place

    return open_page


def test_a_note_is_kept_when_the_field_is_left_and_undone_and_done_again(qtbot, store, lubeck, page_of):
    page = page_of(lubeck)
    note = page.said.note
    note.setFocus()
    QTest.keyClicks(note, "Frau Ohlsen has the key.")
    page.said.keep()
    page.said.choose.setFocus()
    qtbot.waitUntil(lambda: said.of(store, lubeck.id).note == "Frau Ohlsen has the key.")
    control = Qt.KeyboardModifier.ControlModifier
    qtbot.keyClick(page.said.choose, Qt.Key.Key_Z, control)
    qtbot.waitUntil(lambda: said.of(store, lubeck.id) == PlacePage() and note.words() == "")
    qtbot.keyClick(page.said.choose, Qt.Key.Key_Y, control)
    qtbot.waitUntil(lambda: note.words() == "Frau Ohlsen has the key.")


def test_what_was_typed_when_the_window_was_killed_is_there_again(qtbot, store, lubeck, clock, page_of):
    drafts.put_by(store, "place's note", lubeck.id, "The third flo", clock)
    page = page_of(lubeck)
    qtbot.waitUntil(lambda: page.said.note.words() == "The third flo")
    assert said.of(store, lubeck.id).note == ""


def test_words_typed_on_one_place_never_go_to_another(qtbot, store, lubeck, clock, page_of):
    turku = writing.set_place(store, NIGHT - timedelta(1), "Turku", clock)
    page = page_of(lubeck)
    page.said.note.setFocus()
    QTest.keyClicks(page.said.note, "By the Trave.")
    page_of(turku, page.window())
    qtbot.waitUntil(lambda: said.of(store, lubeck.id).note == "By the Trave." or drafts.waiting(store, "place's note", lubeck.id) == "By the Trave.")
    assert page.said.note.words() == "" and said.of(store, turku.id).note == ""


def test_what_it_is_and_its_photo_are_chosen(qtbot, store, lubeck, page_of):
    photo = photos.add(store, Photo("", "a" * 64, "jpg", 9, caption="The stairs"))
    photos.attach(store, NIGHT, photo.id)
    page = page_of(lubeck)
    page.said.roof.setFocus()
    qtbot.keyClick(page.said.roof, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: said.of(store, lubeck.id).roof == "home")
    asked = ChoosePhoto(page.desk, lubeck.id, None, page)
    qtbot.addWidget(asked)
    qtbot.waitUntil(lambda: asked.list.count() == 1)
    asked.list.itemActivated.emit(asked.list.item(0))
    qtbot.waitUntil(lambda: [one.accessibleName() for one in page.said.photo.shown()] == ["The photo of this place. The stairs"])
    assert said.of(store, lubeck.id) == PlacePage("", "home", photo.id)

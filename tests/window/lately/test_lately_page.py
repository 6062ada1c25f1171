"""The page of what was done lately: listed, found by words, taken back and brought back; however much there is."""

import time
from datetime import date

import pytest
from PySide6.QtCore import Qt

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.store import lines, nights
from keeper.window.lately.page import TAKEN_OUT, WORDINGS

TONIGHT = date(2026, 11, 14)


@pytest.fixture
def shown(qtbot, frame, store, clock):
    writing.write_line(store, TONIGHT, "memory", "Fog over the harbour.", clock)
    writing.set_place(store, TONIGHT, "Riga", clock)
    writing.write_line(store, TONIGHT, "memory", "Rain.", clock)
    frame.go("lately")
    page = frame.pages["lately"]
    qtbot.waitUntil(lambda: page.model.rowCount() == 3)
    return page


def told(page):
    return [page.model.at(place).line.text for place in range(page.model.rowCount())]


def heads(page):
    return [page.model.at(place).head for place in range(page.model.rowCount())]


def mark(page, place):
    page.list.setCurrentIndex(page.model.index(place))


def test_the_latest_stands_first_with_when_and_from_where(shown):
    memory = "Memory for the night of 14 November 2026"
    assert told(shown) == [memory, "Riga for the night of 14 November 2026", memory]
    assert shown.list.hasFocus() and shown.list.marked().done.number == 3
    assert shown.back.text() == "Undo" and not shown.told.isVisible()


def test_any_is_taken_back_and_done_again_from_the_list(qtbot, frame, shown, store):
    mark(shown, 1)
    qtbot.keyClick(shown.list, Qt.Key.Key_U)
    qtbot.waitUntil(lambda: shown.back.text() == "Redo")
    assert heads(shown)[1].endswith("undone") and nights.one(store, TONIGHT).place is None
    assert frame.page_shown() == "lately" and frame.said.text() == "Took back: Riga for the night of 14 November 2026."
    qtbot.mouseClick(shown.back, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: shown.back.text() == "Undo")
    assert nights.one(store, TONIGHT).place.name == "Riga"


def test_what_something_leans_on_is_not_taken_back_and_that_is_said(qtbot, frame, shown, store):
    mark(shown, 2)
    shown.list.have_back()
    qtbot.waitUntil(lambda: frame.said.text().startswith("Something done since leans on it: Memory for the night"))
    assert lines.one(store, TONIGHT, "memory").text == "Rain."


def test_it_is_found_by_its_words_and_by_those_that_were_there(qtbot, shown):
    qtbot.keyClicks(shown.sought, "riga")
    qtbot.waitUntil(lambda: len(told(shown)) == 1)
    shown.sought.setText("harbour")
    qtbot.waitUntil(lambda: [shown.model.at(0).done.number] == [3] and len(told(shown)) == 1)
    shown.sought.setText("nothing like it")
    qtbot.waitUntil(lambda: shown.told.text() == "Nothing found.")
    assert not shown.back.isEnabled()


def test_an_earlier_wording_is_found_and_brought_back(qtbot, frame, shown, store):
    shown.which.setCurrentText(WORDINGS)
    qtbot.waitUntil(lambda: told(shown) == ["Fog over the harbour."])
    assert heads(shown)[0].startswith("Memory, Sat 14 Nov 2026 \u00b7 until ") and shown.back.text() == "Bring back"
    qtbot.keyClick(shown.list, Qt.Key.Key_U)
    qtbot.waitUntil(lambda: frame.page_shown() == "night")
    assert lines.one(store, TONIGHT, "memory").text == "Fog over the harbour."


def test_what_was_taken_out_stands_by_itself(qtbot, frame, shown, store, clock):
    writing.write_line(store, TONIGHT, "memory", "", clock)
    frame.desk.changed.emit()
    shown.which.setCurrentText(TAKEN_OUT)
    qtbot.waitUntil(lambda: told(shown) == ["Memory taken out for the night of 14 November 2026"])
    shown.list.have_back()
    qtbot.waitUntil(lambda: lines.one(store, TONIGHT, "memory") is not None)


def test_enter_goes_to_where_it_is_seen(qtbot, frame, shown):
    mark(shown, 1)
    qtbot.keyClick(shown.list, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: frame.page_shown() == "night")


def test_with_nothing_done_it_says_so(qtbot, frame):
    frame.go("lately")
    page = frame.pages["lately"]
    qtbot.waitUntil(lambda: page.told.isVisible() and page.told.text().startswith("Nothing was done here yet."))
    assert not page.back.isEnabled()


def test_a_hundred_thousand_come_piece_by_piece(qtbot, frame, store, clock):
    writing.write_line(store, TONIGHT, "memory", "Fog.", clock)
    with store.unnoted() as connection:
        connection.execute(
            "WITH RECURSIVE n (i) AS (SELECT 2 UNION ALL SELECT i + 1 FROM n WHERE i < 100000) "
            "INSERT INTO act (number, at, told, page, night, thing, done_from, first, last) "
            "SELECT i, '2026-11-14T20:00:00.000000Z', 'Act ' || i, 'night', '2026-11-14', '', 'window', i + 9, i + 9 FROM n"
        )
        connection.execute("INSERT INTO change (seq, what, kind, key) SELECT first, 'night', 'k', '[]' FROM act WHERE number > 1")
    frame.go("lately")
    page = frame.pages["lately"]
    qtbot.waitUntil(lambda: page.model.rowCount() == 50)
    assert told(page)[0] == "Act 100000"
    page.list.scrollToBottom()
    qtbot.waitUntil(lambda: page.model.rowCount() >= 100)
    began = time.process_time()
    turned = undoing.undo(store)
    assert turned.done.number == 100_000 and time.process_time() - began < 1
    page.sought.setText("memory")
    qtbot.waitUntil(lambda: told(page) == ["Memory for the night of 14 November 2026"])

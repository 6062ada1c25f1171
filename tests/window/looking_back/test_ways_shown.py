"""Ways beside the date, as they are shown."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from keeper.actions import writing
from keeper.review.remembering.ways import SPACED

BEFORE = date(2025, 11, 15)
"""A Saturday of week 46, as 14 November 2026 is."""


def opened(qtbot, frame, night):
    frame.go("looking back", night)
    page = frame.pages["looking back"]
    qtbot.waitUntil(lambda: page.ways.found is not None and page.ways.found.night == night and page.ways.over() and page._coming.over())
    return page


def texts(part):
    return [one.text() for kind in (QLabel, QPushButton) for one in part.findChildren(kind)]


def press(qtbot, part, name):
    qtbot.mouseClick(next(one for one in part.findChildren(QPushButton) if one.accessibleName() == name), Qt.MouseButton.LeftButton)


def test_a_way_stands_below_the_date_with_its_night_weekday_place_and_distance(qtbot, frame, write, store, clock, tonight):
    write(BEFORE, "memory", "Seven fiddles.")
    write(date(2023, 11, 14), "memory", "On the date.")
    writing.set_place(store, BEFORE, "Lerwick", clock)
    page = opened(qtbot, frame, tonight)
    said = texts(page.ways)
    for told in ("The Saturday of week 46", "Saturday 15 November 2025", "A year less a day ago \u00b7 Lerwick", "Seven fiddles.", SPACED):
        assert told in said
    assert "Seven fiddles." not in texts(page.nights.itemAt(0).widget())


def test_what_was_seen_is_noted_once_and_changes_nothing_seen(qtbot, frame, write, store, tonight):
    write(date(2023, 11, 14), "memory", "On the date.")
    write(BEFORE, "memory", "Seven fiddles.")
    page = opened(qtbot, frame, tonight)
    qtbot.waitUntil(lambda: store.rows("SELECT * FROM brought_up") == [(night, "2026-11-14", None) for night in ("2023-11-14", "2025-11-15")])
    night = page.ways.nights[0]
    frame.desk.changed.emit()
    frame.desk.reader.finish()
    qtbot.waitUntil(lambda: page.ways.over())
    assert page.ways.nights[0] is night


def test_a_way_is_left_out_and_brought_in_again(qtbot, frame, write, tonight):
    write(date(2023, 11, 14), "memory", "On the date.")
    write(BEFORE, "memory", "Seven fiddles.")
    page = opened(qtbot, frame, tonight)
    press(qtbot, page.ways, "Stop looking back by this weekday and week")
    qtbot.waitUntil(lambda: page.ways.found.left_out == ("weekday",) and page.ways.over() and page.ways.nights == [])
    press(qtbot, page.ways, "Look back by this weekday and week again")
    qtbot.waitUntil(lambda: page.ways.found.left_out == () and page.ways.over() and len(page.ways.nights) == 1)


def test_a_line_of_a_way_can_be_given_a_later_word(qtbot, frame, write, store, tonight):
    write(date(2023, 11, 14), "memory", "On the date.")
    line = write(BEFORE, "memory", "Seven fiddles.")
    page = opened(qtbot, frame, tonight)
    press(qtbot, page.ways, "A later word under the memory of 15 November 2025")
    assert page.later.field.hasFocus() and page.later.line.id == line.id
    qtbot.keyClicks(page.later.field, "Eight.")
    qtbot.waitUntil(lambda: store.rows("SELECT text FROM later_word") == [("Eight.",)])
    assert page.later.field.hasFocus() and page.later.field.words() == "Eight."


def test_with_nothing_there_is_neither_a_way_nor_a_field(qtbot, frame, tonight):
    page = opened(qtbot, frame, tonight)
    assert texts(page.ways) == [] and page.later.isHidden()

"""What rests, in the settings."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import people, resting


@pytest.fixture
def settings(qtbot, store, opened):
    """The settings page with its later boxes, on a keeper in which somebody rests."""
    people.add(store, "Ilze")
    frame = opened()
    frame.go("settings")
    page = frame.pages["settings"]
    qtbot.waitUntil(lambda: page.is_shown())
    return page


def test_who_rests_wakes_there(qtbot, settings, store):
    rests = settings.resting
    qtbot.waitUntil(lambda: rests.count.text() == "Nothing rests.")
    assert not rests.open.isVisible()
    people.rest_by_name(store, "Ilze")
    rests.refresh()
    qtbot.waitUntil(lambda: rests.count.text() == "1 thing rests.")
    rests.open.click()
    (row,) = rests.rows
    assert row.name.text() == "Ilze" and row.wake.accessibleName() == "Wake a name, Ilze"
    row.wake.setFocus()
    qtbot.keyClick(row.wake, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: rests.rows == [])
    assert rests.first.hasFocus() and resting.what_rests(store) == ()


def test_what_rests_is_not_shown_to_who_comes_for_something_else(qtbot, settings, store, frame_of):
    resting.rest_span(store, date(2026, 1, 1), date(2026, 1, 3))
    rests = settings.resting
    rests.refresh()
    qtbot.waitUntil(lambda: rests.count.text() == "1 thing rests.")
    rests.open.click()
    assert [row.name.text() for row in rests.rows] == ["Thu 1 Jan 2026 to Sat 3 Jan 2026"]
    frame_of(settings).go("night")
    frame_of(settings).go("settings")
    qtbot.waitUntil(lambda: rests.rows == [])
    assert rests.open.text() == "Show what rests"


@pytest.fixture
def frame_of():
    return lambda page: page.window()


def test_a_span_is_typed_and_wrong_dates_are_told(qtbot, settings, store):
    rests = settings.resting
    for first, last, said in (
        ("", "2026-01-03", "two ends"), ("2026-02-30", "2026-03-01", "no day 30"), ("2026-03-02", "2026-03-01", "before the first"),
    ):  # fmt: skip
        rests.first.setText(first)
        rests.last.setText(last)
        qtbot.keyClick(rests.last, Qt.Key.Key_Return)
        assert said in rests.told.text() and rests.told.isVisible() and rests.first.text() == first
    rests.first.setText("2026-02")
    rests.last.setText("2026-02")
    qtbot.keyClick(rests.last, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: rests.count.text() == "1 thing rests.")
    (one,) = resting.what_rests(store)
    assert (one.first, one.last) == (date(2026, 2, 1), date(2026, 2, 28)) and not rests.told.isVisible()


def test_all_is_reached_by_tab_in_the_order_of_the_page(qtbot, settings):
    settings.resting.first.setFocus()
    seen = []
    for _ in range(3):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(seen[-1], Qt.Key.Key_Tab)
    assert seen == [settings.resting.first, settings.resting.last, settings.resting.rest]

"""What a keeper without readings offers below the lines, and the demo's readings, opened and changed."""

import shutil
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import opening as keepers
from keeper.actions.readings import changing, wording
from keeper.actions.readings import trackers as readings
from keeper.shipped import demo_keeper
from keeper.store import trackers

KEY = Qt.Key


@pytest.fixture
def row(qtbot, page):
    qtbot.waitUntil(lambda: page.readings is not None)
    return page.readings


def test_three_are_offered_with_one_key_each_and_nothing_is_noted(qtbot, page, row, store):
    page.fields["memory"].setFocus()
    qtbot.keyClick(page.fields["memory"], KEY.Key_F6)
    offer = QApplication.focusWidget()
    assert offer is row.offer.buttons[0] and [one.text() for one in row.offer.buttons[:3]] == ["mood", "stress", "sleep"]
    qtbot.keyClick(offer, KEY.Key_Space)
    qtbot.waitUntil(lambda: len(row.strips) == 1 and row.strips[0].hasFocus())
    assert not row.offer.isVisible() and row.strips[0].accessibleName() == "mood, not noted"
    assert [one.key for one in readings.every(store)] == ["m"]
    assert trackers.readings(store, date.min.replace(year=1900), date(2100, 1, 1)) == ()


def test_who_wants_none_is_not_asked_again(qtbot, page, row, opened):
    row.offer.buttons[-1].click()
    assert not row.offer.isVisible() and QApplication.focusWidget() in page.fields.values()
    assert row._desk.writer.finish()
    again = opened().pages["night"]
    qtbot.waitUntil(lambda: again.readings is not None)
    assert again.readings.offer is None or not again.readings.offer.isVisible()


def test_nothing_is_offered_where_all_have_ended(qtbot, frame, row, store, tonight):
    one = changing.offered(date(2026, 1, 1))[0]
    trackers.add(store, one)
    trackers.change(store, changing.replace(trackers.every(store)[0], ended=date(2026, 2, 1)))
    frame.desk.changed.emit()
    frame.night_page.fields["memory"].setFocus()
    assert row.strips == [] and not row.offer.isVisible() and not row.head.isVisible()
    qtbot.keyClick(QApplication.focusWidget(), KEY.Key_F6)
    assert frame.page_shown() == "readings"


def test_words_typed_at_an_offer_reach_the_line(qtbot, page, row):
    page.fields["memory"].setFocus()
    row.offer.buttons[1].setFocus()
    for letter in "The sea.":
        qtbot.keyClicks(QApplication.focusWidget(), letter)
    assert page.fields["memory"].words() == "The sea."


@pytest.fixture
def demo(folder):
    shutil.copytree(demo_keeper(), folder, dirs_exist_ok=True)
    (folder / "backups").mkdir(exist_ok=True)
    with keepers.open_again(folder) as store:
        yield store


def test_the_demos_readings_open_and_can_be_changed(qtbot, demo, opened):
    clock = keepers.demo_clock(demo)
    night = next(one.night for one in reversed(trackers.readings(demo, date(2026, 10, 1), date(2026, 10, 31))) if one.value == 7.0)
    before = {one.tracker.name: wording.value(one.tracker, one.reading) for one in readings.of_night(demo, night)}
    frame = opened(clock, night)
    page = frame.pages["night"]
    qtbot.waitUntil(lambda: page.readings is not None and len(page.readings.strips) == 7)
    row = page.readings
    assert [one.entry.told().removeprefix(one.entry.tracker.name).strip(", ") for one in row.strips] == list(before.values())
    row.strips[0].setFocus()
    qtbot.keyClicks(row.strips[0], "0")
    assert frame.desk.writer.finish()
    after = {one.tracker.name: wording.value(one.tracker, one.reading) for one in readings.of_night(demo, night)}
    assert after == {**before, "mood": "0"}

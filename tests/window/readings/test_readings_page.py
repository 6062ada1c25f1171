"""The page of readings: begun, changed, ordered and ended, by keys alone."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from keeper.actions.readings import changing, noting, once
from keeper.actions.readings import trackers as readings
from keeper.model import Tracker
from keeper.window.readings.form import TrackerForm

KEY = Qt.Key


@pytest.fixture
def three(store):
    return [
        changing.begin(store, Tracker("", name, form, None, None, "", "neither", date(2026, 1, 1), key=name[0]))
        for name, form in (("mood", "scale"), ("sleep", "hours"), ("tea", "mark"))
    ]


@pytest.fixture
def readings_page(frame):
    frame.go("readings")
    return frame.pages["readings"]


def names(store) -> list[str]:
    return [one.name for one in readings.every(store)]


def written(page) -> None:
    assert page.desk.writer.finish()


def test_a_new_keeper_begins_one_with_a_key(qtbot, readings_page, store):
    page = readings_page
    assert names(store) == [] and page.empty.isVisible() and not page.ended_head.isVisible()
    qtbot.keyClick(page.offers.things[0], KEY.Key_Space)
    written(page)
    qtbot.waitUntil(lambda: len(page.rows) == 1)
    assert [(one.name, one.key, one.body) for one in readings.every(store)] == [("mood", "m", True)]
    assert not page.empty.isVisible() and not page.offers.isVisible()


def test_the_order_changes_and_the_keyboard_stays_where_it_was(qtbot, three, readings_page, store):
    page = readings_page
    page.rows[2].earlier.setFocus()
    for order in (["mood", "tea", "sleep"], ["tea", "mood", "sleep"]):
        qtbot.keyClick(QApplication.focusWidget(), KEY.Key_Space)
        qtbot.waitUntil(lambda order=order: [row.tracker.name for row in page.rows] == order)
        assert names(store) == order
        assert QApplication.focusWidget() in next(row for row in page.rows if row.tracker.name == "tea").buttons
    assert not page.rows[0].earlier.isEnabled() and not page.rows[-1].later.isEnabled()


def test_one_that_ends_is_kept_below_and_can_be_taken_up_again(qtbot, three, readings_page, store, clock, tonight):
    page, said = readings_page, []
    page.desk.said.connect(said.append)
    noting.note(store, tonight - timedelta(days=3), three[2].id, "yes", clock)
    page.rows[2].end.click()
    qtbot.waitUntil(lambda: len(page.ended_rows) == 1)
    assert any("is kept" in one for one in said) and page.ended_head.isVisible()
    assert [one.name for one in readings.in_force(store, tonight)] == ["mood", "sleep"]
    page.ended_rows[0].end.click()
    qtbot.waitUntil(lambda: len(page.rows) == 3 and not page.ended_rows)
    assert [one.name for one in readings.in_force(store, tonight)] == ["mood", "sleep", "tea"]


def test_where_all_have_ended_the_page_opens_too(qtbot, three, frame, store):
    for one in readings.every(store):
        changing.change(store, replace(one, ended=date(2026, 2, 1)))
    frame.go("readings")
    page = frame.pages["readings"]
    assert page.rows == [] and len(page.ended_rows) == 3 and page.offers.isVisible()


def test_another_one_is_asked_for_by_keys_alone(qtbot, three, readings_page, store, tonight):
    form = TrackerForm(readings_page.desk, readings_page)
    form.show()
    qtbot.keyClicks(form.fields.name, "stress")
    assert form.fields.key.text() == "R" and "stress is asked for from 14 November 2026 on." in form.told.text()
    qtbot.keyClick(form.fields.half, KEY.Key_Space)
    qtbot.keyClick(form.fields.guest, KEY.Key_Space)
    assert "until 13 December 2026" in form.told.text()
    qtbot.keyClick(form.fields.name, KEY.Key_Return)
    qtbot.waitUntil(lambda: not form.isVisible())
    made = readings.every(store)[-1]
    assert (made.name, made.form, made.low, made.high, made.step, made.key) == ("stress", "scale", 0.0, 10.0, 0.5, "r")
    assert (made.began, made.ended) == (tonight, date(2026, 12, 13))


def test_what_a_change_would_do_is_said_before_and_nothing_noted_changes(qtbot, three, readings_page, store, clock, tonight):
    noting.note(store, tonight, three[0].id, "7", clock)
    form = TrackerForm(readings_page.desk, readings_page, readings.every(store)[0])
    form.show()
    form.fields.high.selectAll()
    qtbot.keyClicks(form.fields.high, "5")
    assert "drawn as high from 0 to 5" in form.told.text() and names(store) == ["mood", "sleep", "tea"]
    qtbot.keyClick(form.fields.high, KEY.Key_Return)
    qtbot.waitUntil(lambda: not form.isVisible())
    assert readings.every(store)[0].high == 5.0
    assert noting.noted(store, tonight, three[0].id).value == 7.0


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [("name", "Sleep", "There is sleep"), ("key", "t", "T goes to tea"), ("high", "0", "ends above"), ("began", "never", "never")],
)
def test_what_cannot_be_is_said_and_stays_to_be_mended(qtbot, three, readings_page, store, field, typed, sentence):
    form = TrackerForm(readings_page.desk, readings_page, readings.every(store)[0])
    form.show()
    edit = getattr(form.fields, field)
    edit.selectAll()
    qtbot.keyClicks(edit, typed)
    assert sentence in form.told.text()
    qtbot.keyClick(edit, KEY.Key_Return)
    written(readings_page)
    qtbot.wait(30)
    assert form.isVisible() and sentence in form.told.text()
    assert readings.every(store)[0] == three[0]
    form.reject()


def test_a_word_is_said_once_above_seven(qtbot, three, readings_page, store):
    said = []
    readings_page.desk.said.connect(said.append)
    for number in range(6):
        form = TrackerForm(readings_page.desk, readings_page)
        form.show()
        qtbot.keyClicks(form.fields.name, f"number {number}")
        form.take()
        qtbot.waitUntil(lambda form=form: not form.isVisible())
    assert said.count(once.MANY) == 1 and len(names(store)) == 9


def test_every_button_has_a_name_and_a_place_in_the_order(qtbot, three, readings_page):
    page = readings_page
    buttons = [one for one in page.findChildren(QPushButton) if one.isVisible() and one.isEnabled()]
    assert all(one.accessibleName() for one in buttons)
    page.rows[0].later.setFocus()
    seen = []
    for _ in range(len(buttons) + 12):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(QApplication.focusWidget(), KEY.Key_Tab)
    assert set(buttons) <= set(seen)
    assert seen[: len(buttons)] == [one for row in page.rows for one in row.buttons if one.isEnabled()] + [page.more]


def test_many_come_piece_by_piece_in_their_order_and_are_ordered_as_a_whole(qtbot, frame, store):
    for number in range(14):
        changing.begin(store, Tracker("", f"one {number:02}", "count", None, None, "", "neither", date(2026, 1, 1), key="abcdefghijklmn"[number]))
    frame.go("readings")
    page = frame.pages["readings"]
    assert 0 < len(page.rows) < 14
    at = len(page.rows) - 1
    qtbot.mouseClick(page.rows[at].later, Qt.MouseButton.LeftButton)
    written(page)
    qtbot.waitUntil(lambda: [one.tracker.name for one in page.rows] == names(store))
    order = [*range(at), at + 1, at, *range(at + 2, 14)]
    assert names(store) == [f"one {number:02}" for number in order]
    assert not page.rows[0].earlier.isEnabled() and not page.rows[-1].later.isEnabled() and page.rows[-1].earlier.isEnabled()

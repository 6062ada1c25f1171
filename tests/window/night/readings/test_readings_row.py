"""The readings of the night, noted by keys alone: typed for real, on a real file."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from keeper.actions.readings import changing, noting, wording
from keeper.actions.readings import trackers as readings
from keeper.cautions import OF_THE_BODY
from keeper.model import Tracker

KEY = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
SEVEN = (
    ("mood", "scale", "m"), ("stress", "scale", "s"), ("sleep", "hours", "l"), ("coffee", "count", "c"), ("tea", "mark", "t"),
    ("swam", "mark", "w"), ("back ache", "mark", "b"),
)  # fmt: skip


def focused():
    return QApplication.focusWidget()


def press(qtbot, *keys, held=Qt.KeyboardModifier.NoModifier):
    for key in keys:
        if isinstance(key, str):
            qtbot.keyClicks(focused(), key)
        else:
            qtbot.keyClick(focused(), key, held)


@pytest.fixture
def seven(store):
    return {
        name: changing.begin(store, Tracker("", name, form, None, None, "", "neither", date(2026, 1, 1), key=key))
        for name, form, key in SEVEN
    }


@pytest.fixture
def frame(seven, opened):
    return opened()


@pytest.fixture
def row(qtbot, page):
    qtbot.waitUntil(lambda: page.readings is not None and len(page.readings.strips) == 7)
    return page.readings


@pytest.fixture
def told(row, store):
    """What the file holds of a night, once all is written."""

    def ask(night: date = row.night) -> dict[str, str]:
        row.keep()
        assert row._desk.writer.finish()
        return {one.tracker.name: wording.value(one.tracker, one.reading) for one in readings.of_night(store, night)}

    return ask


def strip(row, name):
    return next(one for one in row.strips if one.entry.tracker.name == name)


def test_a_night_of_seven_takes_sixteen_keys_at_most_and_no_pointing(qtbot, page, row, told):
    """From the last key of the line to all kept; a key counts once, as in the Keystroke-level model.

    Card, Moran and Newell, "The keystroke-level model for user performance
    time with interactive systems", Communications of the ACM 23 (7), 1980.
    """
    page.fields["gratitude"].setFocus()
    press(qtbot, "A quiet hall.")
    keys = [KEY.Key_F6, "7", KEY.Key_Tab, "3", KEY.Key_Tab, "7", ".", "5", KEY.Key_Tab, "2", KEY.Key_Tab, KEY.Key_Space, KEY.Key_Tab,
            KEY.Key_Space, KEY.Key_Tab, KEY.Key_Space]  # fmt: skip
    assert len(keys) <= 16
    press(qtbot, *keys)
    qtbot.waitUntil(lambda: all(one.entry.reading and not one.entry.waits for one in row.strips))
    assert told() == {"mood": "7", "stress": "3", "sleep": "7:30", "coffee": "2", "tea": "yes", "swam": "yes", "back ache": "yes"}
    assert page.fields["gratitude"].words() == "A quiet hall."


def test_ten_is_a_one_and_a_nought_and_another_digit_begins_anew(qtbot, row, told):
    row.enter()
    press(qtbot, "1", "0")
    assert told()["mood"] == "10"
    press(qtbot, "4")
    assert told()["mood"] == "4"
    press(qtbot, "1", KEY.Key_Tab)
    assert told()["mood"] == "1"


def test_what_is_typed_is_on_the_disk_though_nobody_goes_on(qtbot, row, store):
    row.enter()
    press(qtbot, "1")
    qtbot.waitUntil(lambda: bool(strip(row, "mood").entry.reading))
    assert readings.of_night(store, row.night)[0].reading.value == 1.0


def test_a_letter_goes_to_its_tracker_and_another_goes_nowhere(qtbot, page, row, told):
    row.enter()
    for letter, name in (("l", "sleep"), ("W", "swam"), ("z", "swam"), ("m", "mood")):
        press(qtbot, letter)
        assert focused() is strip(row, name)
    assert set(told().values()) == {"not noted"} and not any(field.words() for field in page.fields.values())


def test_letters_that_belong_to_hours_are_typed_there(qtbot, row, told):
    row.enter()
    press(qtbot, "l", "7", "h", "1", "5")
    assert told()["sleep"] == "7:15"
    press(qtbot, KEY.Key_Tab, KEY.Key_Backtab, *"23:30-6:45", KEY.Key_Tab)
    assert told()["sleep"] == "7:15, 23:30 to 06:45"


def test_a_letter_of_a_tracker_is_never_typed_into_hours(qtbot, frame, row, store, seven, told):
    changing.change(store, replace(seven["tea"], key="h"))
    frame.desk.changed.emit()
    row.enter()
    press(qtbot, "l", "7", "h")
    assert focused() is strip(row, "tea")
    press(qtbot, "l", "8", "m", "3")
    assert told()["sleep"] == "8:00" and told()["mood"] == "3"


def test_arrows_move_by_a_step_and_not_beyond_the_ends(qtbot, row, told):
    row.enter()
    press(qtbot, KEY.Key_Right)
    assert told()["mood"] == "5"
    press(qtbot, KEY.Key_Up, KEY.Key_Up, KEY.Key_Left)
    assert told()["mood"] == "6"
    press(qtbot, "1", "0", KEY.Key_Up)
    assert told()["mood"] == "10"
    press(qtbot, "l", KEY.Key_Down, KEY.Key_Up, KEY.Key_Up)
    assert strip(row, "sleep").entry.shown() == "7:30"
    assert told()["sleep"] == "7:30"
    # A digit after a step is another reading, not the end of this one.
    press(qtbot, "8")
    assert told()["sleep"] == "8:00"
    press(qtbot, "c", KEY.Key_Down)
    assert told()["coffee"] == "0"


def test_space_sets_a_mark_then_a_no_and_delete_leaves_nothing(qtbot, row, told):
    row.enter()
    press(qtbot, "t", KEY.Key_Space)
    assert strip(row, "tea").accessibleName() == "tea yes" and strip(row, "tea").entry.shown() == "yes"
    assert told()["tea"] == "yes"
    press(qtbot, KEY.Key_Space)
    assert strip(row, "tea").entry.shown() == "no"
    assert told()["tea"] == "no"
    press(qtbot, KEY.Key_Delete)
    assert told()["tea"] == "not noted"
    press(qtbot, "m", KEY.Key_Space, "7", KEY.Key_Backspace)
    assert told()["mood"] == "not noted"


def test_not_noted_nought_and_no_are_told_apart_by_ear_and_eye(qtbot, row, told):
    names = [strip(row, name).accessibleName() for name in ("mood", "coffee", "tea")]
    assert names == ["mood, not noted", "coffee, not noted", "tea, not noted"]
    before = {name: strip(row, name).grab().toImage() for name in ("mood", "coffee", "tea")}
    row.enter()
    press(qtbot, "0", "c", "0", "t", "0", KEY.Key_Escape)
    told()
    qtbot.waitUntil(lambda: all(strip(row, name).entry.reading for name in before))
    qtbot.waitUntil(lambda: not any(one.hasFocus() for one in row.strips))
    assert [strip(row, name).accessibleName() for name in before] == ["mood 0", "coffee 0", "tea no"]
    assert all(strip(row, name).grab().toImage() != before[name] for name in before)


def test_f6_goes_to_the_first_that_is_open_and_back_to_the_words(qtbot, page, row, told, store, clock, seven):
    noting.note(store, row.night, seven["mood"].id, "7", clock)
    row._desk.changed.emit()
    page.fields["memory"].setFocus()
    press(qtbot, KEY.Key_F6)
    assert focused() is strip(row, "stress")
    press(qtbot, KEY.Key_F6)
    assert focused() is page.fields["memory"]
    press(qtbot, KEY.Key_F6, KEY.Key_Escape)
    assert focused() is page.fields["memory"]
    page.desk.go("month")
    press(qtbot, KEY.Key_F6)
    assert focused() is strip(row, "stress") and page.isVisible()


def test_tab_goes_from_the_last_line_to_the_readings_and_enter_to_the_next(qtbot, page, row):
    page.fields["reflection"].setFocus()
    press(qtbot, KEY.Key_Tab)
    assert focused() is strip(row, "mood")
    press(qtbot, KEY.Key_Return)
    assert focused() is strip(row, "stress")
    press(qtbot, KEY.Key_Backtab, KEY.Key_Backtab)
    assert focused() is page.fields["reflection"]


def test_what_was_noted_can_be_taken_back_and_had_again(qtbot, row, told):
    row.enter()
    press(qtbot, "7")
    assert told()["mood"] == "7"
    qtbot.waitUntil(lambda: strip(row, "mood").entry.reading is not None)
    press(qtbot, KEY.Key_Delete)
    assert told()["mood"] == "not noted"
    for expected in ("7", "not noted"):
        press(qtbot, KEY.Key_Z, held=CONTROL)
        assert told()["mood"] == expected
    press(qtbot, KEY.Key_Y, held=CONTROL)
    assert told()["mood"] == "7"


def test_each_step_is_taken_back_to_what_stood_there_before(qtbot, row, told):
    row.enter()
    # So fast that nothing of it is on the disk when the next comes.
    press(qtbot, "7", "4", "0")
    for expected in ("4", "7", "not noted"):
        press(qtbot, KEY.Key_Z, held=CONTROL)
        assert told()["mood"] == expected


def test_a_reading_being_typed_is_taken_back_before_what_was_done(qtbot, row, told):
    row.enter()
    press(qtbot, "1")
    press(qtbot, KEY.Key_Z, held=CONTROL)
    assert told()["mood"] == "not noted"


def test_any_other_night_is_filled_in_and_nothing_is_copied(qtbot, frame, page, row, told, tonight):
    row.enter()
    press(qtbot, "7", "t", KEY.Key_Space)
    before = tonight - timedelta(days=1)
    frame.go("night", before)
    assert set(told(before).values()) == {"not noted"}
    row.enter()
    press(qtbot, "3")
    frame.go("night", tonight)
    assert (told(before)["mood"], told(tonight)["mood"], told(tonight)["tea"]) == ("3", "7", "yes")


def test_going_to_another_night_keeps_what_is_being_typed(qtbot, frame, row, told, tonight):
    row.enter()
    press(qtbot, "1")
    frame.go("night", tonight - timedelta(days=1))
    assert told(tonight)["mood"] == "1"


def test_what_is_no_reading_is_told_and_stays_to_be_mended(qtbot, frame, row, told):
    said = []
    frame.desk.said.connect(said.append)
    row.enter()
    press(qtbot, "l", *"7:", KEY.Key_Tab)
    assert any("7:30 or 7.5" in one for one in said) and strip(row, "sleep").entry.shown() == "7:"
    assert told()["sleep"] == "not noted"
    assert row.unkept() == {(row.night, "sleep"): "7:"}
    press(qtbot, "l", "3", "0", KEY.Key_Tab)
    assert told()["sleep"] == "7:30"
    qtbot.waitUntil(lambda: row.unkept() == {})


def test_the_mouse_does_it_too(qtbot, row, told):
    mood, tea, coffee = (strip(row, name) for name in ("mood", "tea", "coffee"))
    left = Qt.MouseButton.LeftButton
    qtbot.mouseClick(mood, left, pos=QPoint(round(mood.width() * 0.8), mood.height() - 4))
    assert told()["mood"] == "8"
    qtbot.mouseClick(tea, left, pos=QPoint(5, tea.height() // 2))
    assert told()["tea"] == "yes"
    qtbot.mouseClick(coffee, left, pos=QPoint(coffee.width() - 3, coffee.height() // 2))
    qtbot.mouseClick(coffee, left, pos=QPoint(coffee.width() - 3, coffee.height() // 2))
    assert told()["coffee"] == "2"
    mood.menu().actions()[-1].trigger()
    assert told()["mood"] == "not noted"
    # The name only chooses.
    qtbot.mouseClick(mood, left, pos=QPoint(5, 3))
    assert focused() is mood and told()["mood"] == "not noted"


def test_it_folds_away_and_is_remembered(qtbot, page, row, opened):
    qtbot.mouseClick(row.fold, Qt.MouseButton.LeftButton)
    assert row.head.isVisible() and not row.flow.isVisible()
    assert row._desk.writer.finish()
    other = opened()
    qtbot.waitUntil(lambda: other.pages["night"].readings is not None)
    again = other.pages["night"].readings
    assert again.folded and not again.flow.isVisible()
    other.pages["night"].fields["memory"].setFocus()
    again.enter()
    assert again.flow.isVisible() and focused() is strip(again, "mood")


def test_what_cannot_be_written_waits_is_told_and_is_tried_again(qtbot, frame, row, store, monkeypatch, tonight, told):
    from keeper.errors import CannotWrite

    said, note = [], noting.note
    frame.desk.said.connect(said.append)

    def fail(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(noting, "note", fail)
    row.enter()
    press(qtbot, "7", KEY.Key_Tab)
    qtbot.waitUntil(lambda: strip(row, "mood").entry.failing)
    assert strip(row, "mood").accessibleName() == "mood 7, not kept yet" and "The disk is full." in said
    assert row.failing and row.unkept() == {(tonight, "mood"): "7"}
    frame.go("night", tonight - timedelta(days=1))
    assert row.unkept() == {(tonight, "mood"): "7"}
    frame.go("night", tonight)
    assert strip(row, "mood").entry.shown() == "7" and row.failing
    monkeypatch.setattr(noting, "note", note)
    assert told()["mood"] == "7"
    qtbot.waitUntil(lambda: not row.failing and not row.unkept())


def test_the_caution_is_said_once_and_put_away(qtbot, frame, row, store, told):
    body = changing.begin(store, Tracker("", "pain", "scale", None, None, "", "lower", date(2026, 1, 1), key="p", body=True))
    frame.desk.changed.emit()
    row.enter()
    press(qtbot, "7")
    told()
    assert not row.caution.isVisible()
    press(qtbot, "p", "2")
    qtbot.waitUntil(row.caution.isVisible)
    assert row.caution.text() == OF_THE_BODY
    row.understood.click()
    assert not row.caution.isVisible()
    press(qtbot, KEY.Key_F6, "p", "3")
    told()
    qtbot.waitUntil(lambda: noting.noted(store, row.night, body.id).value == 3.0)
    qtbot.wait(30)
    assert not row.caution.isVisible()


def test_readings_of_another_program_are_shown_and_what_is_typed_stays(qtbot, frame, row, store, clock, seven):
    row.enter()
    press(qtbot, "l", "7", ":")
    noting.note(store, row.night, seven["mood"].id, "3", clock)
    noting.note(store, row.night, seven["sleep"].id, "5", clock)
    frame.desk.changed.emit()
    assert strip(row, "mood").accessibleName() == "mood 3" and strip(row, "sleep").entry.shown() == "7:"


def test_a_renamed_and_moved_tracker_keeps_the_keyboard_and_what_is_typed(qtbot, frame, row, store, seven, told):
    row.enter()
    press(qtbot, "l", "7", ":")
    changing.change(store, replace(seven["sleep"], name="slept"))
    changing.move(store, seven["sleep"].id, -2, [one.id for one in readings.every(store)])
    frame.desk.changed.emit()
    assert [one.entry.tracker.name for one in row.strips][:2] == ["slept", "mood"] and focused() is row.strips[0]
    press(qtbot, "1", "5")
    assert told()["slept"] == "7:15"

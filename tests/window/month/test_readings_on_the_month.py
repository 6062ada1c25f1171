"""The readings of a month: what looks different, what shares an axis, and where they cross."""

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QAbstractButton

from keeper.actions.readings import axes
from keeper.actions.readings import trackers as readings
from keeper.model import Reading, Tracker
from keeper.store import trackers
from keeper.window.month.axes_dialog import AxesDialog

NOVEMBER = date(2026, 11, 1)


def tracker(name, form="scale", began=date(2026, 1, 1), ended=None, **told):
    ends = (0.0, 10.0) if form == "scale" else (None, None)
    return Tracker(name, name, form, *ends, told.get("unit", ""), "neither", began, ended)


def night(day):
    return NOVEMBER.replace(day=day)


@pytest.fixture
def noted(store, write):
    for one in (tracker("mood"), tracker("swam", "mark"), tracker("stress"), tracker("tea", "count"),
                tracker("guest", began=night(3), ended=night(6))):  # fmt: skip
        trackers.add(store, one)
    for day in (1, 2, 3, 4):
        write(night(day), "memory", "words")
    rows = {"mood": (7.0, 4.0, 0.0), "stress": (3.0, 6.0, 6.0), "tea": (2.0, 0.0)}
    noted = [Reading(night(day), name, value) for name, values in rows.items() for day, value in enumerate(values, 1)]
    trackers.note(store, [*noted, Reading(night(1), "swam", 1.0), Reading(night(3), "guest", 5.0)])
    return store


@pytest.fixture
def sheet(qtbot, frame, noted):
    frame.go("month", NOVEMBER)
    sheet = frame.pages["month"].sheet
    qtbot.waitUntil(sheet.is_shown)
    return sheet


def test_all_of_one_night_is_told_and_what_was_not_noted_too(sheet):
    assert sheet.strips.told(1) == "Sun 1 Nov \u00b7 mood 7 \u00b7 stress 3 \u00b7 tea 2 \u00b7 swam yes"
    assert sheet.strips.told(2) == "Mon 2 Nov \u00b7 mood 4 \u00b7 stress 6 \u00b7 tea 0 \u00b7 swam no, left empty"
    assert sheet.strips.told(3) == (
        "Tue 3 Nov \u00b7 mood 0 \u00b7 stress 6 \u00b7 tea not noted \u00b7 swam no, left empty \u00b7 guest 5 (its first night)"
    )
    assert sheet.strips.told(6).endswith("guest not noted (its last night)")
    assert sheet.strips.told(9) == "Mon 9 Nov \u00b7 nothing noted"


def test_marks_stand_beneath_and_a_guest_last(sheet):
    assert [strip.name for strip in sheet.strips.strips] == ["mood", "stress", "tea", "swam", "guest"]


def column(strips, name, day, more=2) -> bytes:
    """A night's column of one strip, as it is drawn; so many rows below its rule too."""
    top = 0.0
    for strip in strips.strips:
        top += strips._above(strip)
        if strip.name == name:
            area = QRect(round(strips._x(day) - strips._step() / 2) + 1, round(top), round(strips._step()) - 2,
                         round(strips._tall(strip)) + more)  # fmt: skip
            return bytes(strips.grab(area).toImage().constBits())
        top += strips._tall(strip) + strips._below(strip)
    raise AssertionError(name)


def test_not_noted_nought_and_no_look_different(sheet):
    strips = sheet.strips
    assert len({column(strips, "tea", day) for day in (1, 2, 3)}) == 3
    assert len({column(strips, "swam", day) for day in (1, 2, 9)}) == 3
    assert column(strips, "mood", 3) != column(strips, "mood", 9)
    assert column(strips, "guest", 5) != column(strips, "guest", 9)


def test_two_on_one_axis_cross_where_it_is_said(qtbot, frame, noted, sheet):
    axes.put_on_one_axis(noted, ["mood", "stress"])
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: sheet.strips.strips[0].shares)
    (strip,) = [strip for strip in sheet.strips.strips if strip.shares]
    assert [line.name for line in strip.lines] == ["mood", "stress"] and (strip.low, strip.high) == (0.0, 10.0)
    assert [one.crossing.day for one in strip.crossed] == [2]
    assert "mood falls below stress" in sheet.strips.told(2) and "falls" not in sheet.strips.told(3)
    assert "mood and stress cross: 2" in sheet.strips.accessibleDescription()


def test_a_crossing_is_marked(qtbot, frame, noted, sheet):
    axes.put_on_one_axis(noted, ["mood", "stress"])
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: sheet.strips.strips[0].shares)
    strips = sheet.strips
    ringed = column(strips, "mood", 2, more=-2)
    strips.show_strips([replace(strips.strips[0], crossed=()), *strips.strips[1:]], month=NOVEMBER)
    assert column(strips, "mood", 2, more=-2) != ringed


def dialog_of(qtbot, sheet, frame):
    made = AxesDialog(frame.desk, {one.tracker.id for one in sheet.view.series}, sheet)
    qtbot.addWidget(made)
    return made


def test_which_share_an_axis_is_chosen_and_kept(qtbot, frame, noted, sheet):
    assert sheet.readings.axes.isVisible()
    dialog = dialog_of(qtbot, sheet, frame)
    assert list(dialog.boxes) == ["mood", "stress", "guest"] and not dialog.join.isEnabled()
    dialog.boxes["mood"].setChecked(True)
    assert not dialog.join.isEnabled()
    dialog.boxes["stress"].setChecked(True)
    dialog.join.click()
    qtbot.waitUntil(lambda: list(dialog.boxes) == [])
    assert [[one.name for one in group] for group in axes.shared(readings.every(noted))] == [["mood", "stress"]]
    apart = next(b for b in dialog.findChildren(QAbstractButton) if b.accessibleName() == "Draw mood, stress apart" and not b.isHidden())
    qtbot.keyClick(apart, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: list(dialog.boxes) == ["mood", "stress", "guest"])
    assert axes.shared(readings.every(noted)) == ()


def test_enter_on_a_night_opens_it(qtbot, frame, sheet):
    sheet.strips.setFocus()
    qtbot.keyClick(sheet.strips, Qt.Key.Key_Right)
    qtbot.keyClick(sheet.strips, Qt.Key.Key_Return)
    assert frame.page_shown() == "night" and frame.night == night(2)


def test_the_month_is_filled_in_from_there(frame, sheet):
    sheet.readings.fill.click()
    assert frame.page_shown() == "sheet" and frame.pages["sheet"].month == NOVEMBER

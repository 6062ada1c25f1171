"""The ribbon tinted by a reading."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from waiting.at_rest import at_rest

from keeper.actions import opening, people, writing
from keeper.actions.months import tinting
from keeper.model import Reading, Tracker
from keeper.store import trackers
from keeper.window.desk.palette import LINE_CONTRAST, contrast

YEAR = 2026


def tracker(name: str, form: str = "scale", began=date(2026, 3, 2)) -> Tracker:
    return Tracker(name, name, form, *((0.0, 10.0) if form == "scale" else (None, None)), "", "higher", began)


@pytest.fixture
def noted(store, write):
    for day in (1, 2, 3, 4, 5):
        write(date(2026, 3, day), "memory", "words")
    for one in (tracker("mood"), tracker("tea", "mark")):
        trackers.add(store, one)
    trackers.note(store, [Reading(date(2026, 3, 3), "mood", 10.0), Reading(date(2026, 3, 4), "mood", 0.0),
                          Reading(date(2026, 3, 4), "tea", 1.0), Reading(date(2026, 3, 9), "mood", 5.0)])  # fmt: skip
    return store


def test_what_was_not_noted_has_no_shade_and_a_no_is_not_that(noted):
    mood, tea = (tinting.tint_of(noted, YEAR, name) for name in ("mood", "tea"))
    assert mood.shares == {date(2026, 3, 3): 1.0, date(2026, 3, 4): 0.0, date(2026, 3, 9): 0.5}
    assert mood.told[date(2026, 3, 4)] == "mood 0" and (mood.low, mood.high) == (0.0, 10.0)
    assert tea.shares == {date(2026, 3, day): float(day == 4) for day in (2, 3, 4, 5, 9)}
    assert tea.told[date(2026, 3, 3)] == "tea no, left empty"
    assert tinting.tint_of(noted, YEAR, "nobody") is None and not tinting.tint_of(noted, 2025, "mood").shares


def test_a_reading_named_after_who_rests_tints_nothing(noted):
    trackers.add(noted, tracker("walks with Solveig"))
    person = people.add(noted, "Solveig")
    assert any(one.id == "walks with Solveig" for one in tinting.can_tint(noted))
    people.rest(noted, person.id)
    assert tinting.tint_of(noted, YEAR, "walks with Solveig") is None
    assert [one.name for one in tinting.can_tint(noted)] == ["mood", "tea"]


@pytest.fixture
def ribbon(qtbot, noted, frame):
    qtbot.waitUntil(lambda: frame.ribbon._by == "by place" and date(2026, 3, 5) in frame.ribbon._ticks)
    return frame.ribbon


def tinted(qtbot, frame, name):
    frame.rest.tint.tint_by(name)
    qtbot.waitUntil(lambda: frame.ribbon.tint is not None and frame.ribbon.tint.tracker.id == name)


def test_it_is_told_in_words(qtbot, frame, ribbon):
    tinted(qtbot, frame, "mood")
    assert ribbon.told(date(2026, 3, 3)) == "Tue 3 Mar 2026 \u00b7 1 line \u00b7 mood 10"
    assert ribbon.told(date(2026, 3, 5)) == "Thu 5 Mar 2026 \u00b7 1 line \u00b7 mood, not noted"
    assert ribbon.told(date(2026, 3, 9)) == "Mon 9 Mar 2026 \u00b7 open \u00b7 mood 5"
    assert ribbon.told(date(2026, 3, 1)) == "Sun 1 Mar 2026 \u00b7 1 line"
    assert "Tinted by mood: the darker, the more mood." in ribbon.accessibleDescription()


def test_the_shades_go_from_a_line_that_can_be_seen_to_the_ink(qtbot, frame, ribbon):
    tinted(qtbot, frame, "mood")
    colours = frame.desk.look.palette
    most, least, none = (ribbon._shade(date(2026, 3, day)) for day in (3, 4, 5))
    assert (most, least, none) == (colours.ink, colours.line, colours.faint)
    assert contrast(least, colours.paper) >= LINE_CONTRAST and not ribbon.grab().isNull()
    x = int(ribbon._x(date(2026, 3, 3)) + 1)
    below = ribbon.grab().toImage()
    scale = ribbon.devicePixelRatio()
    assert QColor(below.pixel(int(x * scale), int((ribbon._band().bottom() + 3) * scale))).name() == colours.ink


def test_it_is_chosen_by_key_and_click_and_remembered(qtbot, frame, store, ribbon):
    asked = []
    ribbon.tint_wanted.disconnect()
    ribbon.tint_wanted.connect(asked.append)
    ribbon.setFocus()
    qtbot.keyClick(ribbon, Qt.Key.Key_T)
    qtbot.mouseClick(ribbon, Qt.MouseButton.LeftButton, pos=ribbon._by_room().center().toPoint())
    assert len(asked) == 2 and all(isinstance(spot, QPoint) for spot in asked)
    menu = frame.rest.tint.menu()
    assert [act.text() for act in menu.actions()] == ["by place", "by mood", "by tea"]
    assert [act.isChecked() for act in menu.actions()] == [True, False, False]
    menu.actions()[2].trigger()
    qtbot.waitUntil(lambda: ribbon._by == "by tea")
    assert frame.desk.writer.finish() and opening.read_settings(store)["ribbon"] == "tea"


def test_the_year_before_has_its_own_tint(qtbot, frame, ribbon):
    tinted(qtbot, frame, "mood")
    ribbon.show_year(2025)
    qtbot.waitUntil(lambda: not ribbon.tint.shares)
    assert ribbon.told(date(2025, 3, 3)) == "Mon 3 Mar 2025 \u00b7 open"


def test_without_readings_there_is_no_choice(qtbot, frame, store, clock):
    writing.write_line(store, date(2026, 3, 3), "memory", "words", clock)
    frame.desk.changed.emit()
    at_rest(qtbot, frame.desk)
    assert frame.ribbon._by == "" and frame.ribbon.tint is None

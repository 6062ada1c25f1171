"""The ribbon, by mouse and by keys."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt

from keeper.actions import writing


@pytest.fixture
def ribbon(qtbot, frame, write, store, clock):
    write(date(2026, 3, 5), "memory", "one")
    write(date(2026, 3, 5), "gratitude", "two")
    writing.set_place(store, date(2026, 3, 5), "Kalmar", clock)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: date(2026, 3, 5) in frame.ribbon._ticks)
    return frame.ribbon


def spot(ribbon, night):
    return QPoint(int(ribbon._x(night) + ribbon._band().width() / ribbon._days() / 2), int(ribbon._band().center().y()))


def test_it_tells_each_night(ribbon):
    assert ribbon.told(date(2026, 3, 5)) == "Thu 5 Mar 2026 · Kalmar · 2 lines"
    assert ribbon.told(date(2026, 3, 6)) == "Fri 6 Mar 2026 · open"
    assert ribbon.told(date(2026, 11, 14)) == "Sat 14 Nov 2026 · tonight"


@pytest.mark.parametrize("night", [date(2026, 1, 1), date(2026, 3, 5), date(2026, 11, 14)])
def test_every_night_can_be_pointed_at(ribbon, night):
    assert ribbon.night_at(spot(ribbon, night)) == night


def test_nights_to_come_cannot_be_pointed_at(ribbon):
    assert ribbon.night_at(spot(ribbon, date(2026, 11, 15))) is None


def test_a_click_goes_there(qtbot, frame, ribbon):
    qtbot.mouseClick(ribbon, Qt.MouseButton.LeftButton, pos=spot(ribbon, date(2026, 3, 5)))
    assert frame.night == date(2026, 3, 5)
    assert frame.pages["night"].fields["memory"].toPlainText() == "one"


def test_keys_choose_a_night_and_a_year(qtbot, frame, ribbon):
    ribbon.setFocus()
    qtbot.keyClick(ribbon, Qt.Key.Key_Left)
    qtbot.keyClick(ribbon, Qt.Key.Key_Left)
    qtbot.keyClick(ribbon, Qt.Key.Key_Return)
    assert frame.night == date(2026, 11, 12)
    ribbon.setFocus()
    qtbot.keyClick(ribbon, Qt.Key.Key_Up)
    assert ribbon.year == 2025
    assert "2025" in ribbon.accessibleDescription()


def test_years_go_no_further_than_tonight_and_the_first(ribbon):
    ribbon.show_year(2099)
    assert ribbon.year == 2026
    ribbon.show_year(12)
    assert ribbon.year == 1800


def test_places_differ_in_more_than_hue(ribbon):
    from keeper.window.desk.palette import OKABE_ITO
    from keeper.window.parts.places.mark import HATCHINGS

    marks = [(n % len(OKABE_ITO), n // len(OKABE_ITO) % len(HATCHINGS)) for n in range(48)]
    assert len(set(marks)) == 48

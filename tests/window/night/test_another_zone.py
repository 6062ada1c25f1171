"""The page of a night on a clock in another time zone than the place of the nights before."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import writing
from keeper.actions.places import known as places
from keeper.actions.places import towns
from keeper.clock import StoppedClock
from keeper.store import nights


@pytest.fixture(scope="module")
def gazetteer(tmp_path_factory):
    return tmp_path_factory.mktemp("gazetteer")


@pytest.fixture(autouse=True)
def own_cache(gazetteer, monkeypatch):
    monkeypatch.setattr(towns, "towns_folder", lambda: gazetteer)


@pytest.fixture
def lisbon(store, clock, tonight):
    """Last night was spent at Lisbon, a night of last month near Tokyo."""
    near = writing.set_place(store, tonight - timedelta(days=40), "The ryokan", clock)
    places.set_coordinates(store, near.id, "35.23, 139.1")
    place = writing.set_place(store, tonight - timedelta(days=1), "Lisbon", clock)
    return places.set_coordinates(store, place.id, "38.7, -9.14")


@pytest.fixture
def in_tokyo(lisbon, opened):
    """The window, on a clock in Tokyo."""
    return opened(clock_in("Asia/Tokyo")).pages["night"]


def clock_in(zone):
    return StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo(zone)), zone)


def rows(field):
    return [row.told for row in field.offers.rows]


def test_the_page_says_that_nothing_is_carried_on(in_tokyo):
    assert in_tokyo.place.text() == ""
    assert in_tokyo.place_said.text() == "not carried on: another time zone"
    assert "Lisbon is in another time zone" in in_tokyo.place_said.toolTip()
    assert in_tokyo.also.isHidden(), "there is no place to say for other nights"


def test_the_zones_known_places_and_towns_are_offered(qtbot, in_tokyo, store, tonight):
    field = in_tokyo.place
    in_tokyo.fields["memory"].setFocus()
    field.setFocus()
    qtbot.waitUntil(lambda: len(field.offers.rows) > 3)
    assert rows(field)[0] == "The ryokan"
    assert rows(field)[1].startswith("Tokyo") and not any("Lisbon" in row for row in rows(field))
    assert field.offers.picked() is None, "nothing is taken that was not chosen"
    for _ in range(2):
        qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Down)
    qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    place = nights.one(store, tonight).place
    assert (place.name, place.zone) == ("Tokyo", "Asia/Tokyo")
    qtbot.waitUntil(lambda: in_tokyo.place_said.text() == "")


def test_who_passes_by_with_tab_is_not_stopped_by_a_list(qtbot, in_tokyo):
    in_tokyo.place.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.wait(100)
    assert not in_tokyo.place.offers.popup().isVisible()
    qtbot.keyClick(in_tokyo.place, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: in_tokyo.place.offers.popup().isVisible())
    assert rows(in_tokyo.place)[0] == "The ryokan"


def test_what_is_written_is_given_no_place(qtbot, in_tokyo, store, tonight):
    qtbot.keyClicks(in_tokyo.fields["memory"], "A vending machine hummed.")
    in_tokyo.keep()
    qtbot.waitUntil(lambda: bool(nights.one(store, tonight).lines))
    assert nights.one(store, tonight).place is None


def test_in_the_zone_of_the_place_it_is_carried_on_as_ever(lisbon, opened):
    page = opened(clock_in("Europe/Lisbon")).pages["night"]
    assert (page.place.text(), page.place_said.text()) == ("Lisbon", "carried on")

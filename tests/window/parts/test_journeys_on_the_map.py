"""Journeys on the map: told, opened by a click, and over places on the way."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtWidgets import QApplication, QMenu

from keeper.actions import writing
from keeper.actions.places import known as places
from keeper.actions.places import towns
from keeper.model import Place
from keeper.store import nights
from keeper.store.places import named as kept

NIGHT = date(2026, 11, 14)
BALTIC = {"Riga": (56.946, 24.106), "Visby": (57.641, 18.296)}


@pytest.fixture(autouse=True)
def own_cache(tmp_path, monkeypatch):
    monkeypatch.setattr(towns, "towns_folder", lambda: tmp_path / "towns")


@pytest.fixture
def stay(store, clock):
    """Spends nights, as days before NIGHT, at a place."""

    def spend(name, *days):
        for back in days:
            place = writing.set_place(store, NIGHT - timedelta(days=back), name, clock)
        if name in BALTIC:
            place = places.set_coordinates(store, place.id, "{}, {}".format(*BALTIC[name]))
        return place

    return spend


@pytest.fixture
def over(qtbot, opened):
    """Opens the page of places and waits until everything is on it."""

    def open_page():
        frame = opened()
        frame.resize(1024, 700)
        frame.go("places")
        page = frame.pages["places"].overview
        qtbot.waitUntil(lambda: page.view is not None and page.travels is not None)
        qtbot.waitUntil(lambda: page.map.grab() and len(page.map._ways) == len(page.travels.ways))
        page.map.grab()
        return page

    return open_page


def half_way(page) -> QPoint:
    """A point in the middle of the one way."""
    polygon = page.map._ways[0].path.toSubpathPolygons()[0]
    middle = polygon[len(polygon) // 2]
    return QPointF(*page.map.chart.nearest_spot((middle.y(), middle.x()))).toPoint()


def menu() -> QMenu:
    return next(one for one in QApplication.topLevelWidgets() if isinstance(one, QMenu) and one.isVisible())


def test_a_click_on_a_journey_opens_the_night_it_ended(qtbot, over, stay):
    stay("Visby", 4, 5)
    stay("Riga", 2, 3)
    page = over()
    qtbot.mouseMove(page.map, half_way(page))
    assert page.map.cursor().shape() == Qt.CursorShape.PointingHandCursor
    qtbot.mouseClick(page.map, Qt.MouseButton.LeftButton, pos=half_way(page))
    frame = page.window()
    assert (frame.page_shown(), frame.night) == ("night", NIGHT - timedelta(days=3))


def test_beside_a_journey_a_click_opens_nothing(qtbot, over, stay):
    stay("Visby", 4)
    stay("Riga", 3)
    page = over()
    qtbot.mouseClick(page.map, Qt.MouseButton.LeftButton, pos=half_way(page) + QPoint(0, 60))
    assert page.window().page_shown() == "places"


def test_of_several_journeys_one_is_chosen_by_keys(qtbot, over, stay):
    stay("Visby", 6, 4)
    stay("Riga", 5, 3)
    page = over()
    qtbot.mouseClick(page.map, Qt.MouseButton.LeftButton, pos=half_way(page))
    told = [one.text() for one in menu().actions()]
    assert [one.split(" \u00b7 ")[1] for one in told] == ["Visby to Riga", "Riga to Visby", "Visby to Riga"]
    qtbot.keyClick(menu(), Qt.Key.Key_Down)
    qtbot.keyClick(menu(), Qt.Key.Key_Return)
    assert page.window().night == NIGHT - timedelta(days=4)


def test_all_journeys_are_reached_by_keys_and_say_by_way_of_what(qtbot, over, stay, store):
    stay("Visby", 5)
    ferry = stay("Tom & Ann\u2019s boat", 4)
    stay("Riga", 3)
    places.set_on_the_way(store, ferry.id, True)
    page = over()
    page.list_journeys.setFocus()
    qtbot.keyClick(page.list_journeys, Qt.Key.Key_Space)
    (told,) = [one.text() for one in menu().actions()]
    assert "Visby to Riga, by way of Tom && Ann\u2019s boat" in told and told.endswith("km")
    qtbot.keyClick(menu(), Qt.Key.Key_Return)
    assert page.window().night == NIGHT - timedelta(days=3)
    assert "1 time by way of Tom & Ann\u2019s boat" in page.told.text()
    assert "not counted" not in page.told.text()


def test_a_place_is_said_to_be_on_the_way_on_its_page_and_back(qtbot, over, stay, store):
    riga = stay("Riga", 3)
    page = over()
    frame = page.window()
    frame.pages["places"].show_place(riga.id)
    shown = frame.pages["places"].place
    qtbot.waitUntil(lambda: shown.view is not None)
    shown.moves.setFocus()
    qtbot.keyClick(shown.moves, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "no position of its own" in shown.position.text())
    assert kept.by_id(store, riga.id).point is None and shown.moves.text() == "Not on the way"
    qtbot.keyClick(shown.moves, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "56.946" in shown.position.text())
    assert kept.by_id(store, riga.id).point == (56.946, 24.106)


def test_the_place_field_offers_a_new_place_on_the_way(qtbot, page, store, tonight):
    field = page.place
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "The sleeper")
    row = next(n for n, one in enumerate(field.offers.rows) if isinstance(one.chosen, Place))
    assert field.offers.rows[row].told == "The sleeper, on the way: a ferry, a night train"
    for _ in range(row + 1):
        qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Down)
    qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    place = nights.one(store, tonight).place
    assert (place.name, place.on_the_way, place.point) == ("The sleeper", True, None)


def test_what_is_said_to_lie_somewhere_is_not_on_the_way(store, stay):
    ferry = stay("The ferry", 1)
    places.set_on_the_way(store, ferry.id, True)
    assert places.set_coordinates(store, ferry.id, "").on_the_way
    found = places.set_coordinates(store, ferry.id, "54, 10")
    assert (found.on_the_way, found.point) == (False, (54.0, 10.0))

"""The places page with its real map, and the place field with the real gazetteer."""

import threading
import time
from datetime import date, timedelta
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from waiting.at_rest import at_rest

from keeper.actions import writing
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.actions.places import towns
from keeper.model import Photo
from keeper.store import nights
from keeper.store.photos import known as photos
from keeper.store.places import named as kept
from keeper.study.outline import NoOutline
from keeper.window.parts.places import map_shapes, map_supply
from keeper.window.parts.places.map_picture import Picture
from keeper.window.parts.tips import plain_tip
from keeper.window.places.mending import MergeDialog, PositionDialog, RenameDialog

NIGHT = date(2026, 11, 14)
BALTIC = {"Riga": (56.946, 24.106), "Visby": (57.641, 18.296), "Kalmar": (56.663, 16.357)}


@pytest.fixture(scope="session")
def gazetteer(tmp_path_factory):
    return tmp_path_factory.mktemp("gazetteer")


@pytest.fixture(autouse=True)
def own_cache(gazetteer, monkeypatch):
    monkeypatch.setattr(towns, "towns_folder", lambda: gazetteer)


@pytest.fixture
def stay(store, clock):
    """Spends nights, as days before NIGHT, at a place of the Baltic or elsewhere."""

    def spend(name, *days):
        for back in days:
            place = writing.set_place(store, NIGHT - timedelta(days=back), name, clock)
        if name in BALTIC and place.latitude is None:
            place = places.set_coordinates(store, place.id, "{}, {}".format(*BALTIC[name]))
        return place

    return spend


@pytest.fixture
def seen(qtbot, opened):
    """Opens the page and waits until everything is on it."""

    def open_page():
        frame = opened()
        frame.resize(1024, 700)
        frame.go("places")
        page = frame.pages["places"]
        settle(qtbot, page)
        return page

    return open_page


def settle(qtbot, page):
    qtbot.waitUntil(lambda: page.overview.view is not None and page.overview.travels is not None)
    for _ in range(3):
        at_rest(qtbot, page.desk)
        page.grab()


def names(page):
    return [one.place.name for one in page.overview.list.rows.places]


def spot_of(page, name):
    view = page.overview.map
    view.grab()
    one = next(one for one in view.places if one.place.name == name)
    return QPointF(*view.chart.nearest_spot(one.point)).toPoint()


def test_nothing_yet_is_said_and_there_is_no_map(seen):
    page = seen()
    assert "No night has a place yet" in page.overview.told.text()
    assert page.overview.mapped.isHidden()


def test_places_without_a_position_are_listed_and_the_missing_map_is_told(seen, stay):
    stay("The night ferry", 0)
    page = seen()
    assert names(page) == ["The night ferry"]
    assert page.overview.mapped.isHidden()
    assert "no map" in page.overview.told.text()


def test_by_nights_or_by_last_time(qtbot, seen, stay):
    stay("Visby", 5, 6, 7)
    stay("Riga", 0)
    page = seen()
    assert names(page) == ["Visby", "Riga"]
    qtbot.mouseClick(page.overview.order, Qt.MouseButton.LeftButton)
    assert names(page) == ["Riga", "Visby"]
    assert page.overview.order.text() == "Latest first"


def test_one_year_or_all_with_its_kilometres(qtbot, seen, stay):
    stay("Visby", 0, 1)
    stay("Riga", 2, 400)
    stay("Kalmar", 401)
    page = seen()
    over = page.overview
    assert over.told.text().startswith("5 nights at 3 places in 2 years")
    assert "km from place to place, as the crow flies" in over.told.text()
    assert [over.year.itemData(n) for n in range(over.year.count())] == [None, 2026, 2025]
    assert over.year.itemText(1).endswith("km")
    over.year.setCurrentIndex(2)
    qtbot.waitUntil(lambda: names(page) == ["Kalmar", "Riga"] or names(page) == ["Riga", "Kalmar"])
    assert {one.place.name for one in over.map.places} == {"Kalmar", "Riga"}


def test_the_map_has_land_places_and_ways(seen, stay):
    stay("Riga", 0, 1, 2)
    stay("Visby", 3)
    page = seen()
    view = page.overview.map
    picture = view.grab().toImage()
    paper, wash = QColor(page.desk.look.palette.paper), QColor(page.desk.look.palette.wash)
    found = {
        picture.pixelColor(x, y).name() for x in range(0, picture.width(), 5) for y in range(0, picture.height(), 5)
    }
    assert {paper.name(), wash.name()} <= found
    at = spot_of(page, "Riga")
    assert picture.pixelColor(at).name() == page.desk.look.palette.tints[0].lower()
    assert len(view._ways) == 1 and not view._ways[0].way.unsure


@pytest.fixture
def drawings(monkeypatch):
    """How many ways each drawing of the map was given."""
    given = []
    draw = Picture.draw

    def counted(self, seen, shapes, ways, kept):
        given.append(len(ways))
        draw(self, seen, shapes, ways, kept)

    monkeypatch.setattr(Picture, "draw", counted)
    return given


def drawn_once(drawings: list[int], ways: int) -> bool:
    """Whether it was drawn without ways, maybe again with finer land, and then once with all of them."""
    return drawings[-1] == ways and not any(drawings[:-1])


@pytest.fixture
def three_ways(stay):
    for back, name in enumerate(["Riga", "Visby", "Kalmar", "Riga"]):
        stay(name, back)


def test_however_many_batches_of_ways_the_map_is_drawn_once_for_all(qtbot, seen, three_ways, drawings, monkeypatch):
    monkeypatch.setattr(map_supply, "WAYS_AT_ONCE", 1)
    page = seen()
    qtbot.waitUntil(lambda: len(page.overview.map._ways) == 3)
    page.grab()
    assert drawn_once(drawings, 3)


@pytest.mark.parametrize("wide", [800, 900])
def test_telling_that_not_all_is_drawn_takes_nothing_from_the_map(qtbot, opened, three_ways, monkeypatch, wide):
    heights, draw = set(), Picture.draw
    monkeypatch.setattr("keeper.window.parts.places.map_picture.MOST_SPOTS", 1)
    monkeypatch.setattr(Picture, "draw", lambda self, *given: (heights.add(self.chart.height), draw(self, *given)))
    frame = opened()
    # As wide as lets the note beside the buttons be higher than they are.
    frame.resize(wide, 700)
    frame.go("places")
    page = frame.pages["places"]
    settle(qtbot, page)
    assert page.overview.map_told.text() == "Zoom in to see everything." and page.overview.map_told.isVisible()
    assert len(heights) == 1


def test_ways_wait_while_another_page_is_seen(qtbot, opened, three_ways, monkeypatch):
    monkeypatch.setattr(map_supply, "WAYS_AT_ONCE", 1)
    made, go_on, drawn_ways = [], threading.Event(), map_shapes.drawn_ways
    monkeypatch.setattr(map_shapes, "drawn_ways", lambda ways: (made.append(ways), go_on.wait(60), drawn_ways(ways))[2])
    frame = opened()
    frame.go("places")
    page = frame.pages["places"]
    qtbot.waitUntil(lambda: len(made) == 1)
    frame.go("night")
    go_on.set()
    at_rest(qtbot, page.desk)
    assert len(made) == 1
    frame.go("places")
    qtbot.waitUntil(lambda: len(page.overview.map._ways) == 3)
    assert len(made) == 3


def test_asked_anew_before_all_ways_are_ready_they_all_come_once(qtbot, seen, three_ways, drawings, monkeypatch):
    monkeypatch.setattr(map_supply, "WAYS_AT_ONCE", 1)
    drawn_ways = map_shapes.drawn_ways
    monkeypatch.setattr(map_shapes, "drawn_ways", lambda ways: (time.sleep(0.2), drawn_ways(ways))[1])
    page = seen()
    for _ in range(3):
        page.overview.ask()
        qtbot.wait(20)
    qtbot.waitUntil(lambda: len(page.overview.map._ways) == 3)
    at_rest(qtbot, page.desk)
    page.grab()
    assert drawn_once(drawings, 3) and len(page.overview.map._ways) == 3


def test_without_an_outline_the_places_are_drawn_all_the_same(qtbot, seen, stay, drawings, monkeypatch):
    def none(level):
        raise NoOutline("The outline is not there.")

    monkeypatch.setattr(map_shapes, "land", none)
    stay("Riga", 0)
    stay("Visby", 1)
    page = seen()
    assert page.window().said.text() == "The outline is not there."
    qtbot.waitUntil(lambda: len(page.overview.map._ways) == 1)
    page.grab()
    assert {spot.kept.place.name for spot in page.overview.map._picture.spots} == {"Riga", "Visby"}


def test_a_click_on_the_map_opens_the_place(qtbot, seen, stay):
    stay("Riga", 0)
    stay("Visby", 1)
    page = seen()
    qtbot.mouseMove(page.overview.map, spot_of(page, "Visby"))
    qtbot.mouseClick(page.overview.map, Qt.MouseButton.LeftButton, pos=spot_of(page, "Visby"))
    assert page.currentWidget() is page.place
    qtbot.waitUntil(lambda: page.place.heading.text() == "Visby")


def test_a_drag_pushes_the_map_and_opens_nothing(qtbot, seen, stay):
    stay("Riga", 0)
    stay("Visby", 1)
    page = seen()
    view, at = page.overview.map, spot_of(page, "Visby")
    before = view.chart
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(view, at + QPoint(40, 10))
    QTest.mouseMove(view, at + QPoint(60, 20))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=at + QPoint(60, 20))
    assert page.currentWidget() is page.overview
    assert view.chart.longitude < before.longitude and view.chart.latitude > before.latitude
    moved = spot_of(page, "Visby")
    assert (moved - at - QPoint(60, 20)).manhattanLength() <= 2


def test_nothing_is_offered_to_choose_among_before_there_is_a_place(qtbot, seen, stay):
    overview = seen().overview
    qtbot.waitUntil(lambda: bool(overview.told.text()))
    assert not overview.year.isVisible() and not overview.order.isVisible()
    stay("Riga", 0)
    overview.refresh()
    qtbot.waitUntil(overview.year.isVisible)
    assert overview.order.isVisible()


def test_the_map_by_keys(qtbot, seen, stay):
    stay("Riga", 0)
    stay("Visby", 1)
    page = seen()
    view = page.overview.map
    view.setFocus()
    fit = view.chart
    qtbot.keyClick(view, Qt.Key.Key_Plus)
    assert view.chart.scale > fit.scale
    qtbot.keyClick(view, Qt.Key.Key_Right)
    assert view.chart.longitude > fit.longitude
    qtbot.keyClick(view, Qt.Key.Key_Minus)
    qtbot.keyClick(view, Qt.Key.Key_Minus)
    assert view.chart.scale < fit.scale
    qtbot.keyClick(view, Qt.Key.Key_Home)
    assert view.chart == fit
    assert "Arrows" in view.accessibleDescription()


def test_closer_up_a_finer_land_comes(qtbot, seen, stay):
    stay("Riga", 0)
    page = seen()
    view = page.overview.map
    qtbot.waitUntil(lambda: map_shapes.FINEST in view._land)
    while view.chart.degrees_across < 300:
        view.zoom(0.5)
    view.grab()
    qtbot.waitUntil(lambda: map_shapes.COARSEST in view._land)


def test_the_list_by_keys_marks_the_map_and_opens(qtbot, seen, stay):
    stay("Riga", 0, 1)
    visby = stay("Visby", 2)
    page = seen()
    page.overview.list.setFocus()
    assert page.overview.map.marked == ""
    qtbot.keyClick(page.overview.list, Qt.Key.Key_Down)
    assert page.overview.map.marked == visby.id
    qtbot.keyClick(page.overview.list, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.place is not None and page.place.heading.text() == "Visby")
    qtbot.keyClick(page.place, Qt.Key.Key_Escape)
    assert page.currentWidget() is page.overview


def opened_place(qtbot, page, place):
    page.show_place(place.id)
    qtbot.waitUntil(lambda: page.place.view is not None and page.place.view.kept.place.id == place.id)
    at_rest(qtbot, page.desk)
    return page.place


def test_a_places_own_page(qtbot, seen, stay, write):
    place = stay("Riga", 0, 1, 9)
    write(NIGHT, "memory", "Rye bread.")
    write(NIGHT - timedelta(days=9), "gratitude", "A tuned Blüthner.")
    page = seen()
    shown = opened_place(qtbot, page, place)
    assert shown.position.text() == "56.9460, 24.1060 · Europe/Riga"
    assert shown.nights.text() == "3 nights in 2 visits, from 5 Nov 2026 to 14 Nov 2026"
    assert "13 to 14 Nov 2026; 5 Nov 2026" in shown.visits.text()
    assert [shown.model.at(n).line.text for n in range(3)] == ["Rye bread.", "", "A tuned Blüthner."]
    qtbot.keyClick(shown.lines, Qt.Key.Key_Down)
    shown.lines.setCurrentIndex(shown.model.index(2, 0))
    qtbot.keyClick(shown.lines, Qt.Key.Key_Return)
    frame = page.window()
    qtbot.waitUntil(lambda: frame.page_shown() == "night")
    assert frame.night == NIGHT - timedelta(days=9)


def test_lines_come_fifty_at_a_time(qtbot, seen, store, clock, write):
    for back in range(60):
        writing.set_place(store, NIGHT - timedelta(days=back), "Riga", clock)
        write(NIGHT - timedelta(days=back), "memory", f"Night {back}.")
    page = seen()
    shown = opened_place(qtbot, page, kept.named(store, "Riga"))
    qtbot.waitUntil(lambda: shown.model.rowCount() == 50)
    shown.model.fetchMore(shown.lines.rootIndex())
    qtbot.waitUntil(lambda: shown.model.rowCount() == 60)


def test_a_photo_that_is_gone_is_no_crash(qtbot, seen, stay, store):
    place = stay("Riga", 0)
    photo = photos.add(store, Photo("", "a" * 64, "jpg", 9, caption="The market"))
    photos.attach(store, NIGHT, photo.id)
    page = seen()
    shown = opened_place(qtbot, page, place)
    qtbot.waitUntil(lambda: shown.photos.count() == 2)
    button = shown.photos.itemAt(0).widget()
    assert "The market" in button.accessibleName()
    qtbot.waitUntil(lambda: button.toolTip() != "Sat 14 Nov 2026")
    button.click()
    assert page.window().page_shown() == "night"


def test_rename(qtbot, seen, stay, store):
    place = stay("Rigga", 0)
    page = seen()
    shown = opened_place(qtbot, page, place)
    dialog = RenameDialog(page.desk, shown.view.kept.place, shown)
    dialog.typed.setText("  ")
    dialog.take()
    qtbot.waitUntil(lambda: "needs a name" in dialog.told.text())
    dialog.typed.setText("Rīga")
    dialog.take()
    qtbot.waitUntil(lambda: shown.heading.text() == "Rīga")
    assert kept.by_id(store, place.id).name == "Rīga"


def test_position_from_the_latest_photo_that_has_one(qtbot, seen, stay, store):
    place = stay("The farm", 0, 1)
    for night, sha256, where in ((0, "a", (56.9, 24.1)), (1, "b", (None, None))):
        photo = photos.add(store, Photo("", sha256 * 64, "jpg", 9, latitude=where[0], longitude=where[1]))
        photos.attach(store, NIGHT - timedelta(days=night), photo.id)
    page = seen()
    shown = opened_place(qtbot, page, place)
    dialog = PositionDialog(page.desk, shown.view.kept.place, shown)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitUntil(dialog.photo.isVisible)
    qtbot.mouseClick(dialog.photo, Qt.MouseButton.LeftButton)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: kept.by_id(store, place.id).zone == "Europe/Riga")
    assert kept.by_id(store, place.id).latitude == pytest.approx(56.9, abs=1e-4)


def test_position_by_town_and_by_coordinates(qtbot, seen, stay, store):
    place = stay("The farm", 0)
    page = seen()
    shown = opened_place(qtbot, page, place)
    dialog = PositionDialog(page.desk, shown.view.kept.place, shown)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.keyClicks(dialog.typed, "Gdansk")
    qtbot.waitUntil(lambda: dialog.list.count() > 0)
    assert "Poland" in dialog.list.item(0).text()
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: kept.by_id(store, place.id).zone == "Europe/Warsaw")
    dialog = PositionDialog(page.desk, kept.by_id(store, place.id), shown)
    dialog.typed.setText("91, 0")
    dialog._follow("91, 0")
    assert "beyond the pole" in dialog.told.text() or "no point" in dialog.told.text()
    dialog.typed.setText("57.64, 18.29")
    dialog._follow("57.64, 18.29")
    assert "Europe/Stockholm" in dialog.told.text()
    dialog.take()
    qtbot.waitUntil(lambda: kept.by_id(store, place.id).latitude == 57.64)
    dialog = PositionDialog(page.desk, kept.by_id(store, place.id), shown)
    dialog.none.click()
    qtbot.waitUntil(lambda: kept.by_id(store, place.id).latitude is None)


def test_merge(qtbot, seen, stay, store):
    gone, remains = stay("Kalmar slott", 0), stay("Kalmar", 1)
    page = seen()
    shown = opened_place(qtbot, page, gone)
    dialog = MergeDialog(page.desk, shown.view.kept, shown.show_place, shown)
    assert not dialog.act.isEnabled()
    qtbot.keyClicks(dialog.typed, "kalm")
    assert dialog.told.text() == ("The name Kalmar stays, Kalmar slott goes. 1 night at Kalmar slott becomes a night at Kalmar. "
                                  "On Kalmar\u2019s page they can be taken apart again.")  # fmt: skip
    dialog.take()
    qtbot.waitUntil(lambda: shown.heading.text() == "Kalmar")
    assert len(nights.all_at(store, remains.id)) == 2
    assert page.currentWidget() is shown


@pytest.fixture
def merged(store, stay, clock):
    """Merges places into Kalmar, in this order, and returns it."""

    def merge(*names):
        remains = kept.named(store, "Kalmar") or stay("Kalmar", 0)
        for back, name in enumerate(names, start=5):
            place_merging.merge(store, stay(name, back).id, remains.id, clock)
        return remains

    return merge


def lines_of(merges):
    return [part.text() for part in merges.findChildren(QLabel) if part.text() and not part.isHidden()]


def test_a_merge_is_told_and_taken_apart_by_a_click(qtbot, seen, store, merged):
    remains = merged("Belfast")
    page = seen()
    shown = opened_place(qtbot, page, remains)
    qtbot.waitUntil(shown.merges.isVisible)
    assert lines_of(shown.merges) == ["Belfast was merged into this on 14 Nov 2026."]
    button = shown.merges.buttons[0]
    assert (button.text(), button.accessibleName()) == ("Take apart", "Take Belfast apart from this place again")
    assert shown.back.nextInFocusChain() is button
    assert shown.nights.text() == "2 nights in 2 visits, from 9 Nov 2026 to 14 Nov 2026"
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(shown.merges.isHidden)
    qtbot.waitUntil(lambda: shown.nights.text() == "1 night, 14 Nov 2026")
    assert page.window().said.text() == "Belfast is a place of its own again, with 1 night."
    assert nights.one(store, NIGHT - timedelta(days=5)).place.name == "Belfast"
    assert shown.lines.hasFocus() and page.currentWidget() is shown


def test_taking_apart_by_keys_what_was_taken_apart_elsewhere_is_said(qtbot, seen, store, merged):
    remains = merged("Belfast")
    page = seen()
    shown = opened_place(qtbot, page, remains)
    qtbot.waitUntil(shown.merges.isVisible)
    place_merging.take_apart(store, place_merging.merged_into(store, remains.id)[0].id)
    shown.merges.buttons[0].setFocus()
    qtbot.keyClick(shown.merges.buttons[0], Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.window().said.text() == "These two places were taken apart already.")
    qtbot.waitUntil(shown.merges.isHidden)


def test_many_merges_are_shown_latest_first_three_until_more_are_asked_for(qtbot, seen, merged):
    remains = merged("A", "B", "C", "<b>D</b>", "E")
    page = seen()
    shown = opened_place(qtbot, page, remains)
    qtbot.waitUntil(shown.merges.isVisible)
    assert [told.split(" was ")[0] for told in lines_of(shown.merges)] == ["E", "<b>D</b>", "C"]
    assert shown.merges.buttons[-1].text() == "2 earlier merges \u203a"
    qtbot.mouseClick(shown.merges.buttons[-1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(lines_of(shown.merges)) == 5)
    assert [told.split(" was ")[0] for told in lines_of(shown.merges)] == ["E", "<b>D</b>", "C", "B", "A"]
    qtbot.waitUntil(shown.merges.buttons[3].hasFocus)
    order = [shown.back, *shown.merges.buttons]
    assert all(one.nextInFocusChain() is other for one, other in pairwise(order))


def test_what_a_merged_place_had_in_it_is_told(qtbot, seen, store, stay, merged, clock):
    lubeck = stay("L\u00fcbeck", 5)
    for back, name in enumerate(["Lubek", "Lubeque"], start=20):
        place_merging.merge(store, stay(name, back).id, lubeck.id, clock)
    shown = opened_place(qtbot, seen(), merged("L\u00fcbeck"))
    qtbot.waitUntil(shown.merges.isVisible)
    assert lines_of(shown.merges) == [
        "L\u00fcbeck was merged into this on 14 Nov 2026, with Lubek and Lubeque in it."
    ]


def test_rest_and_wake(qtbot, seen, stay, store):
    place = stay("Riga", 0)
    page = seen()
    shown = opened_place(qtbot, page, place)
    shown.rest.click()
    qtbot.waitUntil(lambda: shown.rest.text() == "Wake")
    assert kept.by_id(store, place.id).resting
    shown.rest.click()
    qtbot.waitUntil(lambda: shown.rest.text() == "Let rest")


def test_a_persons_words_stay_plain(qtbot, seen, stay):
    place = stay("<b>Riga</b> &amp; <img src=x>", 0)
    page = seen()
    shown = opened_place(qtbot, page, place)
    assert shown.heading.textFormat() == Qt.TextFormat.PlainText
    assert all(part.textFormat() == Qt.TextFormat.PlainText for part in page.findChildren(QLabel))


def test_everything_has_a_name_and_is_reached_by_tab(seen, stay):
    stay("Riga", 0)
    page = seen()
    over = page.overview
    parts = (over.year, over.order, over.map, over.list, over.nearer, over.farther, over.all)
    for part in parts:
        assert part.accessibleName() or part.text()
        assert part.focusPolicy() & Qt.FocusPolicy.TabFocus
    assert all(button.accessibleName() or button.text() for button in page.findChildren(QPushButton))


def test_what_another_program_writes_is_seen(qtbot, seen, stay):
    stay("Riga", 0)
    page = seen()
    chart = page.overview.map.chart
    stay("Visby", 1, 2)
    page.desk.changed.emit()
    qtbot.waitUntil(lambda: names(page) == ["Visby", "Riga"])
    assert page.overview.map.chart == chart, "the map one looks at stays where it is"


def test_by_day_and_by_night(seen, stay):
    stay("Riga", 0)
    page = seen()
    look = page.desk.look
    for light in ("night", "day"):
        page.desk.kept["palette"] = light
        look.dress(page.desk.kept)
        page.desk.dressed.emit()
        picture = page.overview.map.grab().toImage()
        found = {picture.pixelColor(x, 9).name() for x in range(picture.width())}
        assert QColor(look.palette.paper).name() in found or QColor(look.palette.wash).name() in found


# the place field


@pytest.fixture
def field(qtbot, page):
    page.place.setFocus()
    page.place.selectAll()
    return page.place


def offered(field):
    return [row.told for row in field.offers.rows]


def typed(qtbot, field, text):
    for letter in text:
        qtbot.keyClick(QApplication.activePopupWidget() or field, letter)
    qtbot.waitUntil(lambda: field._found[0] == field.text())


def test_towns_are_offered_after_known_places_and_the_own_name_last(qtbot, opened, stay, tonight):
    stay("Gdynia pier", 1)
    field = opened().pages["night"].place
    field.setFocus()
    field.selectAll()
    typed(qtbot, field, "Gdyn")
    rows = offered(field)
    assert rows[0] == "Gdynia pier"
    assert "Poland" in rows[1]
    assert rows[-1] == "Gdyn, a new place of your own"


def test_a_town_picked_becomes_the_place_of_the_night(qtbot, field, store, tonight):
    typed(qtbot, field, "Visby")
    assert field.offers.picked() is None, "nothing is taken that was not chosen"
    qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Down)
    qtbot.keyClick(QApplication.activePopupWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    place = nights.one(store, tonight).place
    assert (place.name, place.country, place.zone) == ("Visby", "SE", "Europe/Stockholm")


def test_a_towns_very_name_is_the_town(qtbot, field, store, tonight):
    typed(qtbot, field, "Helsinki")
    qtbot.keyClick(QApplication.activePopupWidget() or field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    assert nights.one(store, tonight).place.country == "FI"


def test_a_name_of_ones_own_is_never_taken_for_a_town(qtbot, field, store, tonight):
    typed(qtbot, field, "Home")
    qtbot.keyClick(QApplication.activePopupWidget() or field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    place = nights.one(store, tonight).place
    assert (place.name, place.latitude) == ("Home", None)


def test_coordinates_name_nothing(qtbot, frame, field, store, tonight):
    qtbot.keyClicks(field, "54.1, 10.8")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "tells a position" in frame.said.text())
    assert field.text() == ""
    frame.desk.writer.finish()
    assert nights.one(store, tonight).place is None


def test_without_the_list_of_towns_a_place_is_named_all_the_same(
    qtbot, frame, field, store, tonight, tmp_path, monkeypatch
):
    (tmp_path / "in the way").write_text("")
    monkeypatch.setattr(towns, "towns_folder", lambda: tmp_path / "in the way")
    qtbot.keyClicks(field, "The quay")
    qtbot.waitUntil(lambda: "list of towns" in frame.said.text())
    qtbot.keyClick(QApplication.activePopupWidget() or field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)


def test_find_is_narrowed_by_place_and_the_ribbon_tells_where(qtbot, frame, stay, store):
    stay("Riga", 0)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: "Riga" in frame.ribbon.told(NIGHT))
    frame.go("find")
    only = frame.pages["find"].sentence.only
    qtbot.waitUntil(lambda: only.known is not None and "in Riga" in [one.text for one in only.known.all])


def test_the_tip_of_the_ribbon_shows_a_name_as_it_is(qtbot, frame, stay):
    stay("<b>Riga</b>", 0)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: "<b>Riga</b>" in frame.ribbon.told(NIGHT))
    assert plain_tip("<b>Riga</b>") == "<qt>&lt;b&gt;Riga&lt;/b&gt;</qt>"

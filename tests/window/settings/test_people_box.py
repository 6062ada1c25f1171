"""People and what rests, in the settings."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from keeper.actions import people, resting


@pytest.fixture
def settings(qtbot, store, write, opened):
    """The settings page with its later boxes, on a keeper with a few names."""
    for number in range(4):
        write(date(2026, 5, 1 + number), "memory", "Tea with Ilze, and Oddny")
    people.add(store, "Ilze")
    people.add(store, "Maren <b>&")
    frame = opened()
    frame.go("settings")
    page = frame.pages["settings"]
    qtbot.waitUntil(lambda: page.people is not None and len(page.people.rows) == 2)
    qtbot.waitUntil(lambda: len(page.people.offered.buttons) == 1)
    return page


def names(store) -> list[str]:
    return [one.person.name for one in people.every(store)]


def test_names_come_after_the_settings_with_their_lines(settings):
    ilze, maren = settings.people.rows
    assert (ilze.name.text(), ilze.lines.text()) == ("Ilze", "4 lines")
    assert (maren.name.text(), maren.lines.text()) == ("Maren <b>&", "0 lines")
    assert maren.rest.accessibleName() == "Let Maren <b>& rest" and maren.name.accessibleName() == "Name Maren <b>&"
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in settings.people.findChildren(QLabel))


def test_a_name_is_added_with_enter_and_mistakes_are_told(qtbot, settings, store):
    box = settings.people
    box.more.setFocus()
    qtbot.keyClicks(box.more, "Teodor")
    qtbot.keyClick(box.more, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(box.rows) == 3)
    assert "Teodor" in names(store) and box.more.hasFocus() and not box.more.text()
    qtbot.keyClicks(box.more, "ilze")
    qtbot.keyClick(box.more, Qt.Key.Key_Return)
    qtbot.waitUntil(box.told.isVisible)
    assert "marked already" in box.told.text() and box.more.text() == "ilze"


def test_a_name_is_written_anew_and_an_empty_one_put_back(qtbot, settings, store):
    box = settings.people
    row = box.rows[0]
    row.name.setText("")
    row.name.editingFinished.emit()
    assert row.name.text() == "Ilze"
    row.name.setText("Ilze, Ilža")
    row.name.editingFinished.emit()
    qtbot.waitUntil(lambda: box.rows[0].name.text() == "Ilze, Ilža" and box.rows[0].person.name == "Ilze, Ilža")
    assert "Ilze, Ilža" in names(store)


def test_a_name_that_recurs_is_marked_with_one_key(qtbot, settings, store):
    box = settings.people
    (button,) = box.offered.buttons
    assert button.accessibleName() == "Mark Oddny, in 4 lines"
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(box.rows) == 3)
    assert "Oddny" in names(store) and box.offered.buttons == [] and box.more.hasFocus()


def test_who_is_let_rest_goes_under_what_rests_and_wakes_there(qtbot, settings, store):
    box, rests = settings.people, settings.resting
    assert rests.count.text() == "Nothing rests." and not rests.open.isVisible()
    box.rows[0].rest.setFocus()
    qtbot.keyClick(box.rows[0].rest, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(box.rows) == 1 and rests.count.text() == "1 thing rests.")
    assert box.rows[0].name.hasFocus() and rests.rows == []
    rests.open.click()
    (row,) = rests.rows
    assert row.name.text() == "Ilze" and row.wake.accessibleName() == "Wake a name, Ilze"
    row.wake.setFocus()
    qtbot.keyClick(row.wake, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(box.rows) == 2 and rests.rows == [])
    assert rests.first.hasFocus() and resting.what_rests(store) == ()


def test_taking_out_leaves_the_next_name_with_the_keys(qtbot, settings, store):
    box = settings.people
    box.rows[0].out.setFocus()
    qtbot.keyClick(box.rows[0].out, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(box.rows) == 1)
    assert names(store) == ["Maren <b>&"] and box.rows[0].name.hasFocus()


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
    settings.people.rows[0].name.setFocus()
    seen = []
    for _ in range(13):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(seen[-1], Qt.Key.Key_Tab)
    first, second = settings.people.rows
    wanted = [first.name, first.rest, first.out, second.name, second.rest, second.out, settings.people.more]
    assert seen[:7] == wanted and seen[7:8] == settings.people.offered.buttons
    assert seen[8:11] == [settings.resting.first, settings.resting.last, settings.resting.rest]

"""Closer looks in the window: what is picked, told and drawn, by keys alone, and what is undone."""

import pytest
from noted.courses_noted import begin, dip_after, night, note, with_cycles
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from keeper import cautions
from keeper.review.patterns.whole import NO_CAUSE
from keeper.store.patterns import phases
from keeper.window.patterns.courses.leaf import CourseLeaf

LEAVES = ("around", "after", "changes", "cycles")


@pytest.fixture
def leaf(qtbot, opened):
    """Opens a closer look, and waits until it has told something."""

    def open_leaf(name: str) -> CourseLeaf:
        frame = opened()
        frame.desk.go("patterns", None, name)
        page = frame.pages["patterns"].others[name]
        qtbot.waitUntil(lambda: bool(page.sentence.text()) and not page.doing.text())
        return page

    return open_leaf


def press(qtbot, part, *keys) -> None:
    for key in keys:
        qtbot.keyClick(part, key)


@pytest.mark.parametrize("name", LEAVES)
def test_where_nothing_was_noted_that_is_said_and_nothing_can_be_picked(leaf, name):
    page = leaf(name)
    # "Change of place" is always there, but no reading is.
    if name != "after":
        assert page.sentence.text() == page.nothing and not page.asked.isVisible() and not page.numbers.isVisible()
    assert page.caution.text().endswith(cautions.LABEL) and not any(chart.isVisible() for chart in page.charts)


@pytest.mark.parametrize(("name", "begins"), [
    ("around", "Nothing can be said yet: it takes 5 nights with “ferry”"),
    ("after", "Nothing can be said yet: it takes 5 nights with “ferry” and 5 without"),
    ("changes", "Nothing can be said yet: it takes 60 nights with mood, and there are 20."),
    ("cycles", "Nothing can be said yet: it takes 2 whole cycles of “ferry”, and there are 0."),
])  # fmt: skip
def test_little_data_is_said_calmly_with_what_is_lacking(store, leaf, name, begins):
    dip_after(store, nights=20)
    page = leaf(name)
    of_the_body = name != "after"
    assert page.sentence.text().startswith(begins) and page.caution.text().endswith(cautions.under(of_the_body))
    assert page.caution.text().startswith(NO_CAUSE) == (name in ("around", "after"))
    assert not page.numbers.isEnabled() and not any(chart.isVisible() for chart in page.charts)


def test_around_a_mark_tells_draws_and_has_its_numbers_one_key_away(qtbot, store, leaf):
    dip_after(store)
    page = leaf("around")
    assert page.sentence.text().startswith("On the night after (10 nights with “ferry”), mood was 2.9 on average")
    assert page.chart.isVisible() and page.chart.spots() == 15
    assert not page.tables[0].isVisible() and not page.method.isVisible()
    press(qtbot, page, Qt.Key.Key_Tab)
    QTest.keyClick(page, Qt.Key.Key_N, Qt.KeyboardModifier.AltModifier)
    assert page.tables[0].isVisible() and page.tables[0].hasFocus()
    row = [page.tables[0].item(8, column).text() for column in range(6)]
    assert row[0] == "the night after" and row[5] == "10"
    assert page.tables[0].item(8, 5).data(Qt.ItemDataRole.AccessibleTextRole) == "Nights 10"
    press(qtbot, page.tables[0], Qt.Key.Key_Tab)
    assert not page.tables[0].hasFocus()
    page.chart.setFocus()
    QTest.keyClick(page, Qt.Key.Key_H, Qt.KeyboardModifier.AltModifier)
    assert "superposed epochs" in page.method.text() and page.method.isVisible()


def test_the_chart_is_walked_through_by_arrow_keys(qtbot, store, leaf):
    dip_after(store)
    page = leaf("around")
    page.chart.setFocus()
    assert page.chart.spot == 7
    press(qtbot, page.chart, Qt.Key.Key_Right)
    assert page.chart.accessibleDescription().startswith("the night after: mood 2.9 on average, usual between ")
    press(qtbot, page.chart, Qt.Key.Key_End, Qt.Key.Key_Right)
    assert page.chart.spot == 14
    press(qtbot, page.chart, Qt.Key.Key_Home)
    assert page.chart.accessibleDescription().startswith("7 nights before: ")


def test_a_night_that_stands_out_is_a_dot_and_another_a_ring(store, leaf):
    dip_after(store)
    page = leaf("around")
    found, picture = page.chart.of.found, page.chart.grab().toImage()
    ratio = picture.devicePixelRatio()

    def middle(offset: int) -> QColor:
        spot = found.offsets.index(offset)
        return picture.pixelColor(QPoint(round(page.chart.x(spot)), round(page.chart.y(found.means[spot]))) * ratio)

    within = next(o for o, m, low, high in zip(found.offsets, found.means, found.low, found.high, strict=True) if low <= m <= high)
    colours = page.desk.look.palette
    assert middle(1) == QColor(colours.ink) and middle(within) == QColor(colours.paper)


def test_another_choice_asks_again_and_what_was_noted_since_is_seen(qtbot, store, leaf):
    dip_after(store)
    page = leaf("around")
    page.span.setCurrentIndex(0)
    qtbot.waitUntil(lambda: page.chart.spots() == 7)
    note(store, "ferry", [0.0] * 160)
    page.desk.changed.emit()
    qtbot.waitUntil(lambda: page.sentence.text() == "Nothing can be said yet: there is no night with “ferry”.")


def test_asking_is_stopped_by_its_button_and_by_leaving(qtbot, store, leaf, monkeypatch):
    import threading

    dip_after(store)
    page = leaf("around")
    let_go, asked = threading.Event(), []

    def slow(store, mark, reading, span, heard):
        asked.append(span)
        while not let_go.wait(0.01):
            heard(0.5)

    monkeypatch.setattr("keeper.window.patterns.courses.around.around_mark", slow)
    page.span.setCurrentIndex(2)
    qtbot.waitUntil(lambda: page.doing.text() == "Working it out, 50 %")
    assert page.stop.isVisible()
    qtbot.mouseClick(page.stop, Qt.MouseButton.LeftButton)
    assert page.sentence.text() == "Stopped. Choose something to ask again." and not page.stop.isVisible()
    assert page.desk.reader.finish()
    page.span.setCurrentIndex(3)
    qtbot.waitUntil(lambda: len(asked) == 2)
    page.desk.go("night")
    assert page.desk.reader.finish() and not let_go.is_set()


def test_a_phase_is_typed_and_what_cannot_be_is_said(qtbot, store, leaf):
    with_cycles(store, lengths=(20,) * 9)
    page = leaf("after")
    assert not page.nights_of_phase.isVisible()
    page.where.setCurrentIndex(1)
    assert page.nights_of_phase.isVisible()
    page.begins.setText("9")
    page.ends.setText("3")
    page.ends.editingFinished.emit()
    qtbot.waitUntil(lambda: page.sentence.text() == "A phase goes from one night to a later one, 0 to 366; not from 9 to 3.")
    page.ends.setText("12")
    page.ends.editingFinished.emit()
    qtbot.waitUntil(lambda: "in nights 9 to 12 after" in page.sentence.text())


def test_changes_are_drawn_as_levels(qtbot, store, leaf):
    dip_after(store, nights=10)
    note(store, "mood", [7 + number % 2 - 3 * (number >= 120) for number in range(240)])
    page = leaf("changes")
    qtbot.waitUntil(lambda: page.strip.spots() == 2)
    assert page.sentence.text() == "Over 240 nights the level of mood shifted once: around 1 May 2026 from 7.5 to 4.5."
    page.strip.setFocus()
    assert page.strip.spot == 1
    press(qtbot, page.strip, Qt.Key.Key_Left)
    assert page.strip.accessibleDescription() == "1 Jan 2026 to 30 Apr 2026: mood 7.5 on average, 120 nights"


def test_a_second_phase_is_moved_removed_undone_by_keys(qtbot, store, leaf):
    with_cycles(store)
    page = leaf("cycles")
    assert page.record.text().endswith("the cycle under way is left out.") and "never a forecast" in page.record.text()
    page.chart.setFocus()
    press(qtbot, page.chart, *[Qt.Key.Key_Down] * 2, *[Qt.Key.Key_Right] * 16)
    assert page.chart.cycle.begins == night(28)
    assert page.chart.accessibleDescription().startswith("day 17, Sat 14 Feb 2026: temperature 36.75 ")
    page.here.setFocus()
    press(qtbot, page.here, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: phases.of_mark(store, "begun") == {night(28): night(44)})
    qtbot.waitUntil(lambda: page.chart.cycle.rise == 17)
    press(qtbot, page.none, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: page.chart.cycle.rise is None)
    QTest.keyClick(page, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: page.chart.cycle.rise == 17)
    press(qtbot, page.rule, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: page.chart.cycle.rise == 15)


def test_who_points_at_no_cycle_is_told_to(qtbot, store, leaf):
    with_cycles(store)
    page = leaf("cycles")
    with qtbot.waitSignal(page.desk.said) as said:
        press(qtbot, page.none, Qt.Key.Key_Space)
    assert said.args[0].startswith("Point at a day of a cycle first") and phases.of_mark(store, "begun") == {}


@pytest.mark.parametrize("name", LEAVES)
def test_every_control_has_a_name_and_all_are_reached_by_tab(qtbot, store, leaf, name):
    with_cycles(store, lengths=(20,) * 9)
    page = leaf(name)
    reached = set()
    page.setFocus()
    for _ in range(40):
        part = QApplication.focusWidget()
        if page.isAncestorOf(part):
            reached.add(part)
            assert part.accessibleName(), part
        QTest.keyClick(part, Qt.Key.Key_Tab)
    buttons = [page.back, *([page.numbers] if page.numbers.isEnabled() else []), page.how]
    assert {*buttons, *(one for one in page.charts if one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisible())} <= reached


def test_another_page_leads_to_a_mark_and_a_reading(qtbot, store, leaf):
    dip_after(store)
    begin(store, "train", "mark")
    begin(store, "stress")
    page = leaf("around")
    page.desk.go("patterns", None, ("around", ("reading:train", "reading:stress")))
    qtbot.waitUntil(lambda: page.sentence.text() == "Nothing can be said yet: there is no night with “train”.")
    assert (page.mark.currentText(), page.reading.currentText()) == ("train", "stress")
    page.mark.setCurrentIndex(0)
    page.desk.go("patterns", None, "around")
    qtbot.waitUntil(lambda: "ferry" in page.sentence.text() and not page.doing.text())
    assert (page.mark.currentText(), page.reading.currentText()) == ("ferry", "stress")


def test_a_second_phase_does_not_begin_after_its_cycle(qtbot, store, leaf):
    with_cycles(store)
    page = leaf("cycles")
    page.chart.setFocus()
    press(qtbot, page.chart, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_End)
    assert page.chart.accessibleDescription() == "cycle from 29 January 2026: 26 nights"
    with qtbot.waitSignal(page.desk.said) as said:
        press(qtbot, page.here, Qt.Key.Key_Space)
    assert said.args == ["That day is after the end of the cycle."] and phases.of_mark(store, "begun") == {}

"""Turning the month: offered quietly, kept at each step, taken up where it was left."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt
from waiting.at_rest import at_rest

from keeper.actions.months import shown as months
from keeper.clock import StoppedClock
from keeper.store import month_pages
from keeper.window.month.turning.sitting import DONE, STEPS, reached

OCTOBER, NOVEMBER = date(2026, 10, 1), date(2026, 11, 1)


def evening(day: int) -> StoppedClock:
    return StoppedClock(datetime(2026, 11, day, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")


@pytest.fixture
def october(write, store):
    for day in (3, 9, 20):
        write(date(2026, 10, day), "memory", f"October {day}")
    months.add_goal(store, OCTOBER, "Swim")


def sit_down(qtbot, frame):
    offer = frame.rest.turn_offer
    qtbot.waitUntil(offer.button.isVisible)
    offer.button.click()
    sitting = frame.pages["month"].others["turn"]
    qtbot.waitUntil(lambda: sitting.view is not None)
    return sitting


def onward(qtbot, sitting):
    sitting.view = None
    sitting.onward.click()
    qtbot.waitUntil(lambda: sitting.view is not None)


def test_it_is_offered_on_the_first_evenings_only(qtbot, opened, october):
    frame = opened(evening(7))
    qtbot.waitUntil(frame.rest.turn_offer.button.isVisible)
    assert frame.rest.turn_offer.button.text() == "Turn the month: October 2026, in a few minutes"
    frame.desk.clock = evening(8)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: not frame.rest.turn_offer.button.isVisible())


def test_it_is_not_offered_after_a_month_without_lines(qtbot, opened):
    frame = opened(evening(2))
    frame.rest.turn_offer.ask()
    at_rest(qtbot, frame.desk)
    assert not frame.rest.turn_offer.button.isVisible()


def test_all_five_steps_each_kept_at_once(qtbot, opened, october, store):
    frame = opened(evening(2))
    sitting = sit_down(qtbot, frame)
    assert sitting.heading.text() == "Turning October 2026" and sitting.step == "look back"
    assert sitting.nights.model().rowCount() == 31
    sitting.words.field.setPlainText("A windy month.")
    onward(qtbot, sitting)
    qtbot.waitUntil(lambda: month_pages.one(store, OCTOBER).words == "A windy month.")
    assert sitting.step == "photo" and sitting.chooser.month == OCTOBER
    onward(qtbot, sitting)
    qtbot.waitUntil(lambda: len(sitting.goals.rows) == 1)
    sitting.goals.rows[0].outcome.setCurrentIndex(2)
    sitting.goals.rows[0].outcome.activated.emit(2)
    qtbot.waitUntil(lambda: [goal.text for goal in month_pages.one(store, NOVEMBER).goals] == ["Swim"])
    onward(qtbot, sitting)
    qtbot.waitUntil(lambda: sitting.shelf.list.count() > 60)
    item = sitting.shelf.list.item(2)
    sitting.shelf.list.setCurrentItem(item)
    qtbot.keyClick(sitting.shelf.list, Qt.Key.Key_Return)
    chosen = item.data(Qt.ItemDataRole.UserRole)
    qtbot.waitUntil(lambda: month_pages.one(store, NOVEMBER).question == chosen)
    onward(qtbot, sitting)
    qtbot.waitUntil(lambda: [one.goal.text for one in sitting.next_goals.rows] == ["Swim"])
    assert sitting.onward.text() == "Done"
    sitting.onward.click()
    assert frame.desk.kept["turn"] == f"2026-10 {DONE}"
    qtbot.waitUntil(lambda: frame.pages["month"].currentWidget() is frame.pages["month"].sheet)
    frame.go("night")
    frame.desk.reader.finish()
    qtbot.waitUntil(lambda: not frame.rest.turn_offer.button.isVisible())


def test_left_in_the_middle_it_is_taken_up_there_even_another_evening(qtbot, opened, october):
    frame = opened(evening(2))
    sitting = sit_down(qtbot, frame)
    onward(qtbot, sitting)
    onward(qtbot, sitting)
    sitting.away.click()
    frame.go("night")
    qtbot.waitUntil(lambda: frame.rest.turn_offer.button.text() == "Go on turning October 2026")
    assert frame.close()
    later = opened(evening(4))
    later.go("night")
    assert sit_down(qtbot, later).step == "goals"


def test_a_question_asked_before_is_marked(qtbot, opened, october, store):
    asked = months.shelf(store)[0].text
    months.ask_question(store, date(2026, 3, 1), asked)
    frame = opened(evening(2))
    sitting = sit_down(qtbot, frame)
    sitting.show_step("question")
    qtbot.waitUntil(lambda: sitting.shelf.list.count() > 60)
    marked = [sitting.shelf.list.item(n).text() for n in range(sitting.shelf.list.count())]
    assert [text for text in marked if "asked in" in text] == [f"{asked}   (asked in March 2026)"]


def test_any_month_can_be_turned_from_its_page(qtbot, frame, october):
    frame.go("month", OCTOBER)
    page = frame.pages["month"]
    qtbot.waitUntil(page.sheet.is_shown)
    page.sheet.ways[3].click()
    assert page.currentWidget() is page.others["turn"] and page.others["turn"].month == OCTOBER


def test_what_was_kept_of_the_sitting_is_read_with_care():
    assert reached("2026-10 goals", OCTOBER) == "goals"
    for odd in ("", "2026-10", "2026-10 dance", "2026-09 goals", "goals"):
        assert reached(odd, OCTOBER) == ""
    assert set(STEPS).isdisjoint({DONE})

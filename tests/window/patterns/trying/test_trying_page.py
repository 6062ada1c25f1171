"""The page on which something is tried, and the quiet line on a night: a real window on a real file."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from waiting.at_rest import at_rest

from keeper.actions.history import lately, undoing
from keeper.actions.trying import beginning
from keeper.actions.trying.beginning import WantedPlan
from keeper.cautions import LABEL, NEVER_TRIED
from keeper.clock import StoppedClock
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers
from keeper.store.trying import plans


@pytest.fixture
def noted(store, tonight):
    """Tea and mood, noted for half a year."""
    for name, form, ends in (("tea", "mark", (None, None)), ("mood", "scale", (0.0, 10.0))):
        trackers.add(store, Tracker(name, name, form, *ends, "", "neither", date(2026, 1, 1)))
    nights = [tonight - timedelta(n) for n in range(1, 180)]
    trackers.note(store, [Reading(night, "mood", float(4 + night.day % 4)) for night in nights], Act("Mood"))
    trackers.note(store, [Reading(night, "tea", float(night.day % 2)) for night in nights], Act("Tea"))
    return store


@pytest.fixture
def trying(noted, frame):
    """The page, as it is reached from another."""
    frame.desk.go("patterns", None, "trying")
    return frame.pages["patterns"].others["trying"]


def labels(page) -> str:
    return " ".join(one.text() for one in page.findChildren(QLabel) if one.isVisible())


def test_a_plan_is_told_how_sure_it_could_be_before_it_begins(qtbot, trying):
    qtbot.waitUntil(lambda: "such tryings would tell it from chance" in trying.plan.sure.told.text())
    assert "nights of mood that you noted before" in trying.plan.sure.told.text()
    trying.plan.blocks.setCurrentIndex(trying.plan.blocks.findData(4))
    qtbot.waitUntil(lambda: "4 blocks cannot tell anything from chance" in trying.plan.sure.told.text())


def test_how_sure_it_could_be_is_stopped_and_asked_again(qtbot, trying):
    sure = trying.plan.sure
    trying.plan.blocks.setCurrentIndex(trying.plan.blocks.findData(12))
    qtbot.waitUntil(sure.stop.isVisible)
    qtbot.mouseClick(sure.stop, Qt.MouseButton.LeftButton)
    assert not sure.under_way and sure.again.hasFocus() and not sure.told.isVisible()
    qtbot.keyClick(sure.again, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "of 100" in sure.told.text())


def test_it_does_not_begin_until_it_is_confirmed_that_it_is_no_treatment(qtbot, trying, store):
    assert NEVER_TRIED in labels(trying) and LABEL in labels(trying)
    assert not trying.plan.begin.isEnabled()
    qtbot.mouseClick(trying.plan.begin, Qt.MouseButton.LeftButton)
    assert not plans.every(store)
    trying.plan.confirmed.setFocus()
    qtbot.keyClick(trying.plan.confirmed, Qt.Key.Key_Space)
    assert trying.plan.begin.isEnabled()


def test_begun_told_on_tonight_and_stopped_by_keyboard(qtbot, trying, frame, store, tonight):
    assert trying.plan.first.currentText() == "tomorrow" and trying.plan.plan().first == tonight + timedelta(1)
    trying.plan.first.setCurrentIndex(trying.plan.first.findData(0))
    qtbot.keyClick(trying.plan.confirmed, Qt.Key.Key_Space)
    trying.plan.begin.setFocus()
    qtbot.keyClick(trying.plan.begin, Qt.Key.Key_Space)
    # What was written may be noticed before it is heard that it was.
    qtbot.waitUntil(lambda: trying.current is not None and not trying.plan.confirmed.isChecked())
    (one,) = plans.every(store)
    how = "with" if one.withs[0] else "without"
    assert trying.now.text() == f"Tonight: {how} “tea”, night 1 of 7 in block 1 of 8."
    assert "at the end, or when it is stopped" in labels(trying) and not trying.plan.isVisible()
    assert not trying.plan.confirmed.isChecked(), "what was confirmed was confirmed of that one"
    frame.go("night", tonight)
    assert frame.rest.trying.told.text() == f"Trying: {how} “tea”, night 1 of 7 in block 1 of 8"
    assert frame.rest.trying.told.isVisible()
    frame.go("night", tonight - timedelta(1))
    assert not frame.rest.trying.told.isVisible()
    frame.desk.go("patterns", None, "trying")
    trying.stop.setFocus()
    qtbot.keyClick(trying.stop, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: trying.current is None)
    assert not plans.every(store), "no night of it was lived"
    frame.go("night", tonight)
    assert not frame.rest.trying.told.isVisible()
    undoing.undo(store)
    assert plans.every(store) == (one,)


def test_nothing_on_the_night_page_moves_when_the_line_comes(qtbot, noted, frame, page, tonight):
    before = page.place.mapTo(page, page.place.rect().topLeft())
    beginning.begin(noted, WantedPlan("tea", "mood", tonight, 8, 7), 3, tonight, agreed=True)
    frame.desk.changed.emit()
    qtbot.waitUntil(frame.rest.trying.told.isVisible)
    at_rest(qtbot, frame.desk)
    assert page.place.mapTo(page, page.place.rect().topLeft()) == before


def test_at_its_end_tonight_offers_what_came_of_it(qtbot, noted, opened, tonight):
    first = tonight - timedelta(57)
    beginning.begin(noted, WantedPlan("tea", "mood", first, 8, 7), 3, first, agreed=True)
    frame = opened(StoppedClock(datetime(2026, 11, 15, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga"))
    offer = frame.rest.trying.offer
    assert offer.isVisible() and offer.text() == "What came of trying “tea” can be seen"
    qtbot.mouseClick(offer, Qt.MouseButton.LeftButton)
    trying = frame.pages["patterns"].others["trying"]
    assert trying.isVisible()
    (ended,) = trying.ended
    qtbot.waitUntil(lambda: "The lot, block by block: " in labels(ended))
    told = labels(ended)
    assert "drawn to be with “tea” than on" in told and "p = " in told
    assert "kept to on" in told and "all count as drawn" in told and "Before it began: were the difference" in told


def test_several_that_ended_are_listed_the_newest_unfolded(qtbot, noted, frame, tonight):
    for ago in (100, 60):
        first = tonight - timedelta(ago)
        beginning.begin(noted, WantedPlan("tea", "mood", first, 8, 3), 3, first, agreed=True)
    frame.desk.go("patterns", None, "trying")
    trying = frame.pages["patterns"].others["trying"]
    newest, before = trying.ended
    qtbot.waitUntil(lambda: newest.found is not None)
    assert newest.known.trying.first > before.known.trying.first and before.found is None
    qtbot.keyClick(before.more, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: before.found is not None)


def test_without_a_mark_it_says_where_one_is_begun(qtbot, store, frame):
    frame.desk.go("patterns", None, "trying")
    trying = frame.pages["patterns"].others["trying"]
    assert not trying.plan.isVisible() and "noted as yes or no" in trying.lacking.text()
    qtbot.mouseClick(trying.readings, Qt.MouseButton.LeftButton)
    assert frame.pages["readings"].isVisible()


def test_what_is_tried_is_led_to_from_what_was_done(noted, frame, tonight):
    beginning.begin(noted, WantedPlan("tea", "mood", tonight, 8, 7), 3, tonight, agreed=True)
    act = lately.latest(noted)[0].act
    frame.desk.go(act.page, act.night, act.thing)
    assert frame.pages["patterns"].others["trying"].isVisible()

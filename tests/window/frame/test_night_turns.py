"""A window left open over the end of a night, at midnight, and across the date line."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication

from keeper.clock import StoppedClock
from keeper.errors import CannotWrite
from keeper.store import lines
from keeper.window.desk import wording
from keeper.window.frame import night_turn
from keeper.window.frame.quiet import Quiet

RIGA = ZoneInfo("Europe/Riga")
LAST, NEW = date(2026, 11, 14), date(2026, 11, 15)


def at(frame, *moment, zone="Europe/Riga"):
    """It is now this time there; the window looks round."""
    frame.desk.clock = StoppedClock(datetime(*moment, tzinfo=ZoneInfo(zone)), zone)
    frame._look_round()


@pytest.fixture
def quiet(monkeypatch):
    """Whether nobody has typed for a while."""
    state = {"lasts": True}
    monkeypatch.setattr(Quiet, "idle", lambda self, milliseconds: state["lasts"])
    return state


@pytest.fixture
def kept(store):
    return lambda night: {line.kind: line.text for line in lines.of_night(store, night)}


def test_an_idle_page_goes_on_to_the_new_night(qtbot, frame, page, quiet):
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.waitUntil(lambda: page.night == NEW)
    assert (frame.night, frame.said.text()) == (NEW, "It is a new night.")


def test_a_line_not_yet_left_is_kept_and_the_next_evening_is_written_to_its_own_night(qtbot, frame, page, quiet, kept):
    page.fields["memory"].setFocus()
    qtbot.keyClicks(page.fields["memory"], "the ferry was late")
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.waitUntil(lambda: page.night == NEW)
    assert kept(LAST) == {"memory": "the ferry was late"}
    assert frame.said.text() == "It is a new night; last night\u2019s words are kept."
    assert QApplication.focusWidget() is page.fields["memory"]
    qtbot.keyClicks(QApplication.focusWidget(), "a goose")
    frame.keep_all()
    assert kept(NEW) == {"memory": "a goose"}
    assert kept(LAST) == {"memory": "the ferry was late"}


def test_nothing_goes_away_under_the_hands_that_type(qtbot, frame, page, quiet, kept):
    quiet["lasts"] = False
    qtbot.keyClicks(page.fields["memory"], "half a")
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.wait(50)
    assert page.night == LAST and page.fields["memory"].toPlainText() == "half a"
    qtbot.keyClicks(page.fields["memory"], " line")
    frame._look_round()
    qtbot.wait(50)
    assert page.night == LAST
    quiet["lasts"] = True
    frame._look_round()
    qtbot.waitUntil(lambda: page.night == NEW)
    assert kept(LAST) == {"memory": "half a line"}


def test_it_stays_said_until_somebody_is_there(qtbot, frame, page, quiet, monkeypatch):
    frame._quiet.setInterval(30)
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.waitUntil(lambda: page.night == NEW)
    qtbot.wait(120)
    frame._look_round()
    assert frame.said.isVisible()
    quiet["lasts"] = False
    frame._look_round()
    qtbot.waitUntil(lambda: not frame.said.isVisible())


def test_a_line_that_cannot_be_kept_stays_where_it_is_seen(qtbot, frame, page, quiet, monkeypatch):
    from keeper.actions import writing

    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(writing, "write_line", full)
    qtbot.keyClicks(page.fields["memory"], "half a")
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.waitUntil(lambda: bool(page.failing))
    frame._look_round()
    qtbot.wait(50)
    assert (page.night, page.fields["memory"].toPlainText()) == (LAST, "half a")
    assert frame.said.text() == "The disk is full."
    page.fields["memory"].clear()


def test_who_went_to_last_night_on_purpose_stays_there(qtbot, frame, page, quiet):
    quiet["lasts"] = False
    at(frame, 2026, 11, 15, 4, 1)
    frame.go("month")
    frame.go("night", LAST)
    quiet["lasts"] = True
    frame._look_round()
    qtbot.wait(50)
    assert page.night == LAST


def test_behind_another_page_the_night_turns_as_well(qtbot, frame, page, quiet):
    frame.go("month")
    at(frame, 2026, 11, 15, 4, 1)
    assert (frame.page_shown(), frame.night) == ("month", NEW)
    qtbot.keyClick(frame, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    assert page.night == NEW


def test_with_a_dialog_open_all_night_it_turns_when_that_is_closed(qtbot, frame, page, quiet, monkeypatch):
    asked = [True]
    monkeypatch.setattr(Quiet, "asked", lambda self: asked[0])
    at(frame, 2026, 11, 15, 4, 1)
    qtbot.wait(50)
    assert page.night == LAST
    asked[0], quiet["lasts"] = False, False
    frame._look_round()
    qtbot.waitUntil(lambda: page.night == NEW)


def test_while_the_computer_slept_it_was_quiet(frame, monkeypatch):
    quiet = frame.turn._quiet
    assert not quiet.idle(night_turn.TURN_AFTER)
    quiet._at -= night_turn.TURN_AFTER / 1000
    assert quiet.idle(night_turn.TURN_AFTER)


def test_past_midnight_it_says_when_the_night_ends(frame, page):
    at(frame, 2026, 11, 15, 0, 5)
    page.refresh()
    assert page.heading.text() == wording.long_date(LAST)
    assert page.when.text() == "Past midnight, and still tonight: a night ends at 4:00."
    frame.desk.kept["rollover"] = "2"
    page.refresh()
    assert page.when.text() == "Past midnight, and still tonight: a night ends at 2:00."
    at(frame, 2026, 11, 14, 23, 55)
    page.refresh()
    assert page.when.text() == "Tonight"


# Auckland is a day ahead of Honolulu: who flies there lives a night twice.


@pytest.fixture
def flown(opened, write, clock):
    """A window in Honolulu, with the night written in Auckland still to come there."""
    write(LAST, "gratitude", "in Honolulu")
    write(NEW, "gratitude", "in Auckland")
    return opened(StoppedClock(datetime(2026, 11, 14, 21, 0, tzinfo=ZoneInfo("Pacific/Honolulu")), "Pacific/Honolulu"))


def test_a_night_kept_ahead_of_tonight_is_reached_by_every_way(qtbot, flown):
    page, control = flown.pages["night"], Qt.KeyboardModifier.ControlModifier
    assert flown.night == LAST
    qtbot.waitUntil(page.after.isEnabled)
    page.after.click()
    assert page.night == NEW and page.fields["gratitude"].toPlainText() == "in Auckland"
    assert page.when.text() == "Still to come: here it is Saturday 14 November 2026."
    assert not page.after.isEnabled()
    flown.go("night")
    qtbot.keyClick(flown, Qt.Key.Key_PageDown, control)
    qtbot.keyClick(flown, Qt.Key.Key_PageDown, control)
    assert page.night == NEW
    assert flown.desk.shifted(NEW, 1) == NEW


def test_the_ribbon_leads_to_it_and_tells_of_it(qtbot, flown):
    ribbon = flown.ribbon
    qtbot.waitUntil(lambda: NEW in ribbon._ticks)
    spot = ribbon._band().center().toPoint()
    spot.setX(int(ribbon._x(NEW)) + 1)
    assert ribbon.night_at(spot) == NEW
    spot.setX(int(ribbon._x(NEW + timedelta(days=1))) + 1)
    assert ribbon.night_at(spot) is None
    assert ribbon.told(NEW) == "Sun 15 Nov 2026 \u00b7 still to come here \u00b7 1 line"
    ribbon.setFocus()
    qtbot.keyClick(ribbon, Qt.Key.Key_Right)
    qtbot.keyClick(ribbon, Qt.Key.Key_Right)
    assert ribbon.cursor_night == NEW
    assert "still to come here" in QAccessible.queryAccessibleInterface(ribbon).text(QAccessible.Text.Description)
    qtbot.keyClick(ribbon, Qt.Key.Key_Return)
    assert flown.night == NEW


def test_going_to_it_by_its_date(qtbot, flown):
    from keeper.window.frame.go_to import GoToDialog

    dialog = GoToDialog(flown.desk, flown.night, flown)
    qtbot.addWidget(dialog)
    dialog.typed.setText("15.11.2026")
    dialog._take()
    assert (dialog.result(), dialog.night) == (1, NEW)
    dialog = GoToDialog(flown.desk, flown.night, flown)
    qtbot.addWidget(dialog)
    dialog.typed.setText("16.11.2026")
    dialog._take()
    assert dialog.told.text() == "That night is still to come."


def test_a_night_kept_in_a_year_still_to_come_is_in_the_ribbon(qtbot, opened, write):
    write(date(2027, 1, 1), "memory", "in Auckland")
    frame = opened(StoppedClock(datetime(2026, 12, 31, 21, 0, tzinfo=ZoneInfo("Pacific/Honolulu")), "Pacific/Honolulu"))
    frame.go("night", frame.desk.shifted(frame.night, 1))
    assert (frame.night, frame.ribbon.year) == (date(2027, 1, 1), 2027)


def test_after_flying_back_over_the_date_line_an_open_window_goes_to_the_night_lived(qtbot, opened, write, quiet, kept):
    frame = opened(StoppedClock(datetime(2026, 11, 15, 21, 0, tzinfo=ZoneInfo("Pacific/Auckland")), "Pacific/Auckland"))
    page = frame.pages["night"]
    qtbot.keyClicks(page.fields["gratitude"], "in Auckland")
    at(frame, 2026, 11, 14, 22, 0, zone="Pacific/Honolulu")
    qtbot.waitUntil(lambda: page.night == LAST)
    assert kept(NEW) == {"gratitude": "in Auckland"}
    assert frame.said.text() == "Here it is Saturday 14 November 2026 again."
    assert page.after.isEnabled()

"""A night behind another page: not asked for at each change, and as it is kept once it is seen again."""

from datetime import date

import pytest

from keeper.actions import reading
from keeper.model import Tracker
from keeper.store import trackers

NIGHT = date(2026, 5, 3)


@pytest.fixture
def asked(frame, monkeypatch):
    """The nights that were asked for by the page of a night."""
    found, right = [], reading.night_page

    def night_page(store, night, *more):
        found.append(night)
        return right(store, night, *more)

    monkeypatch.setattr(reading, "night_page", night_page)
    return found


def test_a_change_does_not_ask_for_it_till_it_is_seen(frame, page, write, asked):
    frame.go("night", NIGHT)
    frame.go("sheet", NIGHT)
    asked.clear()
    for words in ("Fog at the pier.", "The fog went."):
        write(NIGHT, "memory", words)
        frame.desk.changed.emit()
    assert asked == [] and page.fields["memory"].words() == ""
    frame.go("night", NIGHT)
    assert asked == [NIGHT] and page.fields["memory"].words() == "The fog went."


def test_what_was_written_elsewhere_meanwhile_is_not_written_over(qtbot, frame, page, store, write):
    frame.go("night", NIGHT)
    qtbot.keyClicks(page.fields["memory"], "By the night.")
    frame.go("sheet", NIGHT)
    assert frame.desk.writer.finish()
    write(NIGHT, "memory", "By the sheet.")
    frame.desk.changed.emit()
    frame.go("night", NIGHT)
    frame.go("month", NIGHT)
    assert frame.keep_all()
    assert [line.text for line in reading.one_night(store, NIGHT).lines] == ["By the sheet."]


def test_its_readings_come_with_it(qtbot, frame, page, store):
    qtbot.waitUntil(lambda: page.readings is not None)
    frame.go("night", NIGHT)
    frame.go("sheet", NIGHT)
    trackers.add(store, Tracker("mood", "mood", "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1)))
    frame.desk.changed.emit()
    assert page.readings.strips == []
    frame.go("night", NIGHT)
    assert [strip.tracker_id for strip in page.readings.strips] == ["mood"]

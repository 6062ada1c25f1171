"""Noting what was typed, and taking it back."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.readings import noting, wording
from keeper.actions.readings import trackers as readings
from keeper.clock import StoppedClock
from keeper.errors import UnknownThing, UnreadableReading
from keeper.model import Act, Place, Reading, Tracker
from keeper.store import Store, nights, trackers
from keeper.store.places import named as places

NIGHT = date(2026, 6, 3)
BEGAN = date(2026, 1, 1)
THERE = (
    Tracker("m", "mood", "scale", 0.0, 10.0, "", "higher", BEGAN),
    Tracker("s", "sleep", "hours", None, None, "h", "higher", BEGAN),
    Tracker("c", "coffee", "count", None, None, "cups", "neither", BEGAN),
    Tracker("w", "waking", "amount", None, None, "\u00b0C", "neither", BEGAN),
    Tracker("t", "tea", "mark", None, None, "", "neither", BEGAN),
    Tracker("old", "walked", "amount", None, None, "km", "neither", BEGAN, date(2026, 5, 31)),
    Tracker("new", "swam", "mark", None, None, "", "neither", date(2026, 6, 4)),
)


@pytest.fixture
def noting_store(store):
    for one in THERE:
        trackers.add(store, one)
    return store


def told(store, night: date = NIGHT) -> list[str]:
    return [wording.told(one.tracker, one.reading) for one in readings.of_night(store, night)]


def test_a_night_is_noted_as_it_is_typed_and_told(noting_store, clock):
    typed = {"m": "7", "s": "23:30-6:45", "c": "0", "w": "97.9 F", "t": "no"}
    for tracker_id, text in typed.items():
        noting.note(noting_store, NIGHT, tracker_id, text, clock)
    assert told(noting_store) == [
        "mood 7", "sleep 7:15, 23:30 to 06:45", "coffee 0 cups", "waking 36.61 \u00b0C (noted as 97.9 \u00b0F)", "tea no",
    ]  # fmt: skip
    assert told(noting_store, date(2026, 6, 2)) == [f"{name}, not noted" for name in ("mood", "sleep", "coffee", "waking", "tea")]


def test_only_what_is_in_force_is_offered_and_noted(noting_store, clock):
    assert [one.id for one in readings.in_force(noting_store, NIGHT)] == ["m", "s", "c", "w", "t"]
    assert [one.id for one in readings.in_force(noting_store, date(2026, 5, 31))] == ["m", "s", "c", "w", "t", "old"]
    assert [one.id for one in readings.in_force(noting_store, date(2026, 6, 4))] == ["m", "s", "c", "w", "t", "new"]
    for tracker_id, sentence in (("old", "ended on 31 May 2026"), ("new", "began on 4 June 2026"), ("x", "no longer")):
        with pytest.raises(UnknownThing, match=sentence):
            noting.note(noting_store, NIGHT, tracker_id, "1", clock)
    assert trackers.readings(noting_store, BEGAN, NIGHT) == ()


def test_what_was_noted_before_an_end_was_set_can_be_mended(noting_store, clock):
    trackers.note(noting_store, [Reading(NIGHT, "old", 4.0)])
    assert noting.note(noting_store, NIGHT, "old", "5", clock).value == 5.0
    noting.take_back(noting_store, NIGHT, "old")
    with pytest.raises(UnknownThing):
        noting.note(noting_store, NIGHT, "old", "5", clock)


def test_all_of_it_is_noted_or_nothing(noting_store, clock):
    noting.note(noting_store, NIGHT, "t", "yes", clock)
    with pytest.raises(UnreadableReading, match="coffee"):
        noting.note_all(noting_store, {"m": "7", "c": "many", "t": ""}, NIGHT, clock)
    assert told(noting_store) == ["mood, not noted", "sleep, not noted", "coffee, not noted", "waking, not noted", "tea yes"]
    noting.note_all(noting_store, {"m": "7", "c": "2", "t": "-"}, NIGHT, clock)
    assert told(noting_store) == ["mood 7", "sleep, not noted", "coffee 2 cups", "waking, not noted", "tea, not noted"]


def test_what_is_taken_back_is_not_noted_and_can_be_had_again(noting_store, clock):
    noting.note(noting_store, NIGHT, "s", "23:30-6:45", clock)
    noting.take_back(noting_store, NIGHT, "s")
    assert told(noting_store)[1] == "sleep, not noted"
    undoing.undo(noting_store)
    assert told(noting_store)[:2] == ["mood, not noted", "sleep 7:15, 23:30 to 06:45"]
    with pytest.raises(UnknownThing):
        noting.take_back(noting_store, NIGHT, "x")


def test_each_act_is_told_with_its_night(noting_store, clock, monkeypatch):
    acts, real = [], Store.writing
    monkeypatch.setattr(Store, "writing", lambda self, act=None: (acts.append(act), real(self, act))[1])
    noting.note(noting_store, NIGHT, "m", "7", clock)
    noting.take_back(noting_store, NIGHT, "m")
    noting.note_all(noting_store, {"m": "7", "t": "yes"}, NIGHT, clock)
    noting.note_all(noting_store, {"m": "7", "s": "7", "c": "2", "t": "yes"}, NIGHT, clock)
    said = [act for act in acts if act]
    night = "for the night of 3 June 2026"
    assert [act.told for act in said] == [
        f"mood 7 {night}", f"mood, not noted {night}", f"mood 7, tea yes {night}", f"4 readings {night}",
    ]  # fmt: skip
    assert [act.thing for act in said] == ["m", "m", "", ""]
    assert {act.night for act in said} == {NIGHT} and all(isinstance(act, Act) for act in said)


def test_hours_pass_in_the_zone_of_the_nights_place(noting_store):
    # The clocks went on in Europe, and did not where the computer is.
    elsewhere = StoppedClock(datetime(2026, 4, 9, 12, tzinfo=ZoneInfo("Asia/Tokyo")), "Asia/Tokyo")
    night = date(2026, 3, 28)
    assert noting.note(noting_store, night, "s", "23:30-6:45", elsewhere).value == 7.25
    evening = datetime(2026, 3, 28, 22, tzinfo=ZoneInfo("Europe/Copenhagen"))
    writing.write_line(noting_store, night, "memory", "Oak and brass.", StoppedClock(evening, "Europe/Copenhagen"))
    assert noting.note(noting_store, night, "s", "23:30-6:45", elsewhere).value == 6.25
    place = places.add(noting_store, Place("", "Halifax", zone="America/Halifax"))
    nights.set_place(noting_store, night, place.id, "said", "2026-03-28T20:00:00.000000Z")
    # There they had gone on three weeks before.
    assert noting.note(noting_store, night, "s", "23:30-6:45", elsewhere).value == 7.25


@given(st.dictionaries(st.sampled_from("msct"), st.sampled_from(["0", "1", "", "-", "not noted"]), max_size=4))
def test_not_noted_never_becomes_a_nought_or_a_no(noting_store, clock, typed):
    noting.note_all(noting_store, dict.fromkeys("msct", "-"), NIGHT, clock)
    noting.note_all(noting_store, typed, NIGHT, clock)
    shown = {one.tracker.id: one.reading for one in readings.of_night(noting_store, NIGHT)}
    for tracker_id in "msct":
        text = typed.get(tracker_id, "")
        assert shown[tracker_id] == (Reading(NIGHT, tracker_id, float(text)) if text in ("0", "1") else None)
    assert sum(", not noted" in one for one in told(noting_store)) == 5 - sum(text in ("0", "1") for text in typed.values())


def test_a_tracker_is_found_by_how_its_name_begins(noting_store):
    there = readings.every(noting_store)
    assert readings.named(there, "Mood").id == "m" and readings.named(there, "cof").id == "c"
    for name, sentence in (("s", "sleep or swam"), ("x", "There are: mood"), ("", "There is no reading")):
        with pytest.raises(UnknownThing, match=sentence):
            readings.named(there, name)

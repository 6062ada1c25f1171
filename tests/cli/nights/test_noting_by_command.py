"""Readings on the command line."""

import io
import sys
from datetime import date

import pytest

from keeper.actions.readings import changing
from keeper.actions.readings import trackers as readings
from keeper.cautions import OF_THE_BODY
from keeper.cli.command import DONE, MISUSED, WRONG
from keeper.model import Tracker
from keeper.store import trackers

pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def columns() -> int:
    return 200


@pytest.fixture
def some(store):
    for name, form, unit in (("mood", "scale", ""), ("sleep", "hours", ""), ("tea", "mark", ""), ("back ache", "mark", ""), ("coffee", "count", "cups")):
        changing.begin(store, Tracker("", name, form, None, None, unit, "neither", date(2026, 1, 1)))
    return store


def noted(store, night: date = date(2026, 11, 14)) -> dict[str, float]:
    return {one.tracker.name: one.reading.value for one in readings.of_night(store, night) if one.reading}


def test_several_are_noted_in_one_call_and_told(run, some):
    told = "Saturday 14 November 2026: mood 7, sleep 7:30, tea yes, back ache no, coffee 2 cups.\n"
    assert run("note", "mood 7", "sleep 7:30", "tea", "back ache no", "coffee: 2") == (DONE, told, "")
    assert noted(some) == {"mood": 7.0, "sleep": 7.5, "tea": 1.0, "back ache": 0.0, "coffee": 2.0}


def test_names_and_values_may_be_words_of_their_own(run, some):
    assert run("note", "mood", "7", "slee", "23:30-6:45", "--night", "2026-11-10")[0] == DONE
    assert noted(some, date(2026, 11, 10)) == {"mood": 7.0, "sleep": 7.25} and noted(some) == {}


def test_they_come_by_the_pipe_too(run, some, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"mood 7,0\n\nback ache=yes\n"), "utf-8"))
    assert run("note")[0] == DONE
    assert noted(some) == {"mood": 7.0, "back ache": 1.0}


def test_a_hyphen_takes_back_and_a_mistake_notes_nothing(run, some):
    run("note", "mood 7", "tea no")
    assert run("note", "mood -")[1] == "Saturday 14 November 2026: mood, not noted.\n"
    assert noted(some) == {"tea": 0.0}
    for said, sentence in ((["tea yes", "mood 11"], "from 0 to 10"), (["tea yes", "swam 1"], "no reading"), (["tea yes", "mood"], "What is to be noted")):
        status, told, complained = run("note", *said)
        assert (status, told) == (WRONG, "") and sentence in complained
    assert noted(some) == {"tea": 0.0}


def test_show_tells_what_was_noted_and_what_was_not(run, some):
    assert "Readings" not in run("show")[1]
    run("note", "mood 0", "tea no")
    told = run("show")[1]
    assert "Readings    mood 0, tea no\n" in told and "Not noted   sleep, back ache, coffee\n" in told
    assert "Nothing is kept" not in told


def test_a_new_keeper_begins_mood_when_it_is_first_noted_and_cautions_once(run, folder, monkeypatch):
    status, told, aside = run("note", "mood 7")
    assert status == DONE and told == "Saturday 14 November 2026: mood 7. Begun with this night: mood.\n"
    assert " ".join(aside.split()) == OF_THE_BODY
    assert run("note", "sleep 7")[2] == ""
    assert OF_THE_BODY[:40] in " ".join(run("note", "--help")[1].split())


def test_what_has_ended_is_not_noted_any_more(run, some):
    tea = next(one for one in readings.every(some) if one.name == "tea")
    run("note", "tea yes", "--night", "2026-11-01")
    assert run("readings", "--end", "tea")[1] == "tea ends with 13 November 2026. What was noted of it, on 1 night, is kept.\n"
    assert "not among the readings of this night" in run("note", "tea yes")[2]
    assert trackers.by_id(some, tea.id).ended == date(2026, 11, 13) and noted(some) == {}


def test_one_of_ones_own_is_begun_and_all_are_listed(run, some):
    status, told, _ = run("readings", "--begin", "Waking", "--as", "amount", "--unit", "C", "--body", "--guest")
    assert status == DONE and told == "Waking, in \u00b0C, letter W, is asked for from 2026-11-14 to 2026-12-13.\n"
    rows = [row.split("\t") for row in run("readings")[1].splitlines()]
    assert rows[0] == ["mood", "scale", "", "", "2026-01-01", ""] and rows[-1] == ["Waking", "amount", "\u00b0C", "w", "2026-11-14", "2026-12-13"]
    assert "97.9" in run("note", "waking 97.9 F")[1]


def test_an_empty_list_and_two_things_at_once_are_told(run, store):
    status, told, aside = run("readings")
    assert (status, told) == (WRONG, "") and "keeper note" in aside
    assert run("readings", "--begin", "a", "--end", "b")[0] == MISUSED
    assert "no reading" in run("readings", "--end", "b")[2] and run("note", "  ")[0] == WRONG

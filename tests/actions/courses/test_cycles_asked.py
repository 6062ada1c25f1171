"""Cycles under one another, and where the person says that a second phase begins."""

from dataclasses import replace

import pytest
from noted.courses_noted import ACT, FIRST, night, with_cycles

from keeper.actions.courses import cycles
from keeper.actions.history import lately, undoing
from keeper.actions.readings import changing
from keeper.errors import UnreadableReading
from keeper.review.courses.cycles import PERSON, RULE, day_told, middle_told
from keeper.store import trackers

MARK, MOOD, SECOND = "reading:begun", "reading:mood", night(28)


def rises(store) -> list[tuple]:
    return [(one.rise, one.said) for one in cycles.cycles_of(store, MARK, MOOD).cycles]


def test_whole_cycles_lie_under_one_another_newest_first(store):
    with_cycles(store)
    told = cycles.cycles_of(store, MARK, MOOD)
    assert [(one.begins, len(one.values)) for one in told.cycles] == [(night(54), 30), (SECOND, 26), (FIRST, 28)]
    assert told.sentences[0] == "3 whole cycles of “begun”: 28 nights long in the middle, from 26 to 30."
    # The cycle under way, of five nights, is left out.
    assert (told.days[0].middle, told.days[0].nights, told.days[29].nights) == (1, 3, 1)
    assert told.by_day.rows[9] == ("10", "2", "2", "2", "3")
    assert middle_told(told, 10) == "day 10: mood 2 in the middle, half between 2 and 2, 3 cycles"
    assert day_told(told, 1, 2) == "day 2, Fri 30 Jan 2026: mood 1, second phase from day 15"


def test_the_rule_marks_the_rise_and_the_person_moves_or_removes_it(store):
    with_cycles(store)
    assert rises(store) == [(15, RULE)] * 3
    cycles.say_rise(store, "begun", SECOND, 17)
    cycles.say_no_rise(store, "begun", FIRST)
    assert rises(store) == [(15, RULE), (17, PERSON), (None, PERSON)]
    told = cycles.cycles_of(store, MARK, MOOD)
    assert told.sentences[1] == (
        "A sustained rise of temperature is marked in 2 of 3, 1 of them where you say. You removed it from 1 cycle."
    )
    assert told.by_cycle.rows[1] == ("29 Jan 2026", "26", "17", "you")
    cycles.leave_to_rule(store, "begun", SECOND)
    assert rises(store) == [(15, RULE), (15, RULE), (None, PERSON)]


def test_what_is_said_of_a_phase_is_an_act_that_is_undone_and_done_again(store):
    with_cycles(store)
    cycles.say_rise(store, "begun", SECOND, 17)
    cycles.say_no_rise(store, "begun", SECOND)
    assert lately.latest(store, "")[0].act.told == "No second phase in the cycle from 29 January 2026"
    undoing.undo(store)
    assert rises(store)[1] == (17, PERSON)
    undoing.undo(store)
    assert rises(store)[1] == (15, RULE)
    undoing.redo(store)
    assert rises(store)[1] == (17, PERSON)


def test_a_second_phase_does_not_begin_with_the_cycle(store):
    with_cycles(store)
    with pytest.raises(UnreadableReading, match="second day"):
        cycles.say_rise(store, "begun", SECOND, 1)


def test_without_a_temperature_there_are_no_phases(store):
    with_cycles(store)
    warm = trackers.by_id(store, "temperature")
    # The temperature of the sea is none of the body.
    trackers.change(store, replace(warm, body=False), ACT)
    told = cycles.cycles_of(store, MARK, MOOD)
    assert told.temperature is None and len(told.sentences) == 1 and rises(store) == [(None, "")] * 3


def test_one_whole_cycle_is_not_enough(store):
    with_cycles(store, lengths=(28,))
    told = cycles.cycles_of(store, MARK, MOOD)
    assert told.cycles == () and told.sentences == ("Nothing can be said yet: it takes 2 whole cycles of “begun”, and there is 1.",)


def test_a_phase_that_was_moved_stays_though_the_mark_ended_and_was_taken_up_again(store):
    with_cycles(store)
    cycles.say_rise(store, "begun", SECOND, 17)
    trackers.change(store, replace(trackers.by_id(store, "begun"), ended=night(90)), ACT)
    again = changing.take_up(store, "begun", night(100))
    assert rises(store) == [(15, RULE), (17, PERSON), (15, RULE)]
    cycles.say_rise(store, again.id, SECOND, 19)
    assert rises(store)[1] == (19, PERSON)
    cycles.leave_to_rule(store, again.id, SECOND)
    assert rises(store)[1] == (15, RULE)

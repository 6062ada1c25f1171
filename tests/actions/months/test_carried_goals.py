"""A goal that is carried on is known by where it came from, never by its words."""

import tempfile
from datetime import date
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as some

from keeper.actions.months import shown as months
from keeper.actions.months.goals import OUTCOMES
from keeper.store import create_store, month_pages

OCTOBER, NOVEMBER = date(2026, 10, 1), date(2026, 11, 1)


def texts(store, month: date) -> list[str]:
    return [goal.text for goal in month_pages.one(store, month).goals]


def test_taking_back_what_was_carried_on_leaves_the_goal_that_was_set_there(store):
    ours = months.add_goal(store, OCTOBER, "Swim")
    own = months.add_goal(store, NOVEMBER, "Swim")
    months.close_goal(store, OCTOBER, ours.id, "carried on")
    assert texts(store, NOVEMBER) == ["Swim", "Swim"]
    months.close_goal(store, OCTOBER, ours.id, "done")
    assert [goal.id for goal in month_pages.one(store, NOVEMBER).goals] == [own.id]


def test_two_of_the_same_words_are_carried_on_each_for_itself(store):
    one, other = (months.add_goal(store, OCTOBER, "Swim") for _ in range(2))
    for goal in (one, other):
        months.close_goal(store, OCTOBER, goal.id, "carried on")
    months.close_goal(store, OCTOBER, one.id, "let go")
    assert [goal.carried_from for goal in month_pages.one(store, NOVEMBER).goals] == [other.id]


def test_one_that_was_taken_out_there_does_not_come_back_with_a_word_about_it(store):
    goal = months.add_goal(store, OCTOBER, "Swim")
    months.close_goal(store, OCTOBER, goal.id, "carried on")
    months.take_out_goal(store, NOVEMBER, month_pages.one(store, NOVEMBER).goals[0].id)
    months.close_goal(store, OCTOBER, goal.id, "carried on", "half")
    assert texts(store, NOVEMBER) == []


STEPS = some.lists(
    some.tuples(some.sampled_from(["october", "october's other", "november", "carried"]),
                some.sampled_from(OUTCOMES), some.sampled_from(["", "a word"])),
    max_size=12,
)  # fmt: skip


@given(STEPS)
def test_whatever_becomes_of_them_no_goal_that_was_set_is_lost(steps):
    with tempfile.TemporaryDirectory() as folder, create_store(Path(folder) / "keeper") as store:
        own = {
            "october": (OCTOBER, months.add_goal(store, OCTOBER, "Swim").id),
            "october's other": (OCTOBER, months.add_goal(store, OCTOBER, "Swim").id),
            "november": (NOVEMBER, months.add_goal(store, NOVEMBER, "Swim").id),
        }
        for whose, outcome, word in steps:
            carried = [one for one in month_pages.one(store, NOVEMBER).goals if one.carried_from]
            month, goal_id = own.get(whose) or (NOVEMBER, carried[0].id if carried else "")
            if goal_id:
                months.close_goal(store, month, goal_id, outcome, word)
            there = {month: {one.id: one for one in month_pages.one(store, month).goals} for month in (OCTOBER, NOVEMBER)}
            assert all(goal_id in there[month] for month, goal_id in own.values())
            came = [one.carried_from for one in there[NOVEMBER].values() if one.carried_from]
            assert len(came) == len(set(came)) and set(came) <= there[OCTOBER].keys()
            assert all(one.id in came for one in there[OCTOBER].values() if one.outcome == "carried on")

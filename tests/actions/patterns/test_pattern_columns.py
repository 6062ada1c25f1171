"""What can take part in patterns, and its columns: a value a night, None where nothing was noted."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from keeper.actions import people, writing
from keeper.actions.patterns import asking
from keeper.actions.patterns.columns import candidates, columns, named
from keeper.actions.readings import changing
from keeper.errors import UnknownThing
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers
from keeper.store.patterns import decided
from keeper.store.places import named as places

NIGHT = date(2026, 3, 1)
ACT = Act("Readings", "night")


def night(day: int) -> date:
    return NIGHT + timedelta(days=day)


def begin(store, name: str, form: str, began: date = NIGHT, **more) -> None:
    trackers.add(store, Tracker(name, name, form, more.get("low"), more.get("high"), more.get("unit", ""), "neither", began), ACT)


def note(store, name: str, **values: float) -> None:
    trackers.note(store, [Reading(night(int(day[1:])), name, value) for day, value in values.items()], ACT)


def column(store, key: str):
    """The column of one candidate: its first night, and its values."""
    found = columns(store, [one for one in candidates(store) if one.key == key])
    return (found.first - NIGHT).days, found.values.get(key)


def test_a_reading_is_none_where_it_was_not_noted(store):
    begin(store, "mood", "scale", low=0.0, high=10.0)
    note(store, "mood", d2=7, d5=3)
    assert column(store, "reading:mood") == (2, (7.0, None, None, 3.0))


def test_a_mark_left_empty_is_a_no_on_a_night_that_was_kept(store, clock):
    begin(store, "mood", "scale", low=0.0, high=10.0)
    begin(store, "tea", "mark", night(2))
    note(store, "mood", d1=5, d4=6)
    note(store, "tea", d3=1, d6=1)
    writing.write_line(store, night(5), "memory", "Fog.", clock)
    # d1: before it began; d2 nothing kept; d4 another reading; d5 a line.
    assert column(store, "reading:tea") == (3, (1.0, 0.0, 0.0, 1.0))


def test_a_mark_of_which_nothing_was_ever_noted_has_no_column(store, clock):
    begin(store, "tea", "mark")
    writing.write_line(store, night(5), "memory", "Fog.", clock)
    assert column(store, "reading:tea") == ((date.min - NIGHT).days, None)


def test_what_was_noted_on_another_scale_or_in_another_unit_stands_on_those_of_now(store):
    begin(store, "walked", "amount", unit="km")
    note(store, "walked", d0=10)
    trackers.note(store, [Reading(night(1), "walked", 10.0, unit="mi")], ACT)
    assert column(store, "reading:walked") == (0, (10.0, pytest.approx(16.09344)))


def test_columns_have_the_same_nights(store):
    begin(store, "mood", "scale", low=0.0, high=10.0)
    begin(store, "tea", "count")
    note(store, "mood", d2=7, d3=3)
    note(store, "tea", d0=2, d1=0)
    found = columns(store, candidates(store))
    assert found.first == NIGHT and not found.marks
    assert found.values == {"reading:mood": (None, None, 7.0, 3.0), "reading:tea": (2.0, 0.0, None, None)}


def test_a_change_of_place_is_known_where_both_nights_are(store, clock):
    for day, name in ((0, "Riga"), (1, "Riga"), (2, "Turku"), (5, "Turku"), (6, "Turku")):
        writing.set_place(store, night(day), name, clock)
    assert column(store, "move") == (1, (0.0, 1.0, None, None, None, 0.0))


def test_nights_on_the_way(store, clock):
    for day, name in ((0, "Riga"), (1, "the ferry"), (3, "Turku")):
        writing.set_place(store, night(day), name, clock)
    assert column(store, "travel")[1] is None
    ferry = places.named(store, "the ferry")
    with store.writing(ACT):
        places.change(store, type(ferry)(**{**ferry.__dict__, "on_the_way": True}))
    assert column(store, "travel") == (0, (0.0, 1.0, None, 0.0))


def test_people_are_yes_where_a_line_names_them_and_no_on_other_nights_with_lines(store, clock):
    for day, text in ((0, "Ilze laughed."), (1, "Fog."), (3, "Coffee with Ilze and Maren.")):
        writing.write_line(store, night(day), "memory", text, clock)
    ilze = people.add(store, "Ilze, Ilzīte")
    assert column(store, f"person:{ilze.id}") == (0, (1.0, 0.0, None, 1.0))
    assert named(candidates(store), "ilze").key == f"person:{ilze.id}"


def test_who_rests_is_not_offered(store, clock):
    writing.write_line(store, night(0), "memory", "Ilze laughed.", clock)
    ilze = people.add(store, "Ilze")
    people.rest(store, ilze.id)
    assert [one.kind for one in candidates(store)] == ["move", "travel", "weekday", "season"]


def test_a_theme_is_yes_where_it_came_up_and_no_on_other_nights_with_lines(store, clock):
    lines = [writing.write_line(store, night(day), "memory", "Fog over the harbour.", clock) for day in (0, 1, 4)]
    with store.writing() as connection:
        connection.execute("INSERT INTO theme (number, id, name, begun_at) VALUES (7, 'seven', 'harbour, fog', '')")
        connection.executemany("INSERT INTO theme_line (line_id, theme, closeness) VALUES (?, 7, 1.0)", [(line.id,) for line in lines[::2]])
    assert named(candidates(store), "harbour").key == "theme:7"
    assert column(store, "theme:7") == (0, (1.0, 0.0, None, None, 1.0))


def test_a_name_must_mean_one_thing(store):
    begin(store, "mood", "scale", low=0.0, high=10.0)
    begin(store, "moonlight", "mark")
    known = candidates(store)
    assert named(known, "MOOD").name == "mood" and named(known, "moon").name == "moonlight"
    for typed in ("moo", "nothing", ""):
        with pytest.raises(UnknownThing):
            named(known, typed)


def test_one_that_ended_and_was_taken_up_again_is_one_candidate_and_keeps_its_key(store):
    begin(store, "mood", "scale", low=0.0, high=10.0)
    begin(store, "tea", "mark")
    note(store, "mood", **{f"d{day}": 5 for day in range(10)})
    note(store, "tea", d1=1, d3=1)
    retired = trackers.by_id(store, "tea")
    trackers.change(store, replace(retired, ended=night(3)), ACT)
    again = changing.take_up(store, "tea", night(6))
    note(store, again.id, d7=1)
    (tea,) = [one for one in candidates(store) if one.name == "tea"]
    assert (tea.key, tea.tracker.id, [one.id for one in tea.former]) == ("reading:tea", again.id, ["tea"])
    # What lies between the end and the beginning is nothing, not a no.
    assert column(store, "reading:tea") == (0, (0.0, 1.0, 0.0, 1.0, None, None, 0.0, 1.0, 0.0, 0.0))


def test_one_of_the_same_name_in_another_unit_or_form_is_another(store):
    begin(store, "walked", "amount", unit="km")
    trackers.change(store, replace(trackers.by_id(store, "walked"), ended=night(3)), ACT)
    for form, unit, ends in (("amount", "hours", {}), ("count", "", {}), ("scale", "", {"low": 0.0, "high": 5.0})):
        trackers.add(store, Tracker("", "walked", form, ends.get("low"), ends.get("high"), unit, "neither", night(9)), ACT)
    assert len([one for one in candidates(store) if one.name == "walked"]) == 4


def test_what_was_picked_under_the_later_tracker_still_takes_part(store):
    begin(store, "tea", "mark")
    trackers.change(store, replace(trackers.by_id(store, "tea"), ended=night(3)), ACT)
    note(store, "tea", d1=1)
    again = changing.take_up(store, "tea", night(6))
    decided.pick(store, [f"reading:{again.id}"], ACT)
    assert [one.key for one in asking.taking_part(store)] == ["reading:tea"]

"""The sheet: cells kept one by one or many as one act, places carried on, and lines that say they came from paper."""

from datetime import UTC, date, datetime, timedelta

import pytest

from keeper.actions import reading, writing
from keeper.actions.history import lately, undoing
from keeper.actions.sheet import columns
from keeper.actions.sheet.asking import sheet_of
from keeper.actions.sheet.filling import Typed, fill_in, fill_many
from keeper.clock import StoppedClock
from keeper.errors import UnreadableDate, UnreadableReading
from keeper.model import Tracker
from keeper.store import lines, nights, trackers

FIRST, LAST, TONIGHT = date(2026, 9, 1), date(2026, 9, 30), date(2026, 11, 14)
MEMORY, PLACE, MOOD = "line:memory", "place", "reading:mood"


@pytest.fixture
def fill(store, clock):
    trackers.add(store, Tracker("mood", "mood", "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1)))
    return lambda day, key, text: fill_in(store, (FIRST.replace(day=day), key), Typed(text), clock, TONIGHT)


def where(store, first=FIRST, last=LAST):
    names = {one.id: one.name for one in reading.known_places(store)}
    return {night.day: (names.get(place_id), source) for night, place_id, source in nights.where_between(store, first, last)}


def test_a_cell_of_each_sort_is_kept_and_taken_back(store, fill):
    for key, text in ((MEMORY, "The Bechstein at the school."), (PLACE, "Hammelnby"), (MOOD, "7")):
        fill(3, key, text)
    sheet = sheet_of(store, FIRST, LAST)
    night = FIRST.replace(day=3)
    assert sheet.kept == {(night, MEMORY): "The Bechstein at the school.", (night, PLACE): "Hammelnby", (night, MOOD): "7"}
    for key in (MEMORY, PLACE, MOOD):
        fill(3, key, "")
    assert sheet_of(store, FIRST, LAST).kept == {}


def test_a_place_left_empty_is_the_same_until_the_next(store, fill):
    for day in (1, 2, 3, 6, 9):
        fill(day, MEMORY, f"Night {day}.")
    fill(1, PLACE, "Hammelnby")
    fill(6, PLACE, "Oststrand")
    same = {1: ("Hammelnby", "said"), 2: ("Hammelnby", "carried"), 3: ("Hammelnby", "carried"),
            6: ("Oststrand", "said"), 9: ("Oststrand", "carried")}  # fmt: skip
    assert where(store) == same
    fill(1, PLACE, "Uferdorf")
    assert where(store) == same | {day: ("Uferdorf", source) for day, source in ((1, "said"), (2, "carried"), (3, "carried"))}
    fill(6, PLACE, "")
    assert [one for one, _ in where(store).values()] == ["Uferdorf"] * 5
    carried = sheet_of(store, FIRST, LAST).carried
    # Nights of which nothing is kept show it too, as far as a place is carried on.
    assert carried[FIRST.replace(day=4)] == "Uferdorf" and FIRST.replace(day=24) not in carried


def test_many_cells_are_one_act_and_what_is_wrong_is_told_of_each(store, fill, clock):
    cells = {(FIRST + timedelta(days=n), MOOD): Typed(str(n)) for n in range(12)}
    refused = fill_many(store, cells, clock, TONIGHT, "Pasted")
    assert list(refused) == [(date(2026, 9, 12), MOOD)] and "0 to 10" in refused[date(2026, 9, 12), MOOD]
    assert len(trackers.readings(store, FIRST, LAST)) == 11
    (act,) = lately.latest(store, "pasted")
    assert act.act.told == "Pasted: 12 cells for the nights of 1 to 12 Sep 2026"
    undoing.turn(store, act.number)
    assert trackers.readings(store, FIRST, LAST) == ()


def test_a_column_of_places_is_carried_on_under_lines_of_the_same_paste(store, clock):
    cells = {(FIRST, PLACE): Typed("Hammelnby"), (FIRST.replace(day=4), PLACE): Typed("Oststrand")}
    cells |= {(FIRST.replace(day=n), MEMORY): Typed(f"Night {n}.") for n in range(1, 6)}
    assert fill_many(store, cells, clock, TONIGHT) == {}
    assert [name for name, _ in where(store).values()] == ["Hammelnby"] * 3 + ["Oststrand"] * 2


def test_a_town_of_that_very_name_is_meant_and_a_village_of_ones_own_is_not(store, clock):
    fill_many(store, {(FIRST, PLACE): Typed("Lübeck"), (FIRST.replace(day=2), PLACE): Typed("Lerwick")}, clock, TONIGHT)
    told = {one.name: one.country for one in reading.known_places(store)}
    assert told == {"Lübeck": "DE", "Lerwick": ""}


def test_a_line_written_later_says_that_it_came_from_paper(store, fill, clock):
    fill(3, MEMORY, "As the notebook has it.")
    night = FIRST.replace(day=3)
    assert "memory" in lines.from_paper(store, night)
    (act,) = lately.latest(store, "paper")
    assert act.act.told == "Memory from paper for the night of 3 September 2026"
    assert datetime.now(UTC) - act.at < timedelta(minutes=5)
    later = StoppedClock(clock.at + timedelta(hours=1), clock.zone_name)
    writing.write_line(store, night, "memory", "Worded anew, on the night\u2019s page.", later)
    assert "memory" not in lines.from_paper(store, night)
    assert [(one.text, one.from_paper) for one in lines.wordings(store, night, "memory")] == [("As the notebook has it.", True)]
    undoing.turn(store, act.number + 1)
    assert "memory" in lines.from_paper(store, night)


def test_what_is_written_tonight_or_not_written_anew_is_not_from_paper(store, fill, clock):
    writing.write_line(store, FIRST, "memory", "Written then.", clock)
    fill(1, MEMORY, "Written then.")
    fill_in(store, (TONIGHT, MEMORY), Typed("Of tonight."), clock, TONIGHT)
    assert "memory" not in lines.from_paper(store, FIRST) and "memory" not in lines.from_paper(store, TONIGHT)


def test_columns_are_those_picked_in_their_order(store, fill):
    titles = [one.title for one in sheet_of(store, FIRST, LAST).columns]
    assert titles == ["Gratitude", "Memory", "Reflection", "Place", "mood"]
    picked = columns.picked({columns.SETTING: columns.as_setting(["reading:mood", "place", "line:memory", "reading:gone"])})
    assert [one.title for one in sheet_of(store, FIRST, LAST, picked).columns] == ["mood", "Place", "Memory"]


def test_a_reading_that_was_not_in_force_has_no_column(store, fill):
    assert "mood" not in [one.title for one in sheet_of(store, date(2025, 5, 1), date(2025, 5, 31), ("reading:mood",)).columns]


def test_a_span_that_makes_no_sheet_is_refused_with_the_reason(store):
    with pytest.raises(UnreadableDate, match="comes before"):
        sheet_of(store, LAST, FIRST)
    with pytest.raises(UnreadableDate, match="at most 731"):
        sheet_of(store, date(2020, 1, 1), LAST)


def test_what_cannot_be_read_changes_nothing(store, fill):
    fill(3, MOOD, "5")
    with pytest.raises(UnreadableReading):
        fill(3, MOOD, "eleven")
    assert sheet_of(store, FIRST, LAST).kept == {(FIRST.replace(day=3), MOOD): "5"}

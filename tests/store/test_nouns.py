"""Nights, places, month pages, trackers, resting and settings in the file."""

import sqlite3
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import whole

from keeper.model import Goal, Moment, MonthPage, Place, Reading, Tick, Tracker
from keeper.store import lines, month_pages, nights, resting, settings, trackers
from keeper.store.places import merges as place_merges
from keeper.store.places import named as places

NIGHT = date(2026, 11, 14)
NOW = "2026-11-14T20:00:00.000000Z"
MOMENT = Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 120, "Europe/Riga")
FORTNIGHT = timedelta(days=14)


def before(days: int) -> date:
    """Some nights before."""
    return NIGHT - timedelta(days=days)


def keep(store, night: date, *kinds: str) -> None:
    """Keep a line of each kind."""
    for kind in kinds:
        lines.keep(store, night, kind, f"A {kind} of {night}.", MOMENT)


def spend(store, night: date, name: str, source: str = "said") -> Place:
    """Spend a night at a place."""
    place = places.named(store, name) or places.add(store, Place("", name))
    nights.set_place(store, night, place.id, source, NOW)
    return place


def test_an_unknown_night_is_empty(store):
    night = nights.one(store, NIGHT)
    assert (night.date, night.lines, night.place, night.place_source, night.photo_count) == (NIGHT, (), None, "", 0)


def test_a_night_has_its_lines_and_place(store):
    keep(store, NIGHT, "memory", "gratitude")
    place = spend(store, NIGHT, "Riga")
    night = nights.one(store, NIGHT)
    assert [line.kind for line in night.lines] == ["gratitude", "memory"]
    assert (night.place, night.place_source) == (place, "said")
    assert night.line("memory").text == f"A memory of {NIGHT}."
    assert night.line("reflection") is None


def test_nights_come_in_the_order_asked_for(store):
    keep(store, NIGHT, "memory")
    wanted = [before(3), NIGHT, before(1)]
    assert [night.date for night in nights.some(store, wanted)] == wanted


def test_ticks_tell_how_much_each_night_holds(store):
    keep(store, NIGHT, "memory", "gratitude")
    place = spend(store, before(1), "Riga")
    assert nights.ticks(store, before(5), NIGHT) == (
        Tick(before(1), 0, 0, place.id, "Riga"),
        Tick(NIGHT, 2, 0, None, ""),
    )
    assert nights.ticks(store, before(5), before(2)) == ()


def test_a_place_can_be_taken_back(store):
    spend(store, NIGHT, "Riga")
    nights.set_place(store, NIGHT, None, "said", NOW)
    assert (nights.one(store, NIGHT).place, nights.one(store, NIGHT).place_source) == (None, "")


def test_a_place_is_carried_from_the_last_night_that_is_near_enough(store):
    riga = spend(store, before(14), "Riga")
    last = nights.last_before(store, NIGHT, FORTNIGHT)
    nights.carry_place(store, NIGHT, last.place_id, NOW)
    assert nights.last_before(store, NIGHT + timedelta(days=15), FORTNIGHT) is None
    assert (nights.one(store, NIGHT).place, nights.one(store, NIGHT).place_source) == (riga, "carried")
    assert nights.one(store, NIGHT + timedelta(days=15)).place is None
    assert nights.place_before(store, before(14), FORTNIGHT) is None


def test_carrying_never_changes_a_place_that_is_there(store):
    spend(store, before(1), "Riga")
    spend(store, NIGHT, "Visby")
    assert nights.last_before(store, NIGHT, FORTNIGHT) is None
    nights.carry_place(store, NIGHT, places.named(store, "Riga").id, NOW)
    assert (nights.one(store, NIGHT).place.name, nights.one(store, NIGHT).place_source) == ("Visby", "said")


def test_nights_on_days_leave_out_what_rests(store):
    for year in (2021, 2022, 2023, 2024, 2025):
        keep(store, date(year, 11, 14), "memory")
    keep(store, date(2025, 11, 14), "gratitude")
    resting.rest(store, "line", lines.one(store, date(2025, 11, 14), "memory").id)
    resting.rest(store, "line", lines.one(store, date(2024, 11, 14), "memory").id)
    resting.rest(store, "place", spend(store, date(2023, 11, 14), "Riga").id)
    resting.rest_span(store, date(2022, 11, 1), date(2022, 11, 14))
    found = nights.on_days(store, ["11-14"], NIGHT)
    assert found == (date(2025, 11, 14), date(2021, 11, 14))
    resting.wake_span(store, date(2022, 11, 1), date(2022, 11, 14))
    resting.wake(store, "place", places.named(store, "riga").id)
    assert [night.year for night in nights.on_days(store, ["11-14"], NIGHT)] == [2025, 2023, 2022, 2021]
    assert nights.on_days(store, ["11-13"], NIGHT) == ()


def test_nights_at_a_place_newest_first(store):
    for day in (1, 2, 9):
        keep(store, before(day), "memory")
        place = spend(store, before(day), "Riga")
    resting.rest(store, "line", lines.one(store, before(2), "memory").id)
    spend(store, before(4), "Riga")
    assert nights.at_place(store, place.id, NIGHT) == (before(1), before(9))
    assert nights.at_place(store, place.id, NIGHT, limit=1) == (before(1),)


def test_nights_with_lines(store):
    keep(store, before(3), "memory", "gratitude")
    spend(store, before(2), "Riga")
    assert nights.with_lines(store, before(9), NIGHT) == {before(3)}


def test_a_place_is_known_whatever_its_capitals_and_accents(store):
    place = places.add(store, Place("", "\u00d6rebro  By", "N\u00e4rke", "SE", 59.27, 15.21, "Europe/Stockholm", 2686657))
    for name in ("\u00d6rebro By", "orebro by", "O\u0308REBRO BY"):
        assert places.named(store, name) == place
    assert places.named(store, "\u00d6rebro") is None
    assert places.by_id(store, place.id) == place


def test_places_come_with_the_latest_night_first(store):
    for day, name in ((5, "Riga"), (1, "Visby"), (9, "Turku")):
        spend(store, before(day), name)
    places.add(store, Place("", "Never"))
    assert [place.name for place in places.every(store)] == ["Visby", "Riga", "Turku", "Never"]


def test_a_place_can_change_and_two_become_one(store):
    riga, rige = spend(store, NIGHT, "Riga"), spend(store, before(1), "Rige")
    resting.rest(store, "place", rige.id)
    place_merges.merge(store, rige.id, riga.id, NIGHT, {})
    places.change(store, Place(riga.id, "R\u012bga", country="LV", latitude=56.95, longitude=24.11))
    assert [place.name for place in places.every(store)] == ["R\u012bga"]
    assert nights.one(store, before(1)).place.latitude == 56.95
    assert whole(store)


@pytest.mark.parametrize("point", [(91.0, 0.0), (0.0, -181.0), (1.0, None)])
def test_no_place_lies_off_the_earth(store, point):
    with pytest.raises(sqlite3.IntegrityError):
        places.add(store, Place("", "Nowhere", latitude=point[0], longitude=point[1]))
    assert places.every(store) == ()


def test_a_month_without_a_page_is_empty(store):
    assert month_pages.one(store, NIGHT) == MonthPage(date(2026, 11, 1))


def test_a_month_page_comes_out_as_it_went_in(store):
    goals = (Goal("", "Swim each week", "set"), Goal("", "Write to Marta", "done", "twice"))
    month_pages.keep(store, MonthPage(date(2026, 11, 1), "What was new?", "A cold one.", None, goals))
    kept = month_pages.one(store, NIGHT)
    assert (kept.question, kept.words) == ("What was new?", "A cold one.")
    assert [(goal.text, goal.outcome, goal.word) for goal in kept.goals] == [
        ("Swim each week", "set", ""), ("Write to Marta", "done", "twice")]  # fmt: skip
    month_pages.keep(store, kept)
    assert month_pages.one(store, NIGHT) == kept


def test_asking_leaves_the_rest_of_the_page(store):
    month_pages.keep(store, MonthPage(date(2026, 11, 1), "Old?", "Words.", None, (Goal("", "Swim", "set"),)))
    month_pages.set_question(store, NIGHT, " New? ")
    kept = month_pages.one(store, NIGHT)
    assert (kept.question, kept.words, kept.goals[0].text) == ("New?", "Words.", "Swim")
    assert month_pages.one(store, date(2026, 12, 1)).question == ""


def test_trackers_and_readings(store):
    sleep = Tracker("", "sleep", "hours", 0, 24, "h", "higher", date(2026, 1, 1))
    ids = [trackers.add(store, sleep), trackers.add(store, Tracker("", "walked", "mark", None, None, "", "neither", NIGHT))]
    assert [(tracker.id, tracker.name) for tracker in trackers.every(store)] == [(ids[0], "sleep"), (ids[1], "walked")]
    trackers.note(store, [Reading(NIGHT, ids[0], 7.5), Reading(before(1), ids[0], 6.0)])
    trackers.note(store, [Reading(NIGHT, ids[0], 8.0), Reading(NIGHT, ids[1], 0.0)])
    read = trackers.readings(store, before(1), NIGHT)
    assert set(read) == {Reading(before(1), ids[0], 6.0), Reading(NIGHT, ids[0], 8.0), Reading(NIGHT, ids[1], 0.0)}
    assert trackers.readings(store, before(9), before(2)) == ()


def test_resting_twice_is_resting_once(store):
    keep(store, NIGHT, "memory")
    line = lines.one(store, NIGHT, "memory")
    for _ in range(2):
        resting.rest(store, "line", line.id)
    assert lines.one(store, NIGHT, "memory").resting
    resting.wake(store, "line", line.id)
    assert not lines.one(store, NIGHT, "memory").resting


@given(st.dictionaries(st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
                       st.text(st.characters(exclude_categories=["Cs"]), max_size=8), max_size=5))  # fmt: skip
def test_settings_come_out_as_they_went_in(store, changed):
    earlier = settings.read(store)
    settings.write(store, changed)
    assert settings.read(store) == {**earlier, **changed}

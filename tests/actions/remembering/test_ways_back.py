"""Ways beside the date, and that what came up lately waits its turn."""

from collections import Counter
from datetime import UTC, date, datetime, timedelta

import pytest

from keeper.actions import people, writing
from keeper.actions.history import undoing
from keeper.actions.opening import change_settings
from keeper.actions.readings import changing, noting
from keeper.actions.remembering import ways
from keeper.actions.remembering.bringing_up import looking_back
from keeper.model import Moment, Tracker
from keeper.review.remembering.ways import firsts_of_years, same_weekday
from keeper.store import lines
from keeper.store.file.opening import Store

TONIGHT = date(2026, 11, 14)


@pytest.fixture
def write(store, clock):
    return lambda night, text="A line.", kind="memory": writing.write_line(store, night, kind, text, clock)


def brought(store, night=TONIGHT, tonight=None):
    return {way.name: (way.told, way.night.date) for way in ways.ways(store, night, tonight or night, ()).found}


def mark(store, name, nights, clock):
    made = changing.begin(store, Tracker("", name, "mark", None, None, "", "neither", min(nights) - timedelta(400)))
    for night in nights:
        noting.note(store, night, made.id, "yes", clock)


def test_a_keeper_with_nothing_brings_nothing(store):
    assert ways.ways(store, TONIGHT, TONIGHT, ()) == ways.WaysBack(TONIGHT)


def test_this_weekday_and_week(store, write):
    # ISO 8601: 14 November 2026 is Saturday of week 46, as 15 November 2025 is, and 13 November 2021.
    write(date(2025, 11, 15))
    assert brought(store) == {"weekday": ("The Saturday of week 46", date(2025, 11, 15))}
    assert same_weekday(TONIGHT, 2024) == (date(2024, 11, 16), date(2025, 11, 15))
    # 2020 has a week 53, the years between have none.
    assert same_weekday(date(2026, 12, 31), 2019) == (date(2020, 12, 31),)


def test_this_place_but_not_the_stay_one_is_on(store, write, clock):
    for night in (date(2025, 3, 2), TONIGHT - timedelta(1)):
        write(night)
        writing.set_place(store, night, "Turku", clock)
    assert brought(store) == {"place": ("Turku, on 1 earlier night", date(2025, 3, 2))}


def test_the_person_named_last(store, write):
    people.add(store, "Aino, Aino Lahti")
    write(date(2025, 3, 2), "Aino lent me the key.")
    write(date(2025, 4, 2), "Somebody else.")
    assert brought(store) == {}
    write(TONIGHT - timedelta(2), "A card from Aino Lahti.")
    assert brought(store) == {"person": ("Aino, named on 1 earlier night", date(2025, 3, 2))}
    people.rest_by_name(store, "Aino")
    assert brought(store) == {}


def test_the_months_question_where_it_was_asked_before(store, write):
    writing.ask_question(store, date(2025, 4, 1), "What kept the weather out?")
    write(date(2025, 4, 9), "A hat.", "reflection")
    writing.ask_question(store, date(2025, 11, 1), "What was new?")
    write(date(2025, 11, 3), "The strings.", "reflection")
    assert brought(store)["question"] == ("The month\u2019s question: What was new?", date(2025, 11, 3))
    writing.ask_question(store, date(2026, 11, 1), "what kept the weather out?")
    assert brought(store)["question"] == ("The month\u2019s question: What kept the weather out?", date(2025, 4, 9))


def test_the_first_of_a_mark_each_year(store, write, clock):
    nights = [date(2024, 11, 17), date(2024, 11, 20), date(2025, 10, 1)]
    for night in nights:
        write(night)
    mark(store, "snow", nights, clock)
    assert brought(store)["first"] == ("The first \u201csnow\u201d of 2024", date(2024, 11, 17))
    # What began to be noted in the midst of it, and what only goes on over the new year, is no first.
    assert firsts_of_years([date(2024, 3, 2), date(2025, 1, 3)], date(2024, 3, 1)) == {2025: date(2025, 1, 3)}
    assert firsts_of_years([date(2024, 12, 2), date(2025, 1, 3)], date(2023, 3, 1)) == {2024: date(2024, 12, 2)}


def test_a_thing_done_over_and_over(store, write, clock):
    nights = [date(2025, month, 2) for month in range(1, 7)]
    for night in nights:
        write(night)
    mark(store, "swam", [*nights, TONIGHT], clock)
    told, night = brought(store)["thing"]
    assert told == "\u201cswam\u201d, on 7 nights" and night in nights


def test_what_rests_is_never_brought_up(store, write, clock):
    line = write(date(2025, 11, 15))
    writing.rest_line(store, line.id)
    change_settings(store, {"unseen": "once a week"})
    assert brought(store) == {}


def test_a_way_is_left_out_for_good_and_brought_in_again(store, write):
    write(date(2025, 11, 15))
    ways.leave_out(store, "weekday")
    assert brought(store) == {} and ways.ways(store, TONIGHT, TONIGHT, ()).left_out == ("weekday",)
    undoing.undo(store)
    assert "weekday" in brought(store)
    undoing.redo(store)
    ways.bring_in(store, "weekday")
    assert "weekday" in brought(store)


def test_once_a_week_a_line_not_seen_for_the_longest(store, write):
    for day in range(1, 4):
        write(date(2025, 3, day), f"Of {day}.")
    assert brought(store) == {}
    change_settings(store, {"unseen": "once a week"})
    seen = {}
    for days in range(22):
        evening = TONIGHT + timedelta(days)
        found = ways.ways(store, evening, evening, ())
        ways.note(store, [way.night.date for way in found.found], found, evening)
        assert ways.ways(store, evening, evening, ()) == found
        if found.found:
            seen[days] = found.found[0].night.date.day
    assert seen == {0: 1, 7: 2, 14: 3, 21: 1}


def test_having_seen_something_is_no_act_and_no_reason_for_a_backup(store, write):
    write(date(2025, 11, 15))
    before = store.row("SELECT max(number) FROM act")
    found = ways.ways(store, TONIGHT, TONIGHT, ())
    ways.note(store, [way.night.date for way in found.found], found, TONIGHT)
    assert store.row("SELECT max(number) FROM act") == before
    assert store.rows("SELECT * FROM brought_up") == [("2025-11-15", "2026-11-14", None)]


def filled(store: Store) -> list[date]:
    """Five years of nights with 5,000 lines, and a sixth with a line a week; at places in turn, some with a name."""
    first, with_lines = date(2020, 11, 15), 365 * 5 + 1
    nights = [first + timedelta(days) for days in range(with_lines + 365)]
    written = Moment(datetime(2026, 11, 13, 20, tzinfo=UTC), 120, "Europe/Riga")
    with store.unnoted() as connection:
        named = [(f"p{n}", f"Harbour {n}", "2020-11-14T20:00:00Z") for n in range(12)]
        connection.executemany("INSERT INTO place (id, name, begun_at) VALUES (?, ?, ?)", named)
        for place, night in enumerate(nights):
            there = (night.isoformat(), f"p{place // 9 % 12}", "said", "2020-11-14T20:00:00Z")
            connection.execute("INSERT INTO night (date, place_id, place_source, begun_at) VALUES (?, ?, ?, ?)", there)
            kinds = ("gratitude", "memory", "reflection")[: 3 if place % 4 else 2] if place < with_lines else ("memory",) * (place % 7 == 0)
            for kind in kinds:
                named = kind == "memory" and (place % 6 == 0 or place > with_lines)
                lines.keep(store, night, kind, f"{kind} of {place}{' with Aino' if named else ''}", written)
    return nights


def test_over_a_year_of_evenings_every_line_has_its_evening_and_what_came_lately_waits(store):
    nights = filled(store)
    people.add(store, "Aino")
    change_settings(store, {"unseen": "once a week"})
    eligible, evenings = nights[:-365], nights[-365:]
    assert sum(len(lines.of_night(store, night)) for night in eligible) >= 5_000
    last, times, gaps = {}, Counter(), {}
    for evening in evenings:
        on_the_date = [one.date for one in looking_back(store, evening).nights]
        found = ways.ways(store, evening, evening, on_the_date)
        shown = [*on_the_date, *(way.night.date for way in found.found)]
        assert len(shown) == len(set(shown))
        for way in found.found:
            times[way.name] += 1
            if way.night.date in last:
                gaps.setdefault(way.name, []).append((evening - last[way.night.date]).days)
        ways.note(store, shown, found, evening)
        last.update(dict.fromkeys(shown, evening))
    # Of 29 February, on the 28th of a common year.
    assert set(eligible) <= set(last)
    assert times["weekday"] > 350 and times["place"] > 350 and times["person"] > 300 and times["unseen"] == 53
    # What a way brings up was not brought up lately, by whatever way, in days: of some 150 nights at a place, and 300 with a name.
    least = {name: min(of) for name, of in gaps.items()}
    assert least["weekday"] >= 140 and least["place"] >= 300 and least["person"] >= 200 and least.get("unseen", 365) >= 360

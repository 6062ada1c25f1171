"""What the pages and the command line are shown."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import emptied

from keeper.actions import finding, reading, writing
from keeper.actions.remembering import bringing_up
from keeper.days import same_day
from keeper.model import KINDS
from keeper.review.looking_back import AT_THE_PLACE, NEAR_THE_DAY, NOTHING, ON_THE_DAY

NIGHT = date(2026, 11, 14)


@pytest.fixture
def write(store, clock):
    """Keep a line of a night."""
    return lambda night, kind="memory", text="Something.": writing.write_line(store, night, kind, text, clock)


def test_a_nights_page_has_all_that_concerns_it(store, clock, write):
    writing.set_place(store, NIGHT - timedelta(days=1), "Riga", clock)
    write(NIGHT - timedelta(days=5))
    writing.ask_question(store, NIGHT, "What was new?")
    writing.keep_draft(store, NIGHT, "memory", "On its w", clock)
    page = reading.night_page(store, NIGHT, NIGHT)
    assert page.night == reading.one_night(store, NIGHT)
    assert (page.question, page.carried.name) == ("What was new?", "Riga")
    assert [draft.text for draft in page.drafts] == ["On its w"]
    assert page.still_open == tuple(NIGHT - timedelta(days=n) for n in (1, 2, 3, 4))


def test_a_night_with_its_own_place_carries_none(store, clock):
    writing.set_place(store, NIGHT - timedelta(days=1), "Riga", clock)
    writing.set_place(store, NIGHT, "Visby", clock)
    assert reading.night_page(store, NIGHT, NIGHT).carried is None


def test_a_new_keeper_has_nothing_open_and_nothing_to_bring_up(store):
    assert reading.night_page(store, NIGHT, NIGHT).still_open == ()
    back = bringing_up.looking_back(store, NIGHT)
    assert (back.why, back.nights) == (NOTHING, ())
    assert reading.ends(store) is None


def test_the_day_in_other_years_comes_newest_first(store, write):
    for year in (2019, 2024, 2022):
        write(date(year, 11, 14))
    write(date(2025, 11, 15))
    back = bringing_up.looking_back(store, NIGHT)
    assert (back.why, [night.date.year for night in back.nights]) == (ON_THE_DAY, [2024, 2022, 2019])


def test_a_leap_day_is_brought_up_on_the_28th(store, write):
    write(date(2024, 2, 29))
    assert [night.date for night in bringing_up.looking_back(store, date(2026, 2, 28)).nights] == [date(2024, 2, 29)]
    assert bringing_up.looking_back(store, date(2026, 3, 1)).why == NEAR_THE_DAY


def test_else_the_nearest_of_that_week(store, write):
    for night in (date(2025, 11, 12), date(2025, 11, 15), date(2023, 11, 17), date(2022, 11, 18), date(2026, 11, 13)):
        write(night)
    back = bringing_up.looking_back(store, NIGHT)
    assert (back.why, [night.date for night in back.nights]) == (NEAR_THE_DAY, [date(2025, 11, 15), date(2023, 11, 17)])


def test_else_the_last_time_at_this_place(store, clock, write):
    for night in (date(2026, 5, 1), date(2026, 5, 2), NIGHT - timedelta(days=1), NIGHT):
        writing.set_place(store, night, "Riga", clock)
        write(night)
    back = bringing_up.looking_back(store, NIGHT)
    assert (back.why, back.place_name) == (AT_THE_PLACE, "Riga")
    assert [night.date for night in back.nights] == [date(2026, 5, 2), date(2026, 5, 1)]


def test_the_last_time_is_that_of_a_carried_place_too(store, clock, write):
    writing.set_place(store, date(2026, 5, 1), "Riga", clock)
    write(date(2026, 5, 1))
    writing.set_place(store, NIGHT - timedelta(days=1), "Riga", clock)
    assert [night.date for night in bringing_up.looking_back(store, NIGHT).nights] == [date(2026, 5, 1)]


DAYS = st.sets(st.tuples(st.integers(2018, 2026), st.sampled_from([1, 2, 11, 12]), st.integers(1, 28)), max_size=25)


@given(DAYS, st.data())
def test_a_resting_line_is_never_brought_up(store, clock, days, data):
    emptied(store)
    written = [
        writing.write_line(store, date(*day), data.draw(st.sampled_from(KINDS)), f"On {day}.", clock) for day in sorted(days)
    ]
    asleep = {line.id for line in written if data.draw(st.booleans())}
    for line_id in asleep:
        writing.rest_line(store, line_id)
    for wanted in (NIGHT, date(2026, 2, 28), date(2024, 2, 29), date(2026, 1, 1), date(2025, 12, 31)):
        back = bringing_up.looking_back(store, wanted)
        brought_up = {line.id for night in back.nights for line in night.lines}
        assert not brought_up & asleep
        assert all(night.date < wanted and night.lines for night in back.nights)
        on_the_day = {one.id for one in written if same_day(wanted, one.night) and one.night < wanted} - asleep
        assert brought_up == on_the_day or (not on_the_day and back.why != ON_THE_DAY)


def test_a_night_with_one_line_asleep_shows_the_others(store, write):
    write(date(2025, 11, 14), "gratitude", "Shown.")
    writing.rest_line(store, write(date(2025, 11, 14), "memory", "Not shown.").id)
    (night,) = bringing_up.looking_back(store, NIGHT).nights
    assert [line.text for line in night.lines] == ["Shown."]
    assert [one.line.text for one in finding.find(store, finding.Sought("not"))] == ["Not shown."]


def test_a_resting_line_stays_asleep_when_its_wording_is_changed_or_brought_back(store, clock, write):
    writing.rest_line(store, write(date(2025, 11, 14)).id)
    write(date(2025, 11, 14), text="Otherwise.")
    write(date(2025, 11, 14), text="")
    earlier = reading.wordings(store, date(2025, 11, 14), "memory")[0]
    writing.write_line(store, date(2025, 11, 14), "memory", earlier.text, clock)
    assert bringing_up.looking_back(store, NIGHT).nights == ()


def test_a_place_is_found_by_its_name(store, clock):
    place = writing.set_place(store, NIGHT, "L\u00fcbeck", clock)
    assert reading.place_named(store, "LUBECK") == place
    assert reading.place_named(store, "Atlantis") is None


def test_names_of_places_are_those_of_the_places_by_name(store, clock):
    for night, name in enumerate(("Visby", "\u00c5rhus", "aalborg", "Riga")):
        writing.set_place(store, NIGHT - timedelta(days=night), name, clock)
    known = {(place.name, place.id) for place in reading.known_places(store)}
    names = reading.place_names(store)
    assert set(names) == known and [name for name, _ in names] == ["aalborg", "\u00c5rhus", "Riga", "Visby"]

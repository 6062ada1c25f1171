"""The page of a year and the sitting with it, on real keepers."""

from datetime import date, timedelta

import pytest

from keeper.actions import writing
from keeper.actions.opening import open_kept
from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.actions.years.sitting import CLOSING
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import MonthPage, Photo, Place, Reading, Tracker
from keeper.store import lines, month_pages, nights, resting, trackers, year_pages
from keeper.store.photos import known as photos
from keeper.store.places import named as places

NOW = "2026-11-14T20:00:00.000000Z"

SAID = (
    "Swam off the jetty before work.", "Rye bread, still warm.", "A letter from Oddny.", "The low strings held.",
    "Rain all day on the roof.", "Pauli laughed at the metronome.", "Swam again, the water colder.",
)  # fmt: skip


@pytest.fixture
def write(store, clock):
    """Writes a line and returns its id."""

    def line(night: date, text: str, kind: str = "gratitude") -> str:
        return writing.write_line(store, night, kind, text, clock).id

    return line


@pytest.fixture
def half_year(write):
    """A keeper begun in June, with seven lines in each of June, July and September."""
    return {
        (month, day): write(date(2026, month, day), f"{SAID[day - 1]} {month}.")
        for month in (6, 7, 9)
        for day in range(1, 8)
    }


def add_photo(store, night: date, number: int, caption: str = "") -> Photo:
    photo = photos.add(store, Photo("", f"{number:064x}", "jpg", 10, caption=caption))
    photos.attach(store, night, photo.id)
    return photo


def shown(store, month: int, year: int = 2026) -> list[str]:
    return [line.id for line in years.year_page(store, year).months[month - 1].lines]


# the page


def test_an_empty_keeper_has_an_empty_year(store):
    page = years.year_page(store, 2026)
    assert (page.years, page.counts.nights, page.shown_months, page.lines, page.flow) == (None, 0, (), (), ())


def test_a_part_year_shows_the_months_from_the_first_to_the_last(store, half_year):
    page = years.year_page(store, 2026)
    assert [one.month.month for one in page.shown_months] == [6, 7, 8, 9]
    assert (page.counts.nights, page.counts.lines, page.before.lines) == (21, 21, 0)
    assert len(page.lines) == years.LINES_OF_THE_YEAR
    assert all(len(one.lines) in (0, years.LINES_OF_A_MONTH) for one in page.months)
    assert page.rose == page.fell == ()


def test_a_year_of_one_line(store, write):
    only = write(date(2026, 3, 9), "The tide was out.")
    page = years.year_page(store, 2026)
    assert [line.id for line in page.lines] == [line.id for line in page.months[2].lines] == [only]


def test_the_same_keeper_gives_the_same_page(store, half_year):
    assert years.year_page(store, 2026) == years.year_page(store, 2026)


def test_a_brief_look_leaves_the_words_out_and_nothing_else(store, half_year):
    whole, brief = years.year_page(store, 2026), years.year_page(store, 2026, brief=True)
    assert brief.brief and not whole.brief and brief.lines == ()
    assert (brief.counts, brief.readings, brief.places) == (whole.counts, whole.readings, whole.places)


def test_whereabouts_count_the_way_to_the_years_first_place(store, write):
    ids = [places.add(store, Place("", name, latitude=at[0], longitude=at[1])).id
           for name, at in (("Riga", (56.95, 24.11)), ("Visby", (57.64, 18.29)))]  # fmt: skip
    nights.set_place(store, date(2025, 12, 31), ids[0], "said", NOW)
    for day in (1, 2):
        nights.set_place(store, date(2026, 1, day), ids[1], "said", NOW)
    page = years.year_page(store, 2026)
    assert [(kept.place.name, kept.nights) for kept in page.places.places] == [("Visby", 2)]
    assert len(page.travels.legs) == 1 and 350_000 < page.travels.metres < 370_000


def test_nothing_that_rests_is_on_the_page(store, write):
    hidden = {"rests alone": date(2026, 3, 1), "in the span": date(2026, 3, 10), "at the inn": date(2026, 3, 20)}
    ids = {text: write(night, text) for text, night in hidden.items()}
    write(date(2026, 3, 25), "awake")
    write(date(2026, 3, 26), "with Karin at the quay")
    inn = places.add(store, Place("", "The inn"))
    nights.set_place(store, hidden["at the inn"], inn.id, "said", NOW)
    unseen = [add_photo(store, date(2026, 3, 10), 1), add_photo(store, date(2026, 3, 25), 2)]
    mood = Tracker("", "mood", "scale", 0, 10, "", "higher", date(2026, 1, 1))
    mood_id = trackers.add(store, mood)
    trackers.note(store, [Reading(date(2026, 3, 10), mood_id, 0.0), Reading(date(2026, 3, 25), mood_id, 8.0)])
    resting.rest(store, "line", ids["rests alone"])
    resting.rest(store, "place", inn.id)
    resting.rest(store, "photo", unseen[1].id)
    resting.rest_span(store, hidden["in the span"], hidden["in the span"])
    with store.writing() as connection:
        connection.execute("INSERT INTO person VALUES ('k', 'Karin')")
    resting.rest(store, "person", "k")
    month_pages.keep(store, MonthPage(date(2026, 3, 1), photo_id=unseen[0].id))
    page = years.year_page(store, 2026)
    assert [line.text for line in page.lines] == ["awake"]
    assert [line.text for line in page.months[2].lines] == ["awake"]
    assert page.months[2].photo is None and page.places.places == ()
    assert (page.readings[0].months[2].middle, page.readings[0].months[2].nights) == (8.0, 1)
    assert page.counts.lines == 5
    assert [line.text for line in year_sitting.month_step(store, 2026, 3).others] == ["awake"]


def test_a_line_chosen_and_then_set_to_rest_is_shown_no_more(store, half_year):
    year_sitting.settle_month(store, 2026, 6, 7)
    gone = shown(store, 6)[0]
    writing.rest_line(store, gone)
    assert gone not in shown(store, 6) and len(shown(store, 6)) == years.LINES_OF_A_MONTH - 1


# the lines of the year


def test_a_line_of_the_year_gives_way_to_another_and_back_to_the_proposal(store, half_year):
    before = [line.id for line in years.year_page(store, 2026).lines]
    other = next(line_id for line_id in half_year.values() if line_id not in before)
    years.replace_line(store, 2026, 0, before[3], other)
    page = years.year_page(store, 2026)
    assert {line.id for line in page.lines} == {*before, other} - {before[3]}
    assert page.own_lines
    years.replace_line(store, 2026, 0, other, "")
    assert len(years.year_page(store, 2026).lines) == len(before) - 1
    years.propose_again(store, 2026, 0)
    assert [line.id for line in years.year_page(store, 2026).lines] == before


def test_a_line_that_is_not_there_cannot_be_chosen(store, half_year):
    with pytest.raises(UnknownThing):
        years.replace_line(store, 2026, 6, "", "nothing")
    assert year_pages.one(store, 2026).choices == ()


# the sitting


def test_the_sitting_begins_with_the_first_month_that_holds_something(store, half_year):
    assert year_sitting.begin(store, 2026) == 6
    step = year_sitting.month_step(store, 2026, 6)
    assert (step.steps, step.before, step.after, len(step.others)) == ((6, 7, 9), 0, 7, 7)
    assert year_sitting.begin(store, 2025) == CLOSING


def test_each_step_is_kept_and_taken_up_later_also_by_another_program(store, half_year):
    year_sitting.begin(store, 2026)
    was = shown(store, 6)
    years.replace_line(store, 2026, 6, was[0], "")
    year_sitting.settle_month(store, 2026, 6, 7)
    with open_kept(store.folder) as again:
        assert year_sitting.begin(again, 2026) == 7
        page = years.year_page(again, 2026)
    assert [line.id for line in page.months[5].lines] == was[1:]
    assert [one.month.month for one in page.settled] == [6]
    assert page.state == "begun"


def test_what_a_settled_month_shows_stays_when_more_is_written(store, half_year, write):
    year_sitting.settle_month(store, 2026, 6, 7)
    was = shown(store, 6)
    for day in range(10, 20):
        write(date(2026, 6, day), f"Swam and swam, day {day}.")
    assert shown(store, 6) == was


def test_the_years_lines_come_from_the_lines_kept(store, half_year):
    for month, onward in ((6, 7), (7, 9), (9, CLOSING)):
        for line_id in shown(store, month)[2:]:
            years.replace_line(store, 2026, month, line_id, "")
        year_sitting.settle_month(store, 2026, month, onward)
    kept = [line_id for month in (6, 7, 9) for line_id in shown(store, month)]
    assert [line.id for line in years.year_page(store, 2026).lines] == kept


def test_a_photo_is_kept_changed_and_dropped(store, half_year):
    first, second = add_photo(store, date(2026, 6, 2), 1), add_photo(store, date(2026, 6, 5), 2)
    seen = lambda: years.year_page(store, 2026).months[5].photo  # noqa: E731
    assert seen().id == first.id
    year_sitting.keep_photo(store, 2026, 6, second.id)
    assert seen().id == second.id
    year_sitting.keep_photo(store, 2026, 6, None)
    assert seen() is None and year_sitting.month_step(store, 2026, 6).photo_dropped
    year_sitting.keep_photo(store, 2026, 6, first.id)
    assert seen().id == first.id
    photos.drop(store, first.id)
    assert seen().id == second.id
    with pytest.raises(UnknownThing):
        year_sitting.keep_photo(store, 2026, 6, first.id)


def test_turning_about_decides_nothing(store, half_year):
    year_sitting.go_to(store, 2026, 9)
    page = year_pages.one(store, 2026)
    assert (page.at, page.settled, page.choices) == (9, frozenset(), ())


# the closing questions


def test_there_is_a_handful_of_closing_questions_each_a_question(store):
    asked = year_sitting.closing_questions()
    assert 4 <= len(asked) <= 8 and len(set(asked)) == len(asked)
    assert all(question.endswith("?") for question in asked)


def test_answers_are_kept_as_written_and_stay_with_their_question(store, half_year):
    first = year_sitting.closing_questions()[0]
    year_sitting.answer(store, 2026, first, "  *rest* & \u05de\u05d9\u05dd\nand more ")
    year_sitting.answer(store, 2026, "A question no longer asked?", "yes")
    told = year_sitting.closing(store, 2026)
    assert told.answers[0].answer == "*rest* & \u05de\u05d9\u05dd\nand more"
    assert told.answers[-1].question == "A question no longer asked?" and told.before == 9
    with pytest.raises(UnreadableText):
        year_sitting.answer(store, 2026, first, "\x00")


def test_a_closed_year_can_be_opened_again(store, half_year):
    year_sitting.close_year(store, 2026)
    assert years.year_page(store, 2026).state == "closed"
    assert year_sitting.begin(store, 2026) == 6


# offering it


@pytest.mark.parametrize(
    ("tonight", "year"),
    [("2026-12-14", None), ("2026-12-15", 2026), ("2026-12-31", 2026), ("2027-01-31", 2026), ("2027-02-01", None)],
)
def test_it_is_offered_around_the_turn_of_the_year(tonight, year):
    assert year_sitting.offered_year(date.fromisoformat(tonight)) == year


def test_it_is_offered_only_where_there_is_something_to_sit_down_with(store, write):
    tonight = date(2026, 12, 20)
    assert year_sitting.year_to_offer(store, tonight) is None
    write(date(2026, 5, 1), "a line")
    assert year_sitting.year_to_offer(store, tonight) == (2026, "")
    year_sitting.begin(store, 2026)
    assert year_sitting.year_to_offer(store, tonight + timedelta(days=30)) == (2026, "begun")
    year_sitting.close_year(store, 2026)
    assert year_sitting.year_to_offer(store, tonight) is None


def test_lines_to_choose_from_are_those_of_the_month(store, half_year):
    assert [line.id for line in years.lines_to_choose(store, 2026, 7)] == [half_year[7, day] for day in range(1, 8)]
    assert lines.count(store) == 21

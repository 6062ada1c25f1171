"""People who are marked, and what rests: kept out of everything that is brought up."""

from datetime import date

import pytest

from keeper.actions import people, resting
from keeper.actions.months import shown as months
from keeper.actions.remembering.bringing_up import looking_back
from keeper.actions.themes import asking as themes
from keeper.actions.themes import making as theme_making
from keeper.actions.writing import set_place, write_line
from keeper.actions.years import shown as years
from keeper.errors import AlreadyKept, UnknownThing, UnreadableDate, UnreadableText
from keeper.model import MonthPage, YearAnswer
from keeper.review.looking_back import NEAR_THE_DAY, ON_THE_DAY
from keeper.store import month_pages, year_pages
from keeper.store import people as kept
from keeper.study.firsts import PERSON

TONIGHT = date(2026, 11, 14)


@pytest.fixture
def write(store, clock):
    return lambda night, text, kind="memory": write_line(store, night, kind, text, clock)


def named(store) -> dict[str, int]:
    return {one.person.name: one.lines for one in people.every(store)}


# marking


def test_people_are_marked_counted_renamed_and_taken_out(store, write):
    write(date(2026, 5, 1), "Ilze, and Ilze again")
    write(date(2026, 5, 2), "ILZE!")
    write(date(2026, 5, 3), "Ilzeland")
    write(date(2026, 5, 4), "with Ilža")
    ilze = people.add(store, "  Ilze ")
    assert named(store) == {"Ilze": 2}
    people.rename(store, ilze.id, "Ilze,Ilža")
    assert named(store) == {"Ilze, Ilža": 3}
    assert people.named(store, "ilza").id == ilze.id and people.named(store, "Maren") is None
    people.rest(store, ilze.id)
    people.take_out(store, ilze.id)
    assert named(store) == {} and resting.what_rests(store) == ()
    assert not people.add(store, "Ilze").resting


def test_a_korean_name_is_counted_with_its_particles(store, write):
    for place, text in enumerate(["민수가 조율을 도왔다", "배에서 민수는 잤다", "민수기를 읽었다", "부두의 민수"]):
        write(date(2026, 5, 1 + place), text)
    people.add(store, "민수")
    assert named(store) == {"민수": 3}


def test_many_lines_are_counted_to_the_last(store, write):
    for number in range(150):
        write(date.fromordinal(TONIGHT.toordinal() - number), "Ilze" if number % 2 else "ilze")
    people.add(store, "Ilze")
    assert named(store) == {"Ilze": 75}
    assert len(list(kept.texts_naming(store, ["Ilze"]))) == 150
    assert len(list(kept.texts_naming(store, ["Ilze", "nobody"], date(2026, 11, 10)))) == 145


@pytest.mark.parametrize("name", ["", "  ", ", ,", "!?", "x" * 201, "Ilze\x00"])
def test_what_is_no_name_is_refused(store, name):
    with pytest.raises(UnreadableText):
        people.add(store, name)
    assert named(store) == {}


def test_nobody_is_marked_twice(store):
    people.add(store, "Ilze, Ilse")
    other = people.add(store, "Maren")
    for act in (lambda: people.add(store, "ilse"), lambda: people.rename(store, other.id, "Maren, ILZE")):
        with pytest.raises(AlreadyKept, match="marked already"):
            act()
    people.rename(store, other.id, "maren")
    assert set(named(store)) == {"Ilze, Ilse", "maren"}
    for act in (people.rest, lambda store, ref: people.rename(store, ref, "Jo")):
        with pytest.raises(UnknownThing):
            act(store, "nobody")


@pytest.mark.parametrize("name", ['"', 'a" OR "b', "*", "<b>&</b>", "#set text", "\u05d0\u05de\u05d0", "王芳", "O'Neill (elder)"])
def test_any_name_can_be_counted(store, write, name):
    write(TONIGHT, f"With {name} at sea")
    if any(letter.isalnum() for letter in name):
        people.add(store, name)
        assert named(store) == {name: 1}


def test_names_that_recur_are_offered_until_they_are_marked(store, write, clock):
    set_place(store, TONIGHT, "Visby", clock)
    for number in range(4):
        write(date(2026, 5, 1 + number), "Ilze came; later, Oddny and tea in the town. We saw Visby, Maren too.")
    offered = {one.name: one.lines for one in people.suggestions(store)}
    assert offered == {"Oddny": 4, "Maren": 4}
    people.add(store, "Oddny")
    assert [one.name for one in people.suggestions(store)] == ["Maren"]


# spans and all that rests


def test_all_that_rests_is_told_and_wakes(store, write):
    line = write(date(2026, 5, 1), "a line")
    write(date(2026, 5, 2), "goes away")
    from keeper.actions.writing import rest_line

    rest_line(store, line.id)
    rest_line(store, write(date(2026, 5, 2), "goes away still").id)
    write(date(2026, 5, 2), "")
    people.rest(store, people.add(store, "Ilze").id)
    resting.rest_span(store, date(2026, 1, 1), date(2026, 1, 5))
    resting.rest_span(store, date(2026, 1, 1), date(2026, 1, 5))
    found = resting.what_rests(store)
    assert [(one.what, one.told) for one in found] == [("span", ""), ("person", "Ilze"), ("line", "a line")]
    assert (found[0].first, found[0].last, found[2].first) == (date(2026, 1, 1), date(2026, 1, 5), date(2026, 5, 1))
    for one in found:
        resting.wake(store, one)
    assert resting.what_rests(store) == ()


def test_a_span_is_read_as_it_was_typed():
    assert resting.read_span("2026-02", "2026-02", TONIGHT) == (date(2026, 2, 1), date(2026, 2, 28))
    assert resting.read_span("2026-02-03", "tonight", TONIGHT) == (date(2026, 2, 3), TONIGHT)
    for first, last, said in (
        ("", "2026-02", "two ends"), ("2026-02-30", "2026-03", "has 28 days"), ("spring", "2026-03", "is not a date"),
        ("2026-03-02", "2026-03-01", "comes before the first"),
    ):  # fmt: skip
        with pytest.raises(UnreadableDate, match=said):
            resting.read_span(first, last, TONIGHT)


def test_only_a_span_that_rests_wakes(store):
    with pytest.raises(UnreadableDate):
        resting.rest_span(store, date(2026, 1, 5), date(2026, 1, 1))
    with pytest.raises(UnknownThing, match="No span does"):
        resting.wake_span(store, date(2026, 1, 1), date(2026, 1, 5))
    resting.rest_span(store, date(2026, 1, 1), date(2026, 1, 5))
    with pytest.raises(UnknownThing, match="2026-01-01 to 2026-01-05"):
        resting.wake_span(store, date(2026, 1, 1), date(2026, 1, 4))
    resting.wake_span(store, date(2026, 1, 1), date(2026, 1, 5))
    assert resting.what_rests(store) == ()


# kept out of what is brought up


def test_looking_back_leaves_out_who_rests_and_finds_something_else(store, write):
    write(date(2025, 11, 14), "Tea with Ilze")
    write(date(2025, 11, 13), "Bread")
    write(date(2024, 11, 14), "Tea with ilze, late")
    write(date(2024, 11, 14), "Snow", "gratitude")
    ilze = people.add(store, "Ilze")
    people.rest(store, ilze.id)
    back = looking_back(store, TONIGHT)
    assert back.why == ON_THE_DAY and [[line.text for line in one.lines] for one in back.nights] == [["Snow"]]
    write(date(2024, 11, 14), "", "gratitude")
    back = looking_back(store, TONIGHT)
    assert back.why == NEAR_THE_DAY and [one.date for one in back.nights] == [date(2025, 11, 13)]
    people.wake(store, ilze.id)
    assert len(looking_back(store, TONIGHT).nights) == 2


def test_looking_back_leaves_out_a_span(store, write):
    write(date(2025, 11, 14), "Tea")
    write(date(2024, 11, 14), "Bread")
    resting.rest_span(store, date(2025, 11, 1), date(2025, 11, 30))
    assert [one.date for one in looking_back(store, TONIGHT).nights] == [date(2024, 11, 14)]


def test_a_month_and_a_year_leave_out_who_rests(store, write):
    write(date(2026, 3, 2), "Tea with Ilze")
    write(date(2026, 3, 3), "Bread with Maren")
    write(date(2026, 4, 3), "Spring")
    month_pages.keep(store, MonthPage(date(2026, 3, 1), words="Ilze left."))
    year_pages.answer(store, 2026, "Who?", "Ilze, always")
    year_pages.answer(store, 2026, "What?", "Bread")
    people.add(store, "Maren, Marie")
    ilze = people.add(store, "Ilze")
    march = months.month_page(store, date(2026, 3, 1))
    assert [one.name for one in march.firsts if one.kind == PERSON] == ["Ilze", "Maren"]
    people.rest(store, ilze.id)
    resting.rest_span(store, date(2026, 4, 1), date(2026, 4, 30))
    march = months.month_page(store, date(2026, 3, 1))
    assert [line.text for line in march.lines] == ["Bread with Maren"] and march.holds_back
    assert [one.name for one in march.firsts if one.kind == PERSON] == ["Maren"]
    page = years.year_page(store, 2026)
    assert [line.text for line in page.lines] == ["Bread with Maren"]
    assert page.answers == (YearAnswer("What?", "Bread"),) and page.months[2].words == ""
    assert months.month_page(store, date(2026, 4, 1)).lines == ()


def test_a_first_name_minds_capitals(store, write):
    write(date(2026, 2, 2), "It will snow")
    write(date(2026, 3, 2), "Will came")
    people.add(store, "Will")
    assert [one.name for one in months.month_page(store, date(2026, 3, 1)).firsts if one.kind == PERSON] == ["Will"]


def test_themes_leave_out_who_rests(store, write):
    told = [write(date(2026, 3, day), text) for day, text in enumerate(
        ("Bread", "Bread with Ilze", "More bread", "Ilze laughed"), 1)]  # fmt: skip
    _keep_themes(store, {1: ("Bread, oven", told[:3]), 2: ("Ilze, laughter", told[3:])})
    ilze = people.add(store, "Ilze")
    assert [one.name for one in themes.themes_view(store).threads] == ["Bread, oven", "Ilze, laughter"]
    people.rest(store, ilze.id)
    resting.rest_span(store, date(2026, 3, 3), date(2026, 3, 3))
    (bread,) = themes.themes_view(store).threads
    assert [line.text for line in bread.central] == ["Bread"]
    view = themes.theme_view(store, 1)
    assert view.thread.words == ("bread",) and [line.text for line in view.thread.central] == ["Bread"]
    march = months.month_page(store, date(2026, 3, 1))
    assert [one.name for one in march.themes] == ["Bread, oven"]


def test_a_theme_is_told_without_who_rests_when_they_do_not_lead_it(store, write):
    told = [write(date(2026, 3, day), text) for day, text in enumerate(("Bread", "Bread with Ilze"), 1)]
    _keep_themes(store, {1: ("Bread, Ilze, oven", told)})
    people.rest(store, people.add(store, "Ilze").id)
    (bread,) = themes.themes_view(store).threads
    assert bread.name == "Bread, oven"
    assert themes.theme_view(store, 1).thread.name == "Bread, oven"
    assert [one.name for one in months.month_page(store, date(2026, 3, 1)).themes] == ["Bread, oven"]
    assert {band.name for band in years.year_page(store, 2026).flow} == {"Bread, oven"}


def _keep_themes(store, wanted) -> None:
    with store.writing() as connection:
        for number, (name, its) in wanted.items():
            connection.execute(
                "INSERT INTO theme (number, id, name, terms, begun_at) VALUES (?, ?, ?, ?, '2026-03-01')",
                (number, str(number), name, '[["bread", 1.0], ["Ilze", 0.5]]'),
            )
            rows = [(line.id, number, 0.9 - at / 10) for at, line in enumerate(its)]
            connection.executemany("INSERT OR REPLACE INTO theme_line VALUES (?, ?, ?)", rows)


def test_names_are_heard_by_themes_and_a_new_one_asks_for_them_anew(store, write, clock):
    for number in range(40):
        write(date.fromordinal(TONIGHT.toordinal() - number), f"Bread {number} with Ilze at the quay")
    theme_making.rebuild_themes(store, clock)
    assert themes.themes_due(store) == themes.NOTHING
    people.add(store, "Ilze, Ilža")
    assert themes.themes_due(store) == themes.REBUILD and kept.names(store) == ("Ilze", "Ilža")

"""A year's sums and choices, from plain data."""

from datetime import UTC, date, datetime, timedelta

import pytest

from keeper.model import Line, Moment, MonthPage, Photo, YearChoice, YearPage
from keeper.review import year_choices as choosing
from keeper.review import year_sums as sums
from keeper.review.year import MonthStep, YearMonth
from keeper.review.year_words import moved_words, spoken
from keeper.study.awake import Awake
from keeper.study.language.words import content_words

MOMENT = Moment(datetime(2026, 1, 1, tzinfo=UTC), 0, "")


def line(night: date, text: str, *, rests: bool = False, kind: str = "memory") -> Line:
    return Line(f"{night}-{kind}", night, kind, text, MOMENT, rests)


def words(of: Line):
    return content_words(of.text)


def first(some, count):
    """Proposes the first ones."""
    return tuple(some[:count])


def photo(name: str) -> Photo:
    return Photo(name, name, "jpg", 1, caption=name)


# what stands for a month and a year

LINES = tuple(line(date(2026, 3, day), f"line {day}") for day in range(1, 9))
PHOTOS = (photo("a"), photo("b"))


def month(decided: YearPage, page: MonthPage | None = None, photos=PHOTOS) -> YearMonth:
    page = page or MonthPage(date(2026, 3, 1), words="wind")
    by_id = {one.id: one for one in photos}
    return choosing.month_of(date(2026, 3, 1), page, decided, LINES, photos, by_id.get, first)


def decided(*choices: YearChoice, settled=()) -> YearPage:
    return YearPage(2026, "begun", 3, frozenset(settled), choices)


def test_undecided_a_month_is_as_proposed():
    shown = month(YearPage(2026))
    assert (shown.lines, shown.photo, shown.nights, shown.words) == (LINES[:5], PHOTOS[0], 8, "wind")
    assert not shown.settled and shown.holds_something


def test_the_photo_of_the_month_page_comes_before_the_first():
    assert month(YearPage(2026), MonthPage(date(2026, 3, 1), photo_id="b")).photo == PHOTOS[1]


@pytest.mark.parametrize(
    ("choice", "seen"),
    [
        (YearChoice(3, "photo", "b", "changed"), "b"),
        (YearChoice(3, "photo", "b", "dropped"), None),
        (YearChoice(3, "photo", "gone", "changed"), "a"),
        (YearChoice(4, "photo", "b", "changed"), "a"),
    ],
)
def test_the_photo_decided_on_comes_first_unless_it_is_gone(choice, seen):
    shown = month(decided(choice)).photo
    assert (shown and shown.id) == seen


def test_lines_decided_on_stand_in_the_order_of_nights_and_those_that_are_gone_do_not():
    made = [YearChoice(3, "line", LINES[at].id) for at in (6, 1)]
    made += [YearChoice(3, "line", "gone"), YearChoice(3, "line", LINES[0].id, "dropped")]
    assert month(decided(*made)).lines == (LINES[1], LINES[6])
    assert month(decided(YearChoice(3, "line", LINES[0].id, "dropped"))).lines == ()


def test_the_years_lines_come_from_what_was_kept_of_the_months_gone_through():
    kept = YearMonth(date(2026, 3, 1), 8, None, LINES[6:], settled=True)
    june = line(date(2026, 6, 1), "june")
    page = decided(settled=[3])
    assert choosing.year_lines(page, [kept], (*LINES, june), first) == (*LINES[6:], june)
    own = decided(YearChoice(0, "line", LINES[0].id, "changed"), settled=[3])
    assert choosing.year_lines(own, [kept], (*LINES, june), first) == (LINES[0],)


def test_a_line_gives_way_to_another_and_stays_out():
    made = choosing.with_replaced(LINES[:2], LINES[0].id, LINES[5].id, [], 3)
    assert [(one.ref, one.decision) for one in made] == [
        (LINES[1].id, "kept"), (LINES[5].id, "changed"), (LINES[0].id, "dropped"),
    ]  # fmt: skip
    again = choosing.with_replaced((LINES[1], LINES[5]), LINES[5].id, LINES[0].id, made, 3)
    assert [(one.ref, one.decision) for one in again] == [
        (LINES[1].id, "kept"), (LINES[0].id, "changed"), (LINES[5].id, "dropped"),
    ]  # fmt: skip
    more = choosing.with_replaced((LINES[1],), "", LINES[1].id, [], 3)
    assert [one.ref for one in more] == [LINES[1].id]


def test_few_lines_are_all_proposed():
    assert choosing.proposed(LINES[:3], lambda one: (one.text,), 5) == LINES[:3]
    assert len(choosing.proposed(LINES, lambda one: tuple(one.text.split()), 5)) == 5


# what rests


def test_lines_and_photos_that_speak_of_someone_who_rests_rest_too():
    told = [line(date(2026, 1, day), text) for day, text in enumerate(
        ("With ANNA at the sea", "Annabel came", "anna  karin's boat", "Nothing"), 1)]  # fmt: skip
    told.append(line(date(2026, 1, 9), "asleep", rests=True))
    assert [one.text for one in told if Awake(("Anna",)).line(one)] == ["Annabel came", "Nothing"]
    assert [one.text for one in told if Awake(("Anna Karin",)).line(one)][:2] == ["With ANNA at the sea", "Annabel came"]
    seen = [(date(2026, 1, 1), photo("Anna, laughing")), (date(2026, 1, 2), photo("b")), (date(2026, 1, 3), photo("b"))]
    assert choosing.awake_photos(seen, Awake(("anna",))) == ((date(2026, 1, 2), photo("b")),)


@pytest.mark.parametrize("name", ["C++", "O'Neill (the elder)", "[", "\u05d0\u05de\u05d0"])
def test_any_name_can_rest(name):
    awake = Awake((name,)).text
    assert not awake(f"Saw {name} today.") and awake("Saw no one.")


# sums


def test_counts_are_plain():
    told = [line(date(2026, 1, 1), "one two three"), line(date(2026, 1, 1), "four", kind="gratitude")]
    assert sums.counts(told, 2) == sums.Counts(nights=1, lines=2, words=4, photos=2)


def test_a_theme_flows_by_its_share_of_the_nights_kept():
    told = [line(date(2026, 1, day), "x") for day in (1, 2, 3, 4)] + [line(date(2026, 2, 1), "x")]
    of = {told[0].id: [(7, "sea")], told[1].id: [(7, "sea")], told[4].id: [(9, "bread")]}
    sea, bread = sums.theme_flow(told, of)
    assert (sea.name, sea.nights, sea.shares[:3]) == ("sea", 2, (0.5, 0.0, 0.0))
    assert (bread.name, bread.nights, bread.shares[:3]) == ("bread", 1, (0.0, 1.0, 0.0))


def test_two_lines_of_a_night_count_once():
    told = [line(date(2026, 1, 1), "x"), line(date(2026, 1, 1), "y", kind="gratitude")]
    assert sums.theme_flow(told, {one.id: [(1, "a")] for one in told})[0].nights == 1


# words


def test_a_word_that_rose_and_one_that_fell():
    now = [line(date(2026, 1, 1) + timedelta(days=n), f"Pauli brought letter {n}") for n in range(150)]
    then = [line(date(2025, 1, 1) + timedelta(days=n), f"Oddny brought letter {n}") for n in range(150)]
    rose, fell = moved_words(now, then, words)
    assert [(one.word, one.nights, one.before) for one in rose] == [("pauli", 150, 0)]
    assert [(one.word, one.nights, one.before) for one in fell] == [("oddny", 0, 150)]


def test_a_name_keeps_its_capital_where_it_does_not_open_the_sentence():
    now = [line(date(2026, 1, 1) + timedelta(days=n), "Pauli came. Saw Pauli") for n in range(150)]
    then = [line(date(2025, 1, 1) + timedelta(days=n), "letter") for n in range(150)]
    assert moved_words(now, then, words)[0][0].word == "Pauli"


def test_nothing_stands_out_without_a_year_before():
    assert moved_words([line(date(2026, 1, 1), "sea")], [], words) == ((), ())


def test_the_languages_of_a_year():
    german = ["Heute war es schön und ich bin mit dem Zug gefahren"] * 5
    english = ["Today it was fine and I went by the train"] * 20
    assert spoken(english) == ("en",)
    assert spoken(english + german * 2) == ("en", "de")
    assert spoken([]) == ("en",)


# the sitting's steps


@pytest.mark.parametrize(("at", "before", "after"), [(6, 0, 9), (9, 6, 12), (12, 9, 13)])
def test_the_months_that_hold_nothing_are_passed_over(at, before, after):
    step = MonthStep(YearMonth(date(2026, at, 1), 1), (), (), {}, (6, 9, 12))
    assert (step.before, step.after) == (before, after)

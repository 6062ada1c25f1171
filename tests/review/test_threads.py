"""Courses over the months, and what may be said of growing and fading."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.review.themes import Calendar, strongest, thread
from keeper.store.themes.found import KeptTheme

THEME = KeptTheme(3, "Bread", True, False, 0.8, (("bread", 1.0), ("oven", 0.4)))


def every(first, last, step=1):
    return [first + timedelta(days=n) for n in range(0, (last - first).days + 1, step)]


TWO_YEARS = every(date(2024, 1, 1), date(2025, 12, 31))


def test_a_course_counts_nights_month_by_month():
    kept = every(date(2025, 11, 29), date(2026, 2, 2))
    course = Calendar(kept).course([date(2025, 11, 30), date(2026, 1, 1), date(2026, 1, 9)])
    assert course.first_month == date(2025, 11, 1)
    assert course.nights == (1, 0, 2, 0)
    assert course.kept == (2, 31, 31, 2)


def test_a_month_without_a_line_is_in_the_course():
    course = Calendar([date(2026, 1, 5), date(2026, 4, 5)]).course([date(2026, 4, 5)])
    assert course.kept == (1, 0, 0, 1) and course.nights == (0, 0, 0, 1)


def test_a_thread_tells_lines_and_nights_apart():
    nights = [date(2025, 3, 1), date(2025, 3, 1), date(2025, 4, 1)]
    one = thread(THEME, nights, Calendar(TWO_YEARS), 5)
    assert (one.lines, one.nights, one.first, one.last) == (3, 2, date(2025, 3, 1), date(2025, 4, 1))
    assert one.share == pytest.approx(2 / 731)
    assert one.words == ("bread", "oven") and one.named and one.change is None


def test_growing_and_fading_are_told_against_the_year_before():
    rare, often = every(date(2024, 1, 1), date(2024, 12, 31), 30), every(date(2025, 1, 1), date(2025, 12, 31), 3)
    grown = Calendar(TWO_YEARS).change(rare + often, 10)
    assert grown.word == "growing" and grown.days == 365
    assert grown.before < 0.05 and grown.after == pytest.approx(1 / 3, abs=0.01)
    back = Calendar(TWO_YEARS).change(every(date(2024, 1, 1), date(2024, 12, 31), 3), 10)
    assert back.word == "fading"


def test_steady_or_little_is_not_told():
    calendar = Calendar(TWO_YEARS)
    assert calendar.change(every(date(2024, 1, 1), date(2025, 12, 31), 7), 1) is None
    assert calendar.change([date(2025, 5, 1), date(2025, 5, 2)], 1) is None
    assert Calendar([]).change([], 1) is None
    few = every(date(2025, 11, 1), date(2025, 12, 20))
    assert Calendar(few).change(few[25:], 1) is None


def test_a_young_keeper_compares_its_halves():
    kept = every(date(2025, 1, 1), date(2025, 8, 28))
    change = Calendar(kept).change(kept[120:240:2], 3)
    assert change.word == "growing" and change.days == 120


def test_among_many_themes_more_is_asked_for():
    nights = every(date(2024, 1, 1), date(2024, 12, 31), 20) + every(date(2025, 1, 1), date(2025, 12, 31), 10)
    assert Calendar(TWO_YEARS).change(nights, 1).word == "growing"
    assert Calendar(TWO_YEARS).change(nights, 100) is None


def test_strongest_months_are_those_with_most_nights_the_latest_of_equals():
    nights = [date(2024, 2, 1), date(2024, 2, 2), date(2025, 6, 1), date(2025, 6, 2), date(2025, 7, 1)]
    found = strongest(Calendar(TWO_YEARS).course(nights))
    assert found == ((date(2025, 6, 1), 2), (date(2024, 2, 1), 2))


@given(st.sets(st.dates(date(2020, 1, 1), date(2026, 12, 31)), min_size=1), st.data())
def test_no_night_is_lost_in_a_course(kept, data):
    kept = sorted(kept)
    chosen = data.draw(st.sets(st.sampled_from(kept)))
    course = Calendar(kept).course(chosen)
    assert sum(course.kept) == len(kept) and sum(course.nights) == len(chosen)
    assert all(some <= of for some, of in zip(course.nights, course.kept, strict=True))

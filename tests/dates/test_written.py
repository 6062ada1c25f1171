"""Numbers and dates in English words, with the signs and in the order of the system."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.dates import written
from keeper.dates.written import Habits

DAY, OTHER = date(2026, 11, 14), date(2026, 11, 3)
ENGLISH, GERMAN, AMERICAN = Habits(), Habits(".", ",", 4), Habits(",", ".", 4, True)


@pytest.fixture
def as_in():
    was = written.habits()
    yield lambda habits: written.follow(lambda: habits)
    written.follow(lambda: was)


@pytest.mark.parametrize(
    ("habits", "told"),
    [
        (ENGLISH, ("12,480", "1,234.5", "0.25", "3", "26 %")),
        (GERMAN, ("12.480", "1.234,5", "0,25", "3", "26 %")),
        (Habits("\u202f", ",", 5), ("12\u202f480", "1234,5", "0,25", "3", "26 %")),
    ],
)
def test_numbers_have_the_signs_of_the_system(as_in, habits, told):
    as_in(habits)
    said = (written.number(12480), written.number(1234.5, 1), written.shortest(0.25), written.shortest(3.0), written.percent(0.26))
    assert said == told


@pytest.mark.parametrize(
    ("habits", "told"),
    [
        (ENGLISH, ("Saturday 14 November 2026", "14 November", "Sat 14 Nov 2026", "Sat 14 Nov", "3 to 14 Nov 2026")),
        (AMERICAN, ("Saturday, November 14, 2026", "November 14", "Sat, Nov 14, 2026", "Sat, Nov 14", "Nov 3 to 14, 2026")),
    ],
)
def test_dates_have_the_order_of_the_system_and_english_names(as_in, habits, told):
    as_in(habits)
    said = (written.long_date(DAY), written.day_and_month(DAY), written.short_date(DAY), written.weekday_and_day(DAY), written.span(OTHER, DAY))
    assert said == told
    assert written.month_and_year(DAY) == "November 2026"
    assert written.span(DAY, DAY) == written.shorter_date(DAY)
    assert written.span(date(2025, 12, 30), DAY).count("20") == 2
    assert written.span(date(2025, 11, 3), DAY).count("20") == 2, "the same month of another year"


@given(st.floats(-1e12, 1e12), st.integers(0, 3))
def test_a_number_keeps_its_digits_whatever_the_signs(value, decimals):
    was = written.habits()
    try:
        written.follow(lambda: GERMAN)
        german = written.number(value, decimals)
    finally:
        written.follow(lambda: was)
    assert german.replace(".", "").replace(",", ".").lstrip("-") == f"{abs(value):.{decimals}f}"


def test_nothing_below_nought_is_nought():
    assert written.number(-0.04, 1) == "0.0"
    assert written.counted(1, "line") == "1 line"
    assert written.counted(1200, "day's walk", "days' walk").endswith("days' walk")

"""The calendar against the rules and values that others published."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper import days
from keeper.dates.typed import understood
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import UnreadableDate

TONIGHT = date(2026, 11, 14)
YEARS = range(FIRST_NIGHT.year, LAST_NIGHT.year + 1)


def is_leap(year: int) -> bool:
    """The rule of the bull Inter gravissimas (1582), as ISO 8601 has it."""
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


# Source: Inter gravissimas; Explanatory Supplement to the Astronomical Almanac
# (Seidelmann 1992), section 12.2: 2000 is a leap year, 1800, 1900, 2100 are not.
@pytest.mark.parametrize(("year", "leap"), [(2000, True), (2024, True), (1800, False), (1900, False), (2100, False), (2400, True)])
def test_leap_years_by_name(year, leap):
    if leap:
        assert understood(f"{year}-02-29", TONIGHT).first == date(year, 2, 29)
    else:
        with pytest.raises(UnreadableDate, match="has 28 days"):
            understood(f"{year}-02-29", TONIGHT)


# Source: the same rule, over every year a night can lie in.
def test_the_29th_of_february_exists_in_leap_years_only():
    for year in YEARS:
        assert (days.last_of_month(date(year, 2, 1)).day == 29) == is_leap(year)
        assert (days.anniversary(date(2024, 2, 29), year).day == 29) == is_leap(year)


# Source: the rule gives 97 leap days in 400 years, that is 146,097 days.
def test_four_hundred_years_have_146097_nights():
    assert sum(1 for _ in days.nights(date(1801, 1, 1), date(2200, 12, 31))) == 146_097


# Source: "thirty days hath September" (in Grafton, Chronicles, 1562).
def test_the_lengths_of_the_months():
    lengths = [days.last_of_month(date(2026, month, 1)).day for month in range(1, 13)]
    assert lengths == [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def zeller(day: date) -> int:
    """Zeller, Acta Mathematica 9 (1887): the day of the week, Monday 1 to Sunday 7."""
    month, year = (day.month + 12, day.year - 1) if day.month < 3 else (day.month, day.year)
    h = (day.day + 13 * (month + 1) // 5 + year % 100 + year % 100 // 4 + year // 100 // 4 + 5 * (year // 100)) % 7
    return (h + 5) % 7 + 1


# Source: Zeller's congruence.
@given(st.dates(FIRST_NIGHT, LAST_NIGHT - timedelta(days=1)))
def test_one_night_follows_another_through_the_week(night):
    first, second = days.nights(night, night + timedelta(days=1))
    assert (first.isoweekday(), second.isoweekday()) == (zeller(first), zeller(second))
    assert second.isoweekday() == first.isoweekday() % 7 + 1


# Source: ISO 8601-1:2019, 5.2.2.1, extended format; the standard's example date.
def test_a_date_is_spelt_as_iso_8601_has_it():
    assert understood("1985-04-12", TONIGHT).first == date(1985, 4, 12)

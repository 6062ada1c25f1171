"""Dates as they are typed: in numbers, by names, in words, in the way of several countries."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.dates.spelling import Spelling, order_of, same
from keeper.dates.typed import understood
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import KeeperError, UnreadableDate

TONIGHT = date(2026, 11, 14)
"""A Saturday."""

NIGHTS = st.dates(FIRST_NIGHT, LAST_NIGHT)
DMY, MDY, YMD = Spelling("dmy"), Spelling("mdy"), Spelling("ymd")


def night(typed: str, spelling: Spelling = DMY) -> date:
    meant = understood(typed, TONIGHT, spelling)
    assert meant.first == meant.last, meant
    return meant.first


@given(NIGHTS, st.sampled_from((DMY, MDY, YMD)))
def test_a_date_written_out_by_its_year_is_read_back_whatever_the_order(day, spelling):
    for typed in (day.isoformat(), f"{day:%Y}/{day.month}/{day.day}", f"{day.year:04}.{day.month}.{day.day}."):
        meant = understood(typed, TONIGHT, spelling)
        assert (meant.first, meant.last, meant.sure) == (day, day, True)


@given(NIGHTS)
def test_numbers_are_read_in_the_order_of_the_country(day):
    assert night(f"{day.day}.{day.month}.{day.year}", DMY) == day
    assert night(f"{day.day:02}/{day.month:02}/{day.year}", YMD) == day
    assert night(f"{day.month}/{day.day}/{day.year}", MDY) == day


@given(NIGHTS)
def test_only_what_could_be_two_days_is_unsure(day):
    two = day.day <= 12 and day.day != day.month
    assert understood(f"{day.day}.{day.month}.{day.year}", TONIGHT, DMY).sure is not two
    assert understood(f"{day.month}/{day.day}/{day.year}", TONIGHT, MDY).sure is not two


@pytest.mark.parametrize(
    ("typed", "spelling", "day"),
    [
        ("3.6.2019", DMY, date(2019, 6, 3)), ("3.6.2019", MDY, date(2019, 3, 6)), ("3.6.2019", YMD, date(2019, 6, 3)),
        ("13/6/2019", MDY, date(2019, 6, 13)), ("6/13/2019", DMY, date(2019, 6, 13)),
        ("03-06-19", DMY, date(2019, 6, 3)), ("19-06-03", YMD, date(2019, 6, 3)), ("6/3/19", MDY, date(2019, 6, 3)),
        ("3.6.", DMY, date(2026, 6, 3)), ("6/13", DMY, date(2026, 6, 13)), ("1.1.27", DMY, date(2027, 1, 1)),
        ("1.1.28", DMY, date(1928, 1, 1)), ("6/3", MDY, date(2026, 6, 3)), ("24.12.", DMY, date(2025, 12, 24)),
        ("12/24", YMD, date(2025, 12, 24)), ("29.2.", DMY, date(2024, 2, 29)), ("1.1.99", DMY, date(1999, 1, 1)),
        ("\u0663/\u0666/\u0662\u0660\u0661\u0669", DMY, date(2019, 6, 3)),
        ("2019\u5e746\u67083\u65e5", YMD, date(2019, 6, 3)), ("6\u67083\u65e5", YMD, date(2026, 6, 3)),
        ("2019\ub144 6\uc6d4 3\uc77c", YMD, date(2019, 6, 3)),
    ],
)  # fmt: skip
def test_numbers(typed, spelling, day):
    assert night(typed, spelling) == day


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("3 June 2019", date(2019, 6, 3)), ("June 3 2019", date(2019, 6, 3)), ("June 3, 2019", date(2019, 6, 3)),
        ("2019 June 3", date(2019, 6, 3)), ("3rd of June 2019", date(2019, 6, 3)), ("3 JUN 19", date(2019, 6, 3)),
        ("Monday, 3 June 2019", date(2019, 6, 3)), ("mon 3 jun 2019", date(2019, 6, 3)), ("3-Jun-2019", date(2019, 6, 3)),
        ("sept 3 2019", date(2019, 9, 3)), ("3 June", date(2026, 6, 3)), ("24 December", date(2025, 12, 24)),
        ("tonight", TONIGHT), (" Today ", TONIGHT), ("yesterday", date(2026, 11, 13)), ("last night", date(2026, 11, 13)),
        ("the day before yesterday", date(2026, 11, 12)), ("tomorrow", date(2026, 11, 15)), ("last sunday", date(2026, 11, 8)),
        ("Sunday", date(2026, 11, 8)), ("saturday", TONIGHT), ("last Saturday", date(2026, 11, 7)), ("the 3rd", date(2026, 11, 3)),
        ("20th", date(2026, 10, 20)), ("31st", date(2026, 10, 31)), ("3 days ago", date(2026, 11, 11)),
        ("the 14th", TONIGHT), ("Monday 3 June", date(2024, 6, 3)), ("a week ago", date(2026, 11, 7)), ("5 months ago", date(2026, 6, 14)), ("2 years ago", date(2024, 11, 14)),
    ],
)  # fmt: skip
def test_names_and_words(typed, day):
    assert night(typed) == day


@pytest.mark.parametrize(
    ("typed", "first", "last"),
    [
        ("2026-11", date(2026, 11, 1), date(2026, 11, 30)), ("6.2019", date(2019, 6, 1), date(2019, 6, 30)),
        ("jun 2024", date(2024, 6, 1), date(2024, 6, 30)), ("jun '24", date(2024, 6, 1), date(2024, 6, 30)),
        ("June", date(2026, 6, 1), date(2026, 6, 30)), ("December", date(2025, 12, 1), date(2025, 12, 31)),
        ("november", date(2026, 11, 1), date(2026, 11, 30)), ("last november", date(2025, 11, 1), date(2025, 11, 30)),
        ("last june", date(2026, 6, 1), date(2026, 6, 30)), ("last year", date(2025, 1, 1), date(2025, 12, 31)),
        ("last month", date(2026, 10, 1), date(2026, 10, 31)), ("this year", date(2026, 1, 1), date(2026, 12, 31)),
        ("2019", date(2019, 1, 1), date(2019, 12, 31)), ("2019\u5e746\u6708", date(2019, 6, 1), date(2019, 6, 30)),
    ],
)  # fmt: skip
def test_months_and_years_have_two_ends(typed, first, last):
    meant = understood(typed, TONIGHT)
    assert (meant.first, meant.last, meant.sure) == (first, last, True)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("2026-02-31", "February 2026 has 28 days; there is no day 31."),
        ("2024-02-30", "February 2024 has 29 days; there is no day 30."),
        ("2026-11-00", "November 2026 has 30 days; there is no day 0."),
        ("2026-13-01", "There is no month 13; months go from 1 to 12."),
        ("31 February", "February 2026 has 28 days; there is no day 31."),
        ("32.12.2019", "December 2019 has 31 days; there is no day 32."),
        ("13.13.2019", "There is no month 13; months go from 1 to 12."),
        ("1799-12-31", "The year 1799 is too early; nights begin in 1800."),
        ("0000-01-01", "The year 0 is too early; nights begin in 1800."),
        ("9999-12-31", "The year 9999 is too far ahead; nights end in 2999."),
        ("99999 years ago", "The year 1 is too early; nights begin in 1800."),
        ("Sunday 14 November 2026", "14 November 2026 is a Saturday, not a Sunday."),
        ("soon", "\u201csoon\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday."),
    ],
)
def test_a_day_that_does_not_exist_is_told_of(typed, told):
    with pytest.raises(UnreadableDate) as caught:
        understood(typed, TONIGHT)
    assert str(caught.value) == told


@pytest.mark.parametrize("typed", ["12", "1.2", "1.2.3", "3 June 2019 ferry", "may may", "2019 2020", "123.4.2019", "3.6.201", "-", "\u0661",
                                   "June July", "mon tue", "last 3 june", "2019-06-03-04", "3 4 5 june", "123 june 2019", "monday june",
                                   "monday june 2019", "mon tue 3 june 2019", "3 f 2019", "3 oc 2019", "2019\u5e743\u65e5",
                                   "2019\u5e746\u67083\u65e5 ferry"])  # fmt: skip
def test_what_is_no_date_is_not_guessed_at(typed):
    if typed == "1.2":
        assert night(typed) == date(2026, 2, 1)
        return
    with pytest.raises(UnreadableDate, match="is not a date"):
        understood(typed, TONIGHT)


@given(st.text(max_size=30) | st.from_regex(r"[0-9 ./-]{1,12}", fullmatch=True) | st.from_regex(r"(mon|jun|may|last|ago|[0-9]| )+"),
       NIGHTS, st.sampled_from((DMY, MDY, YMD)))  # fmt: skip
def test_whatever_is_typed_is_a_date_or_told_of(typed, tonight, spelling):
    try:
        meant = understood(typed, tonight, spelling)
    except KeeperError as error:
        assert str(error).endswith(".")
    else:
        assert FIRST_NIGHT <= meant.first <= meant.last <= LAST_NIGHT


@given(st.integers(1, 12), st.integers(1, 28), NIGHTS)
def test_without_a_year_it_is_the_latest_such_day(month, day, tonight):
    if tonight < FIRST_NIGHT + timedelta(days=366):
        return
    found = understood(f"{day}.{month}.", tonight).first
    assert found <= tonight < date(found.year + 1, month, day)


def test_the_order_is_told_by_a_date_that_is_shown():
    assert order_of("25.12.31", "31", "12", "25") == "dmy"
    assert order_of("12/25/2031", "31", "12", "25") == "mdy"
    assert order_of("2031. 12. 25.", "31", "12", "25") == "ymd"
    assert order_of("\u0662\u0665\u200f/\u0661\u0662\u200f/\u0662\u0660\u0663\u0661", "31", "12", "25") == "dmy"
    assert order_of("Midwinter", "31", "12", "25") == "dmy"


def test_words_are_the_same_without_accents_capitals_and_a_last_dot():
    assert same("F\u00e9vr.") == same("FEVR") and same("HAZ\u0130RAN") == same("haziran") and same("\uc6d4\uc694\uc77c") == "\uc6d4\uc694\uc77c"


@pytest.mark.parametrize(
    ("typed", "tonight", "day"),
    [
        ("the 31st", date(2026, 3, 14), date(2026, 1, 31)),
        ("2 months ago", date(2026, 3, 31), date(2026, 1, 31)),
        ("a month ago", date(2026, 3, 31), date(2026, 2, 28)),
        ("Saturday 29 February", date(2020, 2, 28), date(1992, 2, 29)),
        # No leap year in 1900: forty years from one such Thursday to the next.
        ("Thursday 29 February", date(1912, 2, 29), date(1912, 2, 29)),
        ("Thursday 29 February", date(1912, 2, 28), date(1872, 2, 29)),
    ],
)
def test_the_latest_such_day_may_lie_far_back(typed, tonight, day):
    assert understood(typed, tonight).first == day


def test_weeks_from_before_the_calendar_are_told_of_as_any_others():
    with pytest.raises(UnreadableDate, match="too early; nights begin in 1800"):
        understood("99999 weeks ago", date(1900, 1, 1))


SPANISH = Spelling(
    "dmy",
    (("enero",), ("febrero",), ("marzo", "mar"), ("abril",), ("mayo",), ("junio",), ("julio",), ("agosto",),
     ("septiembre",), ("octubre",), ("noviembre",), ("diciembre",)),
    (("lunes", "lun"), ("martes", "mar"), ("mi\u00e9rcoles",), ("jueves",), ("viernes",), ("s\u00e1bado",), ("domingo",)),
    "es",
)  # fmt: skip


def test_a_word_that_is_a_month_and_a_weekday_is_what_the_others_leave():
    assert night("3 mar 2019", SPANISH) == date(2019, 3, 3)
    assert night("mar 4 junio 2019", SPANISH) == date(2019, 6, 4)


def test_three_letters_of_a_name_are_enough():
    assert night("3 feb 2019", SPANISH) == date(2019, 2, 3)
    assert night("3 dic 2019", SPANISH) == date(2019, 12, 3)


def test_a_weekday_behind_a_far_eastern_date_is_to_be_the_right_one():
    japanese = Spelling("ymd", (), tuple((sign,) for sign in "\u6708\u706b\u6c34\u6728\u91d1\u571f\u65e5"), "ja")
    assert night("2019\u5e746\u67083\u65e5(\u6708)", japanese) == date(2019, 6, 3)
    with pytest.raises(UnreadableDate, match="3 June 2019 is a Monday, not a Tuesday"):
        night("2019\u5e746\u67083\u65e5(\u706b)", japanese)


def test_of_what_is_no_date_only_the_beginning_is_said_again():
    with pytest.raises(UnreadableDate) as caught:
        understood("x" * 4000, TONIGHT)
    assert str(caught.value).startswith(f"\u201c{'x' * 40}\u201d is not a date")

"""Which earlier nights are worth showing, and why."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from keeper.days import days_apart, same_day
from keeper.model import Line, Moment, Night
from keeper.review.looking_back import (
    NEAR_THE_DAY,
    NOTHING,
    ON_THE_DAY,
    WEEK,
    LookingBack,
    chosen,
    days_to_look_at,
    last_time_there,
    without_resting,
)
from keeper.review.night import LOOKED_OVER, OFFERED, still_open
from keeper.study.awake import Awake

NIGHTS = st.dates(date(1990, 1, 1), date(2030, 12, 31))


@given(NIGHTS, st.sets(NIGHTS, max_size=60))
def test_only_candidates_are_shown_newest_first_and_for_the_reason_given(night, candidates):
    before = sorted(candidate for candidate in candidates if candidate < night)
    why, shown = chosen(night, before)
    assert set(shown) <= set(before)
    assert list(shown) == sorted(shown, reverse=True)
    assert (why == NOTHING) == (not shown)
    if why == ON_THE_DAY:
        assert set(shown) == {candidate for candidate in before if same_day(night, candidate)}
    if why == NEAR_THE_DAY:
        assert all(0 < abs(days_apart(night, one)) <= WEEK for one in shown)
        assert not any(same_day(night, candidate) for candidate in before)


@given(NIGHTS, st.sets(st.integers(1, 3000), max_size=60))
def test_of_each_other_years_week_the_nearest_night_is_shown(night, ages):
    before = [night - timedelta(days=age) for age in ages]
    why, shown = chosen(night, before)
    if why == NEAR_THE_DAY:
        for one in shown:
            rivals = [other for other in before if abs((other - one).days) <= 2 * WEEK]
            assert abs(days_apart(night, one)) == min(abs(days_apart(night, rival)) for rival in rivals)
        assert all(abs((one - other).days) > 300 for one in shown for other in shown if one != other)


@given(NIGHTS, NIGHTS)
def test_whatever_can_be_shown_is_looked_at(night, candidate):
    if candidate < night and chosen(night, [candidate])[0] != NOTHING:
        assert candidate.isoformat()[5:] in days_to_look_at(night)


def test_last_week_is_no_other_year():
    night = date(2026, 11, 14)
    assert chosen(night, [night - timedelta(days=n) for n in range(1, 20)]) == (NOTHING, ())


def test_the_week_reaches_over_new_year():
    assert chosen(date(2026, 1, 1), [date(2024, 12, 30)]) == (NEAR_THE_DAY, (date(2024, 12, 30),))
    assert chosen(date(2025, 12, 31), [date(2025, 1, 2), date(2023, 12, 29)]) == (
        NEAR_THE_DAY, (date(2025, 1, 2), date(2023, 12, 29)))  # fmt: skip


def test_a_leap_day_in_a_leap_year_and_in_a_common_one():
    days = [date(2024, 2, 29), date(2023, 2, 28)]
    assert chosen(date(2026, 2, 28), days) == (ON_THE_DAY, tuple(days))
    assert chosen(date(2028, 2, 29), days) == (ON_THE_DAY, (date(2024, 2, 29),))
    assert chosen(date(2028, 2, 28), days) == (ON_THE_DAY, (date(2023, 2, 28),))


def test_the_last_time_is_the_stay_before_this_one():
    night = date(2026, 11, 14)
    here = [night - timedelta(days=n) for n in (1, 2, 4, 30, 31, 32, 33, 80)]
    assert last_time_there(night, here) == tuple(here[3:6])
    assert last_time_there(night, here[:3]) == ()
    assert last_time_there(night, []) == ()


@given(NIGHTS, st.sets(st.integers(1, 90), max_size=40))
def test_the_last_time_is_never_part_of_this_stay(night, ages):
    there = [night - timedelta(days=age) for age in sorted(ages)]
    shown = last_time_there(night, there)
    assert len(shown) <= 3
    assert list(shown) == [one for one in there if one in shown]
    if shown:
        later = [one for one in [night, *there] if one > shown[0]]
        assert (later[-1] - shown[0]).days > 3


def test_a_line_at_rest_is_left_out_and_the_others_stay():
    moment = Moment(None, 0, "")
    lines = tuple(Line(str(n), date(2026, 1, 1), "memory", "Text.", moment, resting=n == 1) for n in range(3))
    night = Night(date(2026, 1, 1), lines, None, "", 4)
    assert without_resting(night, Awake()) == Night(date(2026, 1, 1), (lines[0], lines[2]), None, "", 4)


def test_a_looking_back_knows_whether_it_is_of_the_very_day():
    assert LookingBack(date(2026, 1, 1), ON_THE_DAY).on_the_day
    assert not LookingBack(date(2026, 1, 1), NEAR_THE_DAY).on_the_day


@given(NIGHTS, st.frozensets(st.integers(1, 40)), st.integers(0, 60))
def test_open_nights_are_the_newest_without_a_line_since_the_keeper_was_begun(tonight, ages, begun):
    kept = frozenset(tonight - timedelta(days=age) for age in ages)
    first = tonight - timedelta(days=begun)
    missed = [tonight - timedelta(days=n) for n in range(1, min(begun, LOOKED_OVER) + 1)]
    expected = [night for night in missed if night not in kept][:OFFERED]
    assert list(still_open(tonight, kept, first)) == expected


def test_a_keeper_not_begun_has_missed_nothing():
    assert still_open(date(2026, 1, 1), frozenset(), None) == ()

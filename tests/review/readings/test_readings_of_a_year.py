"""A year's readings by month and by week."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Reading, Tracker
from keeper.review.readings.year import week, week_begins, weeks, year_readings
from keeper.study.readings.spread import Spread

NIGHTS = st.dates(date(2025, 1, 1), date(2026, 12, 31))
NOTED = st.dictionaries(NIGHTS, st.just(0.0) | st.floats(0, 10), min_size=1, max_size=60)


def tracker(form: str = "scale", began=date(2025, 1, 1), ended=None, name="t") -> Tracker:
    return Tracker(name, name, form, 0.0, 10.0, "", "higher", began, ended)


def readings(noted, name="t"):
    return [Reading(night, name, value) for night, value in noted.items()]


def test_medians_come_with_quartiles_nights_and_the_year_before():
    noted = {date(2026, 1, day): value for day, value in ((1, 4.0), (2, 7.0), (3, 9.0))} | {date(2025, 1, 5): 3.0}
    (found,) = year_readings(2026, [tracker()], readings(noted), set(), {})
    assert found.months[0] == Spread(7.0, 5.5, 8.0, 3) and found.months[1] == Spread()
    assert found.before[0] == Spread(3.0, 3.0, 3.0, 1)
    assert (found.weeks[0], found.weeks_before[0]) == (Spread(7.0, 5.5, 8.0, 3), Spread(3.0, 3.0, 3.0, 1))


def test_a_tracker_not_noted_in_the_year_is_not_shown():
    assert year_readings(2026, [tracker()], [Reading(date(2025, 1, 5), "t", 3.0)], set(), {}) == ()


def test_a_mark_left_empty_is_a_no_only_where_its_tracker_lived_and_the_night_was_kept():
    kept = {date(2026, 1, 1) + timedelta(days=n) for n in range(40)}
    swam = tracker("mark", date(2026, 1, 11), date(2026, 2, 4))
    (found,) = year_readings(2026, [swam], [Reading(date(2026, 1, 20), "t", 1.0)], kept, {})
    assert (found.months[0].middle, found.months[0].nights) == (1 / 21, 21)
    assert (found.months[1].middle, found.months[1].nights) == (0.0, 4)


@given(NOTED, st.sets(NIGHTS, max_size=40))
def test_what_is_told_is_numpy_s_of_what_was_noted_and_empty_nights_change_nothing(noted, empty):
    found = year_readings(2026, [tracker()], readings(noted), set(), {})
    assert found == year_readings(2026, [tracker()], readings(noted), empty, {})
    for of in found:
        for month, one in enumerate(of.months, 1):
            values = [value for night, value in noted.items() if (night.year, night.month) == (2026, month)]
            wanted = np.quantile(values, [0.5, 0.25, 0.75]) if values else [None] * 3
            assert one.nights == len(values)
            assert (one.middle, one.low, one.high) == (pytest.approx(tuple(wanted)) if values else (None, None, None))
        assert sum(one.nights for one in of.weeks) == sum(one.nights for one in of.months)


@given(NOTED, st.sets(NIGHTS, max_size=40))
def test_a_mark_counts_only_nights_that_were_kept_and_those_noted(noted, written):
    noted = {night: float(value > 5) for night, value in noted.items()}
    swam = tracker("mark", date(2025, 6, 1), date(2026, 8, 31))
    for of in year_readings(2026, [swam], readings(noted), {*written, *noted}, {}):
        for month, one in enumerate(of.months, 1):
            counted = {night for night in {*written, *noted} if (night.year, night.month) == (2026, month)}
            counted = {night for night in counted if swam.in_force(night) or night in noted}
            assert one.nights == len(counted)
            assert one.nights == 0 or one.middle == sum(noted.get(night, 0.0) for night in counted) / len(counted)


@given(NOTED, NOTED, st.sampled_from(["scale", "mark"]))
def test_the_order_of_trackers_changes_nothing_but_their_order(one, other, form):
    some = [tracker(form, name="a"), tracker(form, name="b")]
    noted = readings(one, "a") + readings(other, "b")
    kept = {reading.night for reading in noted}
    assert year_readings(2026, some[::-1], noted[::-1], kept, {}) == year_readings(2026, some, noted, kept, {})[::-1]


@given(st.dates(date(1, 1, 1), date(9999, 12, 31)))
def test_weeks_begin_where_those_of_iso_8601_do(night):
    number = week(night)
    assert 1 <= number <= weeks(night.year) <= 54
    begins = week_begins(night.year, number)
    assert begins <= night and (begins.isoweekday() == 1 or begins == date(night.year, 1, 1))
    assert begins.isocalendar()[:2] == night.isocalendar()[:2]

"""Nights, anniversaries and spans."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper import days
from keeper.days import FIRST_NIGHT, LAST_NIGHT

NIGHTS = st.dates(FIRST_NIGHT, LAST_NIGHT)
YEARS = st.integers(FIRST_NIGHT.year, LAST_NIGHT.year)
ZONES = st.sampled_from(
    [ZoneInfo(name) for name in ("Europe/Berlin", "Pacific/Apia", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC")]
)
HOURS = st.integers(0, 12)


@pytest.mark.parametrize(
    ("moment", "rollover", "night"),
    [
        (datetime(2026, 11, 15, 0, 30), 4, date(2026, 11, 14)),
        (datetime(2026, 11, 15, 3, 59, 59), 4, date(2026, 11, 14)),
        (datetime(2026, 11, 15, 4, 0), 4, date(2026, 11, 15)),
        (datetime(2026, 11, 15, 0, 0), 0, date(2026, 11, 15)),
        (datetime(2026, 11, 15, 11, 59), 12, date(2026, 11, 14)),
        (datetime(2024, 3, 1, 1, 0), 4, date(2024, 2, 29)),
        (datetime(2027, 1, 1, 1, 0), 4, date(2026, 12, 31)),
    ],
)
def test_before_the_rollover_hour_it_is_still_the_night_before(moment, rollover, night):
    assert days.night_of(moment, rollover) == night


@given(st.datetimes(datetime(1801, 1, 1), datetime(2998, 1, 1)), HOURS)
def test_a_night_is_the_wall_clocks_day_shifted_by_the_rollover(moment, rollover):
    assert days.night_of(moment, rollover) == (moment - timedelta(hours=rollover)).date()


@given(st.datetimes(datetime(1950, 1, 1), datetime(2037, 1, 1)), ZONES, HOURS)
def test_staying_in_one_zone_no_night_is_lost_unless_the_zone_itself_skipped_it(start, zone, rollover):
    instants = [start.replace(tzinfo=UTC) + timedelta(hours=n) for n in range(72)]
    seen = [days.night_of(instant.astimezone(zone), rollover) for instant in instants]
    steps = [(later - earlier).days for earlier, later in pairwise(seen)]
    assert all(step in (0, 1) for step in steps) or zone.key == "Pacific/Apia"


@given(NIGHTS.filter(lambda n: n.year < 2900), ZONES, HOURS)
def test_a_nights_length_is_the_time_that_really_passes(night, zone, rollover):
    begins = datetime(night.year, night.month, night.day, rollover, tzinfo=zone)
    after = night + timedelta(days=1)
    ends = datetime(after.year, after.month, after.day, rollover, tzinfo=zone)
    assert days.length(night, zone, rollover) == ends.astimezone(UTC) - begins.astimezone(UTC)


@given(NIGHTS, YEARS)
def test_an_anniversary_is_the_same_day_of_that_year(night, year):
    there = days.anniversary(night, year)
    assert there.year == year
    assert (there.month, there.day) in {(night.month, night.day), (2, 28)}
    assert (there.day == night.day) or (night.month, night.day) == (2, 29)


def test_a_leap_day_is_brought_up_on_the_28th_in_common_years_only():
    leap = date(2024, 2, 29)
    assert days.same_day(date(2025, 2, 28), leap)
    assert not days.same_day(date(2028, 2, 28), leap)
    assert days.same_day(date(2028, 2, 29), leap)
    assert not days.same_day(date(2028, 2, 29), date(2025, 2, 28))


@given(NIGHTS)
def test_every_night_is_brought_up_exactly_once_each_later_year(night):
    for year in range(night.year + 1, min(night.year + 9, LAST_NIGHT.year)):
        brought_up = [day for day in days.nights(date(year, 1, 1), date(year, 12, 31)) if days.same_day(day, night)]
        assert brought_up == [days.anniversary(night, year)]


@given(NIGHTS, NIGHTS)
def test_days_apart_is_never_more_than_half_a_year(night, other):
    apart = days.days_apart(night, other)
    assert -183 <= apart <= 183
    assert (apart == 0) == (days.anniversary(other, night.year) == night)


def test_days_apart_reaches_over_new_year():
    assert days.days_apart(date(2026, 12, 31), date(2020, 1, 2)) == 2
    assert days.days_apart(date(2026, 1, 1), date(2020, 12, 30)) == -2


@given(NIGHTS)
def test_months_follow_one_another(night):
    assert days.last_month(days.next_month(night)) == days.first_of_month(night)
    assert days.next_month(night) == days.last_of_month(night) + timedelta(days=1)
    assert days.first_of_month(night) <= night <= days.last_of_month(night)


@given(NIGHTS, st.integers(0, 800))
def test_a_span_holds_both_ends_and_each_night_once(first, length):
    last = min(first + timedelta(days=length), LAST_NIGHT)
    span = list(days.nights(first, last))
    assert (span[0], span[-1], len(span)) == (first, last, (last - first).days + 1)


def test_a_span_backwards_is_empty():
    assert list(days.nights(date(2026, 1, 2), date(2026, 1, 1))) == []

"""Hours from one time until another, past midnight and over a change of the clock.

Checked against zoneinfo by walking: minute after minute of UTC is shown on the
wall until the wall shows the other time (IANA time zone database).
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keeper.study.readings.hours import Whence, between, two_times

BERLIN, LATER = ZoneInfo("Europe/Berlin"), datetime(2027, 1, 1, tzinfo=UTC)
# Its clocks change by half an hour only.
LORD_HOWE = ZoneInfo("Australia/Lord_Howe")


def walked(begins: datetime, until: time) -> float:
    """The hours that pass until the wall shows a time again, by walking."""
    at, minutes = begins.astimezone(UTC), 0
    while True:
        at, minutes = at + timedelta(minutes=1), minutes + 1
        wall = at.astimezone(begins.tzinfo)
        if (wall.hour, wall.minute) == (until.hour, until.minute):
            return minutes / 60


@pytest.mark.parametrize(
    ("first", "until", "night", "hours"),
    [
        ("23:30", "06:45", date(2026, 6, 3), 7.25), ("09:00", "17:00", date(2026, 6, 3), 8.0),
        # The clocks go on in the night to 29 March 2026, and back in that to 25 October.
        ("23:30", "06:45", date(2026, 3, 28), 6.25), ("23:30", "06:45", date(2026, 10, 24), 8.25),
        ("00:30", "07:00", date(2026, 3, 28), 5.5), ("20:00", "20:00", date(2026, 3, 28), 23.0),
    ],
)  # fmt: skip
def test_hours_are_those_that_passed(first, until, night, hours):
    assert between(time.fromisoformat(first), time.fromisoformat(until), night, Whence(BERLIN, LATER)) == hours


def test_what_is_not_over_yet_was_the_day_before():
    evening = datetime(2026, 3, 29, 22, 0, tzinfo=BERLIN)
    assert between(time(23, 30), time(6, 45), date(2026, 3, 29), Whence(BERLIN, evening)) == 6.25
    morning = datetime(2026, 3, 30, 9, 0, tzinfo=BERLIN)
    assert between(time(23, 30), time(6, 45), date(2026, 3, 29), Whence(BERLIN, morning)) == 7.25


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([date(2026, 3, 27), date(2026, 3, 28), date(2026, 3, 29), date(2026, 4, 4), date(2026, 10, 3), date(2026, 10, 24)]),
    st.times().map(lambda one: one.replace(second=0, microsecond=0)),
    st.times().map(lambda one: one.replace(second=0, microsecond=0)),
    st.sampled_from([BERLIN, LORD_HOWE, ZoneInfo("America/St_Johns")]),
)
def test_hours_agree_with_the_time_zone_database(night, first, until, zone):
    begins = datetime.combine(night + timedelta(days=first.hour < 4), first, zone)
    ends = datetime.combine(begins.date() + timedelta(days=until <= first), until, zone)
    for one in (begins, ends):
        # A time that the clock leaves out, or shows twice, cannot be walked to.
        back = one.astimezone(UTC).astimezone(zone)
        if back.replace(tzinfo=None) != one.replace(tzinfo=None) or one.utcoffset() != one.replace(fold=1).utcoffset():
            return
    assert between(first, until, night, Whence(zone, LATER)) == pytest.approx(walked(begins, until))


@given(
    st.dates(date(1990, 1, 1), date(2030, 1, 1)), st.times(), st.times(), st.sampled_from([BERLIN, LORD_HOWE, ZoneInfo("Asia/Tokyo")])
)
def test_hours_are_never_less_than_none_nor_more_than_a_day_and_an_hour(night, first, until, zone):
    assert 0 <= between(first, until, night, Whence(zone, datetime(2031, 1, 1, tzinfo=UTC))) <= 25


@pytest.mark.parametrize(
    ("typed", "first", "until"),
    [
        ("23:30-6:45", "23:30", "06:45"), ("23:30 \u2013 06:45", "23:30", "06:45"), ("from 23:30 until 6:45", "23:30", "06:45"),
        ("23-7", "23:00", "07:00"), ("23.30-6.45", "23:30", "06:45"), ("11pm to 6:45 am", "23:00", "06:45"),
        ("12am-12pm", "00:00", "12:00"), ("22h30-6h", "22:30", "06:00"), ("24:00-6:00", "00:00", "06:00"),
    ],
)  # fmt: skip
def test_two_times_are_read_however_they_are_spelt(typed, first, until):
    assert two_times(typed) == (time.fromisoformat(first), time.fromisoformat(until))


@pytest.mark.parametrize("typed", ["", "23:30", "25:00-6:00", "23:61-6:00", "13pm-6", "7.5", "-", "a-b"])
def test_what_is_not_two_times_is_none(typed):
    assert two_times(typed) is None

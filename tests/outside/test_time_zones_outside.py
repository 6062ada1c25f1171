"""Nights where clocks change and over the date line, against the IANA time zone database.

The database is read through ``zoneinfo`` and ``tzdata``; what each check says
of a place was published there (files europe, australasia, northamerica).
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions import reading, writing
from keeper.clock import StoppedClock
from keeper.days import length, night_of

HOUR = timedelta(hours=1)


def nights_lived(zone: str, begins: datetime, hours: int, rollover: int = 4) -> list[date]:
    """The nights seen on the wall clock of a zone, hour after hour, each once."""
    seen = [night_of((begins + n * HOUR).astimezone(ZoneInfo(zone)), rollover) for n in range(hours)]
    return list(dict.fromkeys(seen))


# Source: IANA tz, rule EU: last Sundays of March and October at 01:00 UTC;
# rule US: second Sunday of March and first of November at 02:00;
# rule LH (Lord Howe): half an hour, first Sundays of October and April.
@pytest.mark.parametrize(
    ("zone", "night", "rollover", "hours"),
    [
        ("Europe/Berlin", date(2026, 3, 28), 4, 23),
        ("Europe/Berlin", date(2026, 3, 29), 4, 24),
        ("Europe/Berlin", date(2026, 10, 24), 4, 25),
        ("Europe/Berlin", date(2026, 3, 29), 0, 23),
        ("America/New_York", date(2026, 3, 7), 4, 23),
        ("America/New_York", date(2026, 10, 31), 4, 25),
        ("Australia/Lord_Howe", date(2026, 10, 3), 4, 23.5),
        ("Australia/Lord_Howe", date(2026, 4, 4), 4, 24.5),
        ("Pacific/Honolulu", date(2026, 3, 8), 4, 24),
        ("Asia/Tokyo", date(2026, 10, 25), 4, 24),
    ],
)
def test_the_length_of_a_night_where_clocks_change(zone, night, rollover, hours):
    assert length(night, ZoneInfo(zone), rollover) == timedelta(hours=hours)


# Source: the same rules: the hour that is missing or comes twice loses no night.
@pytest.mark.parametrize("rollover", [0, 2, 3, 4, 12])
@pytest.mark.parametrize(
    ("zone", "day"),
    [("Europe/Berlin", (2026, 3, 29)), ("Europe/Berlin", (2026, 10, 25)), ("America/New_York", (2026, 11, 1)),
     ("America/Sao_Paulo", (2018, 11, 4)), ("Australia/Lord_Howe", (2026, 4, 5))],
)  # fmt: skip
def test_a_clock_change_neither_loses_nor_doubles_a_night(zone, day, rollover):
    begins = datetime(*day, tzinfo=UTC) - timedelta(days=3)
    lived = nights_lived(zone, begins, 24 * 6, rollover)
    assert lived == [lived[0] + timedelta(days=n) for n in range(len(lived))]
    assert 6 <= len(lived) <= 8


# Source: IANA tz, zone Pacific/Apia: Samoa had no 30 December 2011; at the end
# of the 29th it went from UTC-10 to UTC+14 (summer time). Zone
# Pacific/Kiritimati: the Line Islands had no 31 December 1994.
SKIPPED = [("Pacific/Apia", date(2011, 12, 30)), ("Pacific/Kiritimati", date(1994, 12, 31))]


@pytest.mark.parametrize(("zone", "skipped"), SKIPPED)
def test_a_date_that_a_country_skipped_has_no_night_of_its_own(zone, skipped):
    begins = datetime(skipped.year, skipped.month, skipped.day, tzinfo=UTC) - timedelta(days=2)
    lived = nights_lived(zone, begins, 24 * 5, rollover=0)
    assert skipped not in lived
    assert {skipped - timedelta(days=1), skipped + timedelta(days=1)} <= set(lived)
    assert length(skipped - timedelta(days=1), ZoneInfo(zone), 0) == timedelta(hours=24)
    assert length(skipped, ZoneInfo(zone), 0) == timedelta(0)


# Source: the same. Where the night ends at 04:00, the four hours after the
# skipped midnight take the skipped date: what is written then has a night of
# its own, and no other night comes twice.
@pytest.mark.parametrize(("zone", "skipped"), SKIPPED)
def test_hours_after_a_skipped_midnight_neither_lose_nor_double_a_night(zone, skipped):
    begins = datetime(skipped.year, skipped.month, skipped.day, tzinfo=UTC) - timedelta(days=2)
    hours = [night_of((begins + n * HOUR).astimezone(ZoneInfo(zone)), 4) for n in range(24 * 5)]
    assert hours == sorted(hours)
    assert hours.count(skipped) == 4
    assert hours.count(skipped - timedelta(days=1)) == hours.count(skipped + timedelta(days=1)) - 4 == 20


# Source: IANA tz: Pacific/Honolulu is UTC-10, Pacific/Kiritimati UTC+14: the same
# time of day, one date apart.
def test_the_date_line_lies_between_honolulu_and_kiritimati():
    evening = datetime(2026, 3, 2, 7, tzinfo=UTC)
    west, east = (night_of(evening.astimezone(ZoneInfo(f"Pacific/{name}"))) for name in ("Honolulu", "Kiritimati"))
    assert (west, east) == (date(2026, 3, 1), date(2026, 3, 2))


def write_at(store, evening: datetime, zone: str) -> date:
    """Write tonight's line where the person is; returns the night."""
    clock = StoppedClock(evening.astimezone(ZoneInfo(zone)), zone)
    night = clock.tonight(4)
    writing.write_line(store, night, "memory", f"From {zone} at {evening:%H:%M}.", clock)
    return night


# Source: the same offsets. Westward a date is lived twice: the line is the same
# night's, and its earlier wording is kept. Eastward a date is not lived: that
# night stays open.
def test_crossing_the_date_line_with_a_line_each_evening(store):
    east = [write_at(store, datetime(2026, 3, day, 7, tzinfo=UTC), "Pacific/Kiritimati") for day in (2, 3)]
    west = [write_at(store, datetime(2026, 3, day, 7, tzinfo=UTC), "Pacific/Honolulu") for day in (4, 5)]
    assert east + west == [date(2026, 3, 2), date(2026, 3, 3), date(2026, 3, 3), date(2026, 3, 4)]
    assert [tick.night.day for tick in reading.ticks(store, date(2026, 3, 1), date(2026, 3, 31))] == [2, 3, 4]
    (earlier,) = reading.wordings(store, date(2026, 3, 3), "memory")
    assert (earlier.written.zone, earlier.written.offset_minutes) == ("Pacific/Kiritimati", 14 * 60)
    back = write_at(store, datetime(2026, 3, 6, 7, tzinfo=UTC), "Pacific/Kiritimati")
    assert back == date(2026, 3, 6)
    assert reading.night_page(store, back, back).still_open[0] == date(2026, 3, 5)


# Source: every zone of the database as installed; before the rollover hour a
# night's date is one day behind the wall clock's, else the same.
@given(st.timezones(), st.datetimes(datetime(1970, 1, 1), datetime(2037, 1, 1)), st.integers(0, 12))
def test_in_every_zone_the_night_follows_the_wall_clock(zone, moment, rollover):
    local = moment.replace(tzinfo=UTC).astimezone(zone)
    behind = (local.date() - night_of(local, rollover)).days
    assert behind == (1 if local.hour < rollover else 0)


# Source: RFC 3339, section 4.3 and 5.6: a local time is UTC plus the offset.
@given(st.timezones(), st.datetimes(datetime(1980, 1, 1), datetime(2037, 1, 1)))
def test_a_moment_gives_back_the_wall_clock(zone, moment):
    local = moment.replace(tzinfo=UTC, microsecond=0).astimezone(zone)
    written = StoppedClock(local, zone.key).moment()
    assert (written.utc + timedelta(minutes=written.offset_minutes)).replace(tzinfo=None) == local.replace(tzinfo=None)

"""What time it is where the person is."""

import os
import time
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.clock import Clock, StoppedClock

OFFSETS = st.integers(-12 * 60, 14 * 60)


@pytest.fixture
def travel():
    """Call it with a zone, and the computer is there."""
    if not hasattr(time, "tzset"):
        pytest.skip("The zone cannot be changed from within here.")
    before = os.environ.get("TZ")

    def there(zone: str) -> None:
        os.environ["TZ"] = zone

    yield there
    os.environ.pop("TZ", None) if before is None else os.environ.update(TZ=before)
    time.tzset()


def test_the_clock_is_aware_and_right():
    now = Clock().now()
    assert now.tzinfo is not None
    assert abs(now - datetime.now(UTC)) < timedelta(seconds=5)


def test_a_running_program_follows_the_zone_as_the_person_travels(travel):
    clock, seen = Clock(), []
    for zone in ("Pacific/Kiritimati", "Pacific/Honolulu", "Asia/Kathmandu"):
        travel(zone)
        moment = clock.moment()
        seen.append((moment.zone, moment.offset_minutes))
    assert seen == [("Pacific/Kiritimati", 14 * 60), ("Pacific/Honolulu", -10 * 60), ("Asia/Kathmandu", 345)]


def test_the_zone_is_asked_for_again_when_the_system_was_given_another(monkeypatch):
    asked, zones = [], iter([(1, 10), (1, 10), (2, 10), (2, 10)])
    monkeypatch.setattr("keeper.clock._zone_set", lambda: next(zones))
    monkeypatch.setattr("keeper.clock.time.monotonic", lambda: 90.0)
    monkeypatch.setattr("keeper.clock.time.tzset", lambda: asked.append(1), raising=False)
    told = []
    for _ in range(4):
        Clock().now()
        told.append(len(asked))
    assert told == [1, 1, 2, 2]


def test_a_zone_that_is_none_is_not_told(travel):
    travel("Nowhere/Atall")
    assert Clock().moment().zone == ""


@given(st.datetimes(datetime(1900, 1, 1), datetime(2900, 1, 1)), OFFSETS)
def test_a_moment_is_utc_with_the_offset_that_was_lived(local, minutes):
    at = local.replace(tzinfo=timezone(timedelta(minutes=minutes)))
    moment = StoppedClock(at, "Some/Where").moment()
    assert moment.utc == at
    assert moment.utc.utcoffset() == timedelta(0)
    assert moment.utc.replace(tzinfo=None) + timedelta(minutes=moment.offset_minutes) == local
    assert moment.zone == "Some/Where"


def test_tonight_is_the_night_before_until_the_rollover_hour():
    at = datetime(2026, 11, 15, 0, 30, tzinfo=UTC)
    assert StoppedClock(at).tonight(4) == date(2026, 11, 14)
    assert StoppedClock(at).tonight(0) == date(2026, 11, 15)

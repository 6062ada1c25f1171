"""The place of the nights before, carried on, or left where the clock was moved."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from keeper.actions import reading, writing
from keeper.actions.places import known as places
from keeper.clock import StoppedClock
from keeper.model import Place
from keeper.store import nights
from keeper.store.places import named as kept

FIRST = date(2026, 11, 10)
LISBON = Place("", "Lisbon", latitude=38.7, longitude=-9.1, zone="Europe/Lisbon")


def clock_in(zone: str, night: int = 0, named: bool = True) -> StoppedClock:
    """Half past ten in the evening of a night, as a clock of a zone shows it."""
    evening = datetime.combine(FIRST + timedelta(days=night), datetime.min.time()).replace(hour=22, minute=30)
    return StoppedClock(evening.replace(tzinfo=ZoneInfo(zone)), zone if named else "")


@pytest.fixture
def write(store):
    """Writes a line of a night, by number, with a clock; returns the name of the night's place."""

    def write_line(night: int, clock: StoppedClock, kind: str = "memory") -> str:
        writing.write_line(store, FIRST + timedelta(days=night), kind, f"Night {night}.", clock)
        place = nights.one(store, FIRST + timedelta(days=night)).place
        return place.name if place else ""

    return write_line


@pytest.fixture
def at(store):
    """Says that a night, by number, was spent at a place."""

    def say(night: int, place: Place, source: str = "said") -> Place:
        there = kept.named(store, place.name) or kept.add(store, place)
        nights.set_place(store, FIRST + timedelta(days=night), there.id, source, "2026-11-10T20:00:00.000000Z")
        return there

    return say


def test_from_lisbon_to_tokyo_and_to_honolulu_nothing_is_carried_on(store, write, at):
    at(0, LISBON)
    assert write(1, clock_in("Europe/Lisbon", 1)) == "Lisbon"
    assert write(2, clock_in("Asia/Tokyo", 2)) == ""
    assert write(6, clock_in("Pacific/Honolulu", 6)) == ""
    assert write(7, clock_in("Europe/Lisbon", 7)) == "Lisbon"
    page = reading.night_page(store, FIRST + timedelta(days=9), FIRST, clock_in("Asia/Tokyo", 9).moment())
    assert (page.carried, page.left.name) == (None, "Lisbon")
    page = reading.night_page(store, FIRST + timedelta(days=9), FIRST, clock_in("Europe/Lisbon", 9).moment())
    assert (page.carried.name, page.left) == ("Lisbon", None)


def test_zones_of_one_time_are_not_told_apart(write, at):
    at(0, Place("", "Kalmar", latitude=56.7, longitude=16.4, zone="Europe/Stockholm"))
    assert write(1, clock_in("Europe/Berlin", 1)) == "Kalmar"
    assert write(2, clock_in("Europe/Berlin", 2, named=False)) == "Kalmar"


def test_a_clock_without_a_zones_name_is_known_by_its_offset(write, at):
    at(0, LISBON)
    assert write(1, clock_in("Asia/Tokyo", 1, named=False)) == ""
    assert write(2, clock_in("Europe/Lisbon", 2, named=False)) == "Lisbon"


@pytest.mark.parametrize("zone", ["", "UTC", "Etc/UTC"])
def test_a_computer_that_was_never_told_where_it_is_says_nothing(write, at, zone):
    at(0, Place("", "Tokyo", latitude=35.7, longitude=139.7, zone="Asia/Tokyo"))
    evening = datetime(2026, 11, 11, 22, 30, tzinfo=UTC)
    assert write(1, StoppedClock(evening, zone)) == "Tokyo"


def test_who_says_where_they_are_on_a_clock_from_home_is_believed(write, at):
    at(0, LISBON)
    write(0, clock_in("Europe/Berlin", 0))
    assert write(1, clock_in("Europe/Berlin", 1)) == "Lisbon"
    assert write(2, clock_in("Europe/Berlin", 2), "gratitude") == "Lisbon"
    assert write(3, clock_in("Asia/Tokyo", 3)) == ""


def test_nights_carried_on_wrongly_before_are_no_reason_to_go_on(write, at):
    at(0, LISBON)
    at(1, LISBON, "carried")
    write(1, clock_in("Asia/Tokyo", 1))
    assert write(2, clock_in("Asia/Tokyo", 2)) == ""


def test_what_was_filled_in_afterwards_says_nothing_of_where_one_is(write, at):
    at(0, LISBON)
    write(0, clock_in("Asia/Tokyo", 4))
    assert write(4, clock_in("Asia/Tokyo", 4)) == ""


def test_nights_long_past_are_typed_up_whatever_the_clock(write, at):
    at(-800, LISBON)
    assert write(-799, clock_in("Asia/Tokyo", 0)) == "Lisbon"


def test_a_place_without_a_zone_is_known_by_the_clock_of_its_lines(store, write, at):
    at(0, Place("", "Granny\u2019s"))
    assert write(1, clock_in("Asia/Tokyo", 1)) == "Granny\u2019s", "nothing is known of it"
    assert write(2, clock_in("Asia/Tokyo", 2)) == "Granny\u2019s"
    assert write(3, clock_in("Europe/Lisbon", 3)) == ""
    places.set_coordinates(store, kept.named(store, "Granny\u2019s").id, "38.7, -9.1")
    assert write(4, clock_in("Europe/Lisbon", 4)) == "Granny\u2019s"


def test_summer_time_is_no_journey(write, at):
    at(0, Place("", "Granny\u2019s"))
    before, after = datetime(2026, 10, 24, 22, tzinfo=UTC), datetime(2026, 10, 25, 22, tzinfo=UTC)
    days = [(one.date() - FIRST).days for one in (before, after)]
    at(days[0], Place("", "Granny\u2019s"))
    for number, one in zip(days, (before, after), strict=True):
        berlin = StoppedClock(one.astimezone(ZoneInfo("Europe/Berlin")), "")
        assert write(number, berlin) == "Granny\u2019s"


def test_the_zone_of_a_place_on_the_way_says_nothing(store, write, at):
    ferry = at(0, Place("", "The ferry", latitude=38.7, longitude=-9.1, zone="Europe/Lisbon"))
    places.set_on_the_way(store, ferry.id, True)
    write(0, clock_in("Asia/Tokyo", 0))
    assert write(1, clock_in("Asia/Tokyo", 1)) == "The ferry"
    assert write(2, clock_in("Europe/Lisbon", 2)) == ""


def test_an_older_place_of_the_same_zone_is_not_gone_back_to(write, at):
    at(0, Place("", "Tokyo", latitude=35.7, longitude=139.7, zone="Asia/Tokyo"))
    at(1, LISBON)
    assert write(2, clock_in("Asia/Tokyo", 2)) == ""


def test_a_place_that_was_said_is_never_touched(write, at):
    at(0, LISBON)
    at(1, Place("", "Sintra"))
    assert write(1, clock_in("Asia/Tokyo", 1)) == "Sintra"
    assert write(1, clock_in("Europe/Lisbon", 1), "gratitude") == "Sintra"

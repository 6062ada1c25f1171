"""Where nights were spent, said on the command line; and what it carries on."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from keeper.actions import opening, reading
from keeper.actions.places import known as places
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG
from keeper.clock import StoppedClock

NIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def where(folder):
    """The place of a night."""

    def of(night: date) -> str:
        with opening.open_kept(folder) as store:
            place = reading.one_night(store, night).place
            return place.name if place else ""

    return of


def test_a_span_without_a_line(run, where):
    told = run("at", "Lisbon", "--from", "2026-11-03", "--to", "2026-11-12")
    assert told == (DONE, "At Lisbon: Tuesday 3 November 2026 to Thursday 12 November 2026, 10 nights.\n", "")
    assert [where(NIGHT.replace(day=day)) for day in (2, 3, 12, 13)] == ["", "Lisbon", "Lisbon", ""]
    assert run("show", "2026-11-05")[1].startswith("Thursday 5 November 2026, Lisbon")


def test_nights_said_to_be_elsewhere_are_told_and_stay(run, where):
    run("at", "Sintra", "--from", "2026-11-05", "--until", "2026-11-05")
    told = run("at", "Lisbon", "--from", "2026-11-03", "--until", "2026-11-12")[1]
    assert "9 nights. 1 night stayed where you had said: 2026-11-05. --over changes them too." in " ".join(told.split())
    assert where(date(2026, 11, 5)) == "Sintra"
    run("at", "Lisbon", "--from", "2026-11-03", "--until", "2026-11-12", "--over")
    assert where(date(2026, 11, 5)) == "Lisbon"


def test_tonight_a_month_and_several_words(run, where):
    assert run("at", "The", "old", "mill")[1] == "At The old mill: Saturday 14 November 2026.\n"
    run("at", "Riga", "--from", "2026-10", "--to", "2026-10")
    assert (where(NIGHT), where(date(2026, 10, 1)), where(date(2026, 10, 31))) == ("The old mill", "Riga", "Riga")


@pytest.mark.parametrize(
    "args, said",
    [(("Lisbon", "--to", "2026-11-20"), "still to come"), (("Lisbon", "--from", "2026-11-30"), "comes before"),
     (("  ",), "Say which place"), (("54.1, 10.8",), "tells a position"), (("Lisbon", "--from", "last spring"), "date")],
)  # fmt: skip
def test_what_cannot_be_said_is_told_and_nothing_is_kept(run, folder, args, said):
    status, told, complaint = run("at", *args)
    assert (status, told) == (WRONG, "") and said in complaint


def test_what_was_carried_on_is_said_with_the_night_it_came_from(run):
    run("at", "L\u00fcbeck", "--from", "2026-11-10", "--to", "2026-11-13")
    assert run("write", "The kettle sang.")[1] == (
        "Kept: gratitude, Saturday 14 November 2026. At L\u00fcbeck, carried on from last night.\n"
    )
    run("at", "Riga", "--from", "2026-10-10", "--to", "2026-10-10")
    assert run("write", "--night", "2026-10-11", "Rain.")[1].endswith("At Riga, carried on from the night before.\n")
    told = run("write", "--night", "2026-10-14", "More rain.")[1]
    assert told.endswith("At Riga, carried on from the night before.\n") is False
    assert told.endswith("At Riga, carried on from Sunday 11 October 2026.\n")
    assert run("write", "--kind", "m", "--place", "Riga", "Sun.")[1] == "Kept: memory, Saturday 14 November 2026, Riga.\n"


def test_what_was_not_carried_on_over_a_zone_is_said(run, where, folder, monkeypatch):
    run("at", "Lisbon", "--from", "2026-11-10", "--to", "2026-11-13")
    with opening.open_kept(folder) as store:
        places.set_coordinates(store, reading.place_named(store, "Lisbon").id, "38.7, -9.1")
    tokyo = StoppedClock(datetime(2026, 11, 14, 22, tzinfo=ZoneInfo("Asia/Tokyo")), "Asia/Tokyo")
    monkeypatch.setattr(named_keeper, "Clock", lambda: tokyo)
    told = run("write", "A vending machine hummed.")[1]
    assert " ".join(told.split()).endswith("Lisbon, in another time zone, was not carried on; --place says where you are.")
    assert where(NIGHT) == ""


def test_one_night_is_said_by_its_date(run, where):
    told = run("at", "Lisbon", "--night", "2026-11-05")
    assert told == (DONE, "At Lisbon: Thursday 5 November 2026.\n", "")
    assert [where(NIGHT.replace(day=day)) for day in (4, 5, 6)] == ["", "Lisbon", ""]
    assert run("at", "Lisbon", "--night", "2026-11-05", "--to", "2026-11-06")[0] == MISUSED

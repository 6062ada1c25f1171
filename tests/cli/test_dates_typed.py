"""Dates on the command line, in words and in two orders; what could be read in two ways is said."""

from datetime import date

import pytest

from keeper.actions import reading, resting
from keeper.actions.writing import write_line
from keeper.cli.command import DONE, WRONG
from keeper.cli.own_spelling import own_spelling


@pytest.fixture(autouse=True)
def _begun(at_home, store, clock):
    write_line(store, date(2026, 11, 13), "memory", "Fog on the quay", clock)
    write_line(store, date(2019, 6, 3), "memory", "Fog in June", clock)


@pytest.fixture
def columns() -> int:
    return 90


@pytest.fixture
def under(monkeypatch):
    """Set the system's locale; where it is not installed its name tells the order."""

    def set_locale(name: str):
        own_spelling.cache_clear()
        monkeypatch.setenv("LC_ALL", name)

    yield set_locale
    own_spelling.cache_clear()


@pytest.mark.parametrize("typed", ["yesterday", "last friday", "13 Nov 2026", "Nov 13, 2026", "13 nov", "13th", "2026-11-13"])
def test_a_night_is_shown_however_it_is_written(run, typed):
    status, told, _ = run("show", typed)
    assert status == DONE and told.startswith("Friday 13 November 2026") and "Fog on the quay" in told


@pytest.mark.parametrize(("system", "night"), [("en_GB.UTF-8", date(2019, 6, 3)), ("en_US.UTF-8", date(2019, 3, 6))])
def test_a_line_goes_to_the_night_in_the_order_of_the_system(run, store, under, system, night):
    under(system)
    assert run("write", "The bell.", "--night", "3.6.2019")[0] == DONE
    assert [line.text for line in reading.one_night(store, night).lines if line.kind == "gratitude"] == ["The bell."]


@pytest.mark.parametrize("typed", ["2026-10", "october", "2026", "last month"])
def test_a_line_is_not_kept_for_a_whole_month(run, store, typed):
    status, told, complained = run("write", "The bell.", "--night", typed)
    assert (status, told) == (WRONG, "")
    assert complained == f"\u201c{typed}\u201d is more than one night; name the one you mean. Nothing was kept.\n"


def test_finding_says_how_a_date_of_two_meanings_was_read(run):
    status, told, said = run("find", "fog", "--from", "3.6.2019", "--to", "june 2019")
    assert (status, said) == (DONE, "3.6.2019 is read as Monday 3 June 2019.\n") and "Fog in June" in told
    assert run("find", "fog", "--from", "3 June 2019", "--to", "2019")[2] == ""
    assert run("find", "fog", "--to", "2018")[0] == WRONG


def test_a_span_rests_as_it_is_typed(run, store):
    assert run("rest", "--from", "9 December 2024", "--until", "January 2025")[0] == DONE
    assert [(one.first, one.last) for one in resting.what_rests(store)] == [(date(2024, 12, 9), date(2025, 1, 31))]


def test_an_end_before_the_beginning_is_said(run):
    status, told, complained = run("find", "fog", "--from", "12.2026", "--to", "11.2026")
    assert (status, told) == (WRONG, "")
    assert " ".join(complained.split()) == "The last night, 2026-11-30, comes before the first, 2026-12-01."

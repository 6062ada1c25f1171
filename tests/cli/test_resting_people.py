"""Resting on the command line: spans and people beside a night's lines."""

from datetime import date

import pytest

from keeper.actions import people, resting
from keeper.actions.writing import write_line
from keeper.cli.command import DONE, MISUSED, WRONG


@pytest.fixture(autouse=True)
def _begun(at_home, store, clock):
    write_line(store, date(2026, 5, 1), "memory", "Tea with Ilze", clock)


@pytest.fixture
def columns() -> int:
    return 90


def test_a_span_rests_and_wakes(run, store):
    said = "Monday 9 December 2024 to Friday 31 January 2025.\n"
    assert run("rest", "--from", "2024-12-09", "--until", "2025-01") == (DONE, f"Resting: {said}", "")
    assert [(one.first, one.last) for one in resting.what_rests(store)] == [(date(2024, 12, 9), date(2025, 1, 31))]
    status, _, complaint = run("wake", "--from", "2024-12-09", "--until", "2025-01-30")
    assert (status, complaint) == (WRONG, "That span does not rest. These do: 2024-12-09 to 2025-01-31.\n")
    assert run("wake", "--from", "2024-12-09", "--until", "2025-01-31") == (DONE, f"Awake: {said}", "")
    assert resting.what_rests(store) == ()


def test_a_person_rests_and_wakes_marked_first_if_need_be(run, store):
    assert run("rest", "--person", "Ilze") == (DONE, "Resting: Ilze (1 line).\n", "")
    assert people.named(store, "Ilze").resting
    assert run("wake", "--person", "ilze") == (DONE, "Awake: Ilze (1 line).\n", "")
    assert not people.named(store, "Ilze").resting
    assert run("wake", "--person", "Ilze") == (WRONG, "", "No one called “Ilze” rests.\n")
    assert run("rest", "--person", "Izle")[::2] == (WRONG, "No line names “Izle”, and the name is not marked.\n")
    assert run("rest", "--person", " ")[0] == WRONG
    assert [one.person.name for one in people.every(store)] == ["Ilze"]


@pytest.mark.parametrize(
    "args",
    [
        (), ("tonight", "--person", "Ilze"), ("--from", "2026-01-01"), ("--until", "2026-01-01"),
        ("--person", "Ilze", "--kind", "memory"), ("--from", "2026-01", "--until", "2026-02", "--person", "Ilze"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("verb", ["rest", "wake"])
def test_one_thing_at_a_time(run, store, verb, args):
    status, out, complaint = run(verb, *args)
    assert (status, out) == (MISUSED, "") and complaint
    assert resting.what_rests(store) == ()


def test_wrong_ends_are_told(run):
    assert run("rest", "--from", "2026-02-30", "--until", "2026-03")[::2] == (
        WRONG, "February 2026 has 28 days; there is no day 30.\n")  # fmt: skip
    assert "comes before the first" in run("rest", "--from", "2026-03", "--until", "2026-02")[2]

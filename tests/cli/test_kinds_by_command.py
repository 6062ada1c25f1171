"""Kinds of lines on the command line: by the person's names, or how they begin."""

from datetime import date

import pytest

from keeper.actions import opening, reading
from keeper.cli.command import DONE, MISUSED, WRONG

NIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def columns() -> int:
    return 72


def test_kinds_are_listed_before_a_keeper_is_begun_and_after(run):
    assert run("kinds") == (DONE, "Gratitude\t\t\t\t\nMemory\t\t\t\t\nReflection\t\t\t\t\n", "")
    assert run("kinds", "--add", "A dream", "--prompt", "What did you dream?", "--out-of-themes")[0] == DONE
    assert run("kinds")[1].splitlines()[3] == "A dream\t2026-11-14\t\tout of themes\tWhat did you dream?"


def test_a_kind_of_ones_own_is_written_shown_and_found_by_its_name(run):
    assert run("kinds", "--add", "A dream") == (DONE, "Added: A dream, from tonight on.\n", "")
    assert run("write", "Of ferries.", "--kind", "a dr")[1] == "Kept: A dream, Saturday 14 November 2026.\n"
    assert run("write", "The kettle.")[1] == "Kept: gratitude, Saturday 14 November 2026.\n"
    assert "A dream     Of ferries." in run("show")[1]
    assert run("find", "--kind", "A DREAM")[1] == "2026-11-14\tA dream\t\tOf ferries.\n"
    status, _, complaint = run("write", "Again.", "--kind", "a")
    assert status == WRONG and complaint.startswith("There is “A dream” of 2026-11-14 already: “Of ferries.”.")
    assert run("write", "Of bridges.", "--kind", "a", "--replace")[0] == DONE
    assert "Of ferries. (A dream, written 2026-11-14 22:30)" in run("show", "--earlier")[1].replace("\n            ", " ")
    assert run("rest", "2026-11-14", "--kind", "a")[0] == DONE
    assert run("wake", "2026-11-13", "--kind", "a")[2] == "There is no A dream on 2026-11-13.\n"


def test_a_kind_that_was_renamed_is_known_by_both_names_and_its_lines_stay(run):
    run("write", "The crane.", "--kind", "m")
    assert run("kinds", "--rename", "mem", "Seen") == (DONE, "Memory is called Seen from now on; its lines are as they were.\n", "")
    for name in ("seen", "memory"):
        assert run("find", "--kind", name)[1] == "2026-11-14\tSeen\t\tThe crane.\n"
    assert "Seen        The crane." in run("show")[1]


def test_one_that_is_left_out_is_not_written_but_found_and_may_be_taken_up(run, folder):
    run("write", "The kettle.", "--night", "2026-11-12")
    assert run("kinds", "--leave-out", "g")[1] == "Left out: Gratitude. Its lines stay, and can be found.\n"
    assert run("write", "The crane.")[1] == "Kept: memory, Saturday 14 November 2026.\n"
    complaint = run("write", "The gull.", "--kind", "g")[2]
    assert complaint == "Gratitude was left out after Friday 13 November 2026. Nothing was kept.\n"
    assert run("write", "And the pot.", "--kind", "g", "--night", "2026-11-12", "--add")[0] == DONE
    assert run("find", "--kind", "g")[1] == "2026-11-12\tgratitude\t\tThe kettle. And the pot.\n"
    assert run("kinds", "--take-up", "g") == (DONE, "Taken up again: Gratitude.\n", "")
    assert run("write", "The gull.")[1] == "Kept: gratitude, Saturday 14 November 2026.\n"
    with opening.open_kept(folder) as store:
        assert [line.kind for line in reading.one_night(store, NIGHT).lines] == ["gratitude", "memory"]


def test_one_begins_when_it_begins(run):
    run("kinds", "--add", "A dream")
    complaint = run("write", "Of ferries.", "--kind", "a", "--night", "2026-11-12")[2]
    assert complaint == "A dream begins on Saturday 14 November 2026. Nothing was kept.\n"


@pytest.mark.parametrize(("args", "status", "says"), [
    (("kinds", "--add", " "), WRONG, "A kind of line needs a name.\n"),
    (("kinds", "--add", "memory"), WRONG, "There is a kind called “Memory” already.\n"),
    (("kinds", "--leave-out", "song"), WRONG, "“song” is no kind of line. There are: gratitude, memory, reflection.\n"),
    (("kinds", "--add", "a", "--leave-out", "b"), MISUSED, "One thing at a time"),
    (("kinds", "--prompt", "Why?"), MISUSED, "go with --add"),
    (("write", "x", "--kind", "song"), MISUSED, "is no kind of line"),
])  # fmt: skip
def test_what_cannot_be_done_is_told_in_a_sentence(run, args, status, says):
    run("write", "The kettle.")
    told = run(*args)
    assert told[0] == status and says in told[2] and not told[1]


def test_the_ninth_is_refused(run):
    for number in range(5):
        run("kinds", "--add", f"Kind {number}")
    status, _, complaint = run("kinds", "--add", "A ninth")
    assert status == WRONG and complaint.startswith("A night asks for at most eight kinds of line.")


def test_in_a_terminal_they_are_laid_out(run, monkeypatch):
    import sys

    run("kinds", "--add", "A dream", "--out-of-themes")
    run("kinds", "--leave-out", "m")
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    assert run("kinds")[1] == "Gratitude\nMemory, left out\nReflection\nA dream, from 14 November 2026, out of themes\n"

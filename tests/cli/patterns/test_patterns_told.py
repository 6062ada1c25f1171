"""Patterns on the command line: the same sentences, of what takes part and of what is named."""

import io
import sys

import pytest
from made.pattern_keeper import fill

from keeper.actions import opening
from keeper.actions.patterns import asking, shown
from keeper.cautions import LABEL, OF_THE_BODY
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.review.patterns.whole import NO_CAUSE


@pytest.fixture(autouse=True)
def _at_home(folder, clock, monkeypatch, store):
    fill(store)
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", "300")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)


@pytest.fixture
def run(capsys):
    """Do a command; returns its status, what it told and what it told beside."""

    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        return status, *capsys.readouterr()

    return do


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_in_a_pipe_each_is_a_row(run, store):
    status, told, aside = run("patterns")
    (row,) = (line.split("\t") for line in told.splitlines())
    (one,) = shown.patterns_view(store).told
    assert status == DONE and row[:4] == ["sleep", "mood", "1", "299"] and row[-1] == one.sentence
    assert float(row[4]) == pytest.approx(one.told.strength, abs=1e-3) and float(row[5]) <= 0.05
    assert " ".join(aside.split()) == f"Among 30 questions one answer stands out from chance. {NO_CAUSE} {OF_THE_BODY}"


def test_what_is_named_is_asked_alone_and_nothing_is_kept(run, store):
    status, told, aside = run("patterns", "--among", "tea", "--among", "fer", "--among", "Tea")
    assert (status, told) == (WRONG, "")
    assert " ".join(aside.split()) == f"Among 5 questions nothing stands out from chance. {NO_CAUSE} {LABEL}"
    assert asking.last_asking(store) is None
    status, told, _ = run("patterns", "--among", "sleep", "--among", "mood", "--among", "weekday")
    assert status == DONE and told.count("\n") == 1


def test_one_thing_alone_is_not_asked_of(run):
    status, told, aside = run("patterns", "--among", "mood")
    assert (status, told) == (MISUSED, "") and "name another with --among" in aside


def test_a_name_that_is_none_is_said(run):
    assert run("patterns", "--among", "coffee")[::2] == (WRONG, "Nothing called “coffee” can take part in patterns.\n")


def test_in_a_terminal_the_cautions_are_told(monkeypatch):
    out = Terminal()
    monkeypatch.setattr(sys, "stdout", out)
    assert main(("patterns",), lambda *_, **__: DONE) == DONE
    told = out.getvalue()
    assert told.startswith("Among 30 questions one answer stands out from chance.\nAfter the ")
    assert "A pattern is no cause" in told and "not a diagnosis" in told and "licensed clinician" in told


def test_what_can_take_part_and_how_it_is_asked(run):
    assert run("patterns", "--list")[1].splitlines() == [
        "mood", "sleep", "tea", "ferry", "change of place", "night on the way", "weekday", "season",
    ]  # fmt: skip
    assert "Benjamini & Hochberg 1995" in run("patterns", "--how")[1]

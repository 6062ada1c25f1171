"""The words of a month and a year, listed and drawn by the command line."""

from datetime import date
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

from keeper.actions import writing
from keeper.actions.resting import read_span
from keeper.cli.nights.words import words
from keeper.dates.spelling import ENGLISH
from keeper.errors import AlreadyKept


@pytest.fixture
def run(store, clock):
    writing.write_line(store, date(2026, 5, 2), "memory", "The harbour, the harbour and the bell.", clock)
    named = SimpleNamespace(store=store, span=lambda first, last: read_span(first, last, date(2026, 11, 14), ENGLISH))
    return lambda *typed: CliRunner().invoke(words, typed, obj=named)


def test_words_of_a_month_are_listed_and_drawn(run, tmp_path):
    assert run("2026-05").output.splitlines() == ["harbour\t2\t2 May 2026", "bell\t1\t2 May 2026"]
    drawn = run("2026", str(tmp_path / "words"))
    assert drawn.exit_code == 0 and "harbour</text>" in (tmp_path / "words.svg").read_text("utf-8")
    again = run("2026-05", str(tmp_path / "words.svg"))
    assert isinstance(again.exception, AlreadyKept) and "--replace" in str(again.exception)


def test_a_month_without_words_says_so(run):
    assert run("2026-06").output == "There are no words yet.\n"

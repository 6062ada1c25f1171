"""Themes on the command line."""

import io
import sys
from datetime import date, timedelta

import pytest
from theme_keeper import fill

from keeper.actions import writing
from keeper.actions.themes import asking as themes
from keeper.actions.themes import begun
from keeper.cli.command import DONE, WRONG, main
from keeper.clock import Clock

pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def columns() -> int:
    return 72


class Terminal(io.StringIO):
    """A terminal that remembers."""

    def isatty(self) -> bool:
        return True


def test_themes_are_looked_for_and_told_one_a_row(run, store):
    fill(store, 160)
    status, told, complained = run("themes")
    rows = [row.split("\t") for row in told.splitlines()]
    assert status == DONE and complained == "" and 4 <= len(rows) <= 8
    name, lines, nights, first, last, change = rows[0]
    assert name and int(lines) >= int(nights) > 9 and first < last and change in ("", "growing", "fading")
    assert run("themes") == (DONE, told, "")


def test_in_a_terminal_they_are_laid_out(store, monkeypatch):
    fill(store, 160)
    out, err = Terminal(), Terminal()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "stderr", err)
    assert main(("themes", "--again"), lambda *_, **__: DONE) == DONE
    assert " lines, since January 2024, last on 2024-" in out.getvalue()
    assert "Lines in no theme: " in out.getvalue() and "The themes are clearly more than chance." in out.getvalue()
    assert "grouping" in err.getvalue()


def test_without_enough_lines_that_is_told(run, store):
    fill(store, 12)
    assert run("themes") == (WRONG, "", "Not enough yet to tell what keeps coming back.\n")


def test_lines_without_words_are_not_called_too_few(run, store):
    for number in range(30):
        writing.write_line(store, date(2026, 1, 1) + timedelta(number), "memory", "\U0001f600", Clock())
    status, told, complained = run("themes")
    assert (status, told) == (WRONG, "") and "too few words in common" in complained


def test_without_a_keeper_a_sentence_tells_so(run):
    status, told, complained = run("themes")
    assert (status, told) == (WRONG, "") and "There is no keeper in" in complained


def test_find_is_narrowed_by_a_theme(run, store, clock):
    fill(store, 160)
    run("themes")
    number = themes.themes_view(store).threads[0].number
    themes.rename(store, number, "The first", clock)
    status, told, _ = run("find", "--theme", "the fi", "--limit", "500")
    assert status == DONE and len(told.splitlines()) == themes.themes_view(store).threads[0].lines
    status, _, complained = run("find", "--theme", "zzz")
    assert status == WRONG and "No theme begins" in complained


def test_a_theme_is_begun_by_words_and_asked_about_line_by_line(run, store, monkeypatch):
    fill(store, 160)
    status, told, _ = run("themes", "--begin", "Unwell", "--words", "doctor, fever, cough")
    assert status == DONE and told.startswith("\u201cUnwell\u201d is begun, with ") and "--ask" in told
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\nperhaps\nn\nq\n"))
    status, told, _ = run("themes", "--ask", "Unwell")
    assert status == DONE and "2 answers kept." in told and told.count("(y)es") == 4
    (one,) = begun.begun(store).values()
    assert (len(one.yes), len(one.no), len(one.skipped)) == (1, 1, 0)
    assert "Unwell" in run("themes")[1]


def test_what_cannot_be_begun_or_asked_is_said(run, store):
    fill(store, 40)
    assert run("themes", "--begin", "Knees", "--words", "zeppelin")[0] == WRONG
    assert "begins" in run("themes", "--ask", "Knees")[2]
    assert run("themes", "--words", "knee")[0] == 2

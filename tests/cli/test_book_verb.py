"""The verb that makes a book."""

from datetime import date

import pytest

from keeper.actions import writing
from keeper.cli.command import DONE, MISUSED, WRONG


@pytest.fixture(autouse=True)
def _begun(at_home, store, clock, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    writing.write_line(store, date(2026, 3, 1), "memory", "The kettle sang.", clock)


@pytest.fixture
def columns() -> int:
    return 200


def in_one_row(told: str) -> str:
    """What was told, where the path of a temporary folder may be long enough for a row of its own."""
    return told.removesuffix("\n").replace("\n", " ")


def test_a_book_is_made_here_and_told(run, tmp_path):
    too_few = "Themes can be found from 30 lines on, and there is 1; they are left out.\n"
    status, told, complained = run("book", "2026")
    assert (status, in_one_row(told), complained) == (DONE, f"3 pages in {tmp_path / 'keeper-2026.pdf'}.", too_few)
    assert (tmp_path / "keeper-2026.pdf").read_bytes().startswith(b"%PDF")


def test_a_file_that_is_there_is_left_unless_it_may_be_replaced(run, tmp_path):
    target = tmp_path / "b.pdf"
    target.write_text("before")
    status, told, complained = run("book", "2026", "--to", "b.pdf")
    assert (status, told, target.read_text()) == (WRONG, "", "before") and "--replace" in complained
    assert run("book", "2026", "--to", "b.pdf", "--replace")[0] == DONE
    assert target.read_bytes().startswith(b"%PDF")


def test_a_month_is_a_page(run, tmp_path):
    status, told, _ = run("book", "2026-03", "--small-photo")
    assert (status, in_one_row(told)) == (DONE, f"1 page in {tmp_path / 'keeper-2026-03.pdf'}.")


def test_a_path_is_told_whole(run, tmp_path):
    long = tmp_path / ("-".join(["long"] * 30) + ".pdf")
    assert f"{long}." in run("book", "2026-03", "--to", str(long))[1].split()


def test_size_and_parts_are_said(run):
    args = ("--size", "half-letter", "--lines", "chosen", "--without", "map", "--without", "index", "--title", "#1", "--name", "M")
    assert run("book", "2026", *args)[0] == DONE


@pytest.mark.parametrize("when", ["2019", "2019-03", "26", "2026-13", "soon", "2026-03-01", "\u0662\u0660\u0662\u0666"])
def test_a_year_that_is_none_or_has_nothing_is_told(run, when, tmp_path):
    status, told, complained = run("book", when)
    assert (status, told) == (WRONG, "") and complained.endswith(".\n")
    assert not list(tmp_path.glob("*.pdf"))


def test_an_unknown_part_or_size_is_a_misuse(run):
    assert run("book", "2026", "--without", "covers")[0] == MISUSED
    assert run("book", "2026", "--size", "a6")[0] == MISUSED


def test_what_is_missing_is_told(run, store, clock):
    writing.write_line(store, date(2026, 3, 2), "memory", "Thai \u0e44.", clock)
    status, _, complained = run("book", "2026")
    assert status == DONE and "U+0E44" in complained


def test_themes_are_looked_for_where_none_were(run, store, monkeypatch):
    from theme_keeper import fill
    from waiting.not_apart import here

    from keeper.actions.themes import asking as themes

    monkeypatch.setattr("keeper.actions.themes.looking.apart", here)
    fill(store, 120)
    status, _, complained = run("book", "2024", "--without", "map", "--without", "index")
    assert (status, complained) == (DONE, "") and themes.names(store)

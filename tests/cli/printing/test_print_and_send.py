"""The verbs that make pages to print and to send."""

from datetime import date

import pytest

from keeper.actions import opening, writing
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG, main


@pytest.fixture(autouse=True)
def _at_home(folder, store, clock, monkeypatch, tmp_path):
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)
    monkeypatch.chdir(tmp_path)
    writing.write_line(store, date(2025, 11, 14), "memory", "The kettle sang.", clock)


@pytest.fixture
def run(capsys):
    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        done, aside = capsys.readouterr()
        return status, done.removesuffix("\n").replace("\n", " "), aside

    return do


@pytest.mark.parametrize(
    ("args", "name", "pages"),
    [(("month",), "keeper-month-2026-11.pdf", "2 pages"), (("month", "2027-02", "--size", "a6", "--dots"), "keeper-month-2027-02.pdf", "3 pages"),
     (("filled", "November 2025"), "keeper-filled-2025-11.pdf", "2 pages"), (("year", "2027", "--for", "swam"), "keeper-year-2027.pdf", "1 page"),
     (("nights", "2026-11", "--sides", "both"), "keeper-nights-2026-11-01.pdf", "30 pages"), (("cards", "--paper", "a4"), "keeper-cards-2026-11-14.pdf", "1 page"),
     (("test", "--booklet", "--paper", "a4"), "keeper-test-2026-11-14.pdf", "4 pages")],
)  # fmt: skip
def test_pages_are_printed_here_and_told(run, tmp_path, args, name, pages):
    status, told, _ = run("print", *args)
    assert (status, told) == (DONE, f"{pages} in {tmp_path / name}.")
    assert (tmp_path / name).read_bytes().startswith(b"%PDF")


def test_how_sheets_are_turned_is_told(run):
    assert "long edge" in run("print", "nights", "2026-11-01", "--size", "a6", "--sides", "by-hand", "--paper", "a4")[2]


def test_a_file_that_is_there_is_left_unless_it_may_be_replaced(run, tmp_path):
    (tmp_path / "p.pdf").write_text("before")
    for verb in (("print", "year", "2027", "--to", "p.pdf"), ("send", "year", "2025", "p.pdf")):
        (tmp_path / "p.pdf").write_text("before")
        status, told, complained = run(*verb)
        assert (status, told, (tmp_path / "p.pdf").read_text()) == (WRONG, "", "before") and "--replace" in complained
        assert run(*verb, "--replace")[0] == DONE
        assert (tmp_path / "p.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    "args",
    [("month", "2027-13"), ("month", "--size", "a9"), ("month", "--size", "a7"), ("month", "--holes", "99"), ("filled", "2019-01"),
     ("cards", "2026-03-03"), ("nights", "2026", "--size", "10x10"), ("month", "--booklet", "--size", "a4", "--paper", "a4")],
)  # fmt: skip
def test_what_cannot_be_printed_is_a_sentence_and_leaves_nothing(run, tmp_path, args):
    status, told, complained = run("print", *args)
    assert ((status, told) == (WRONG, "") and complained.endswith(".\n")) or complained.endswith(").\n")
    assert not list(tmp_path.glob("*.pdf"))


def test_what_is_no_such_page_is_a_misuse(run):
    assert run("print", "poster")[0] == MISUSED and run("print", "month", "--without", "covers")[0] == MISUSED
    assert run("send", "week", "2026-11", "p.html")[0] == MISUSED


@pytest.mark.parametrize(("what", "which"), [("month", "2025-11"), ("year", "2025"), ("person", "kettle")])
@pytest.mark.parametrize("ending", ["html", "pdf"])
def test_a_page_is_sent(run, tmp_path, what, which, ending):
    status, told, complained = run("send", what, which, f"p.{ending}")
    assert (status, told, complained) == (DONE, f"The page is in {tmp_path / f'p.{ending}'}.", "")
    assert (tmp_path / f"p.{ending}").read_bytes().startswith(b"%PDF" if ending == "pdf" else b"<!DOCTYPE html>")


@pytest.mark.parametrize("args", [("month", "2019-01", "p.html"), ("month", "soon", "p.html"), ("theme", "tides", "p.pdf"),
                                  ("place", "Nowhere", "p.html"), ("person", "Nobody", "p.html"), ("year", "2025", "p.docx")])  # fmt: skip
def test_what_cannot_be_sent_is_a_sentence(run, tmp_path, args):
    status, told, complained = run("send", *args)
    assert (status, told) == (WRONG, "") and complained.endswith(".\n")
    assert not list(tmp_path.glob("p.*"))

"""Reading in files, and the in-tray, on the command line."""

import os

import pytest

from keeper.actions import opening, writing
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG, main


@pytest.fixture(autouse=True)
def _at_home(folder, clock, monkeypatch, store):
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)


@pytest.fixture
def run(capsys):
    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        return status, *capsys.readouterr()

    return do


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "nights.csv"
    path.write_text("Date;Memory;Mood\n03.06.2026;Tuned in Riga;7,5\n04.06.2026;Walked;8\n05.06.2026;;\nx;Lost;\n", "utf-8")
    return str(path)


def test_at_first_it_is_only_looked_at(run, table, store):
    status, told, aside = run("read-in", table)
    assert status == WRONG and "\u201cnights.csv\u201d is a table, in UTF-8, parted by semicolon" in told and "Memory: Memory" in told
    assert "2 new lines. Nothing was written yet; the same with --keep" in told
    assert aside == "line 5: \u201cx\u201d is not a date (x Lost)\n"
    assert store.row("SELECT count(*) FROM line") == (0,)


def test_of_very_many_columns_a_few_are_told_and_that_there_are_more(run, tmp_path):
    path = tmp_path / "wide.csv"
    path.write_text("\n".join(",".join(f"{one}{at}" for at in range(100_000)) for one in "cd"), "utf-8")
    _, told, _ = run("read-in", str(path))
    assert len(told.splitlines()) < 40 and "and 180 columns more. Columns beyond the first 200 are not looked at." in told


def test_the_first_rows_stand_one_below_another(run, tmp_path):
    path = tmp_path / "nights.csv"
    path.write_text("Date;Memory;Mood\n03.06.2026;Tuned in Riga;7,5\n04.06.2026;Walked;8\n", "utf-8")
    rows = [row for row in run("read-in", str(path))[1].splitlines() if ".06.2026" in row]
    assert rows == ["03.06.2026  Tuned in Riga  7,5", "04.06.2026  Walked         8"]


def test_with_keep_it_is_kept_and_taken_back_by_undo(run, table, store):
    assert run("read-in", table, "--keep")[1] == "Kept: 2 lines.\n"
    assert store.row("SELECT count(*) FROM line") == (2,)
    assert run("read-in", table, "--keep")[1] == "Nothing was added. 2 were there already.\n"
    assert run("undo")[0] == DONE and store.row("SELECT count(*) FROM line") == (0,)


def test_columns_order_and_other_words_can_be_said(run, table, store, clock):
    from datetime import date

    writing.write_line(store, date(2026, 3, 6), "reflection", "Mine.", clock)
    status, told, _ = run("read-in", table, "--column", "Memory=reflection", "--dates", "mdy", "--other-words", "aside", "--keep")
    assert status == WRONG and "On 1 night there were other words" in told
    assert store.row("SELECT text FROM line WHERE night = '2026-03-06'") == ("Mine.",)


def test_what_was_not_understood_can_be_written_into_a_new_file(run, table, tmp_path):
    into = tmp_path / "list.txt"
    run("read-in", table, "--list", str(into))
    assert "line 5" in into.read_text("utf-8")
    assert run("read-in", table, "--list", str(into))[0] == MISUSED


def test_what_cannot_be_read_is_told(run, tmp_path):
    assert run("read-in", str(tmp_path / "gone.csv")) == (WRONG, "", "\u201cgone.csv\u201d is not there, or is not a file.\n")
    (tmp_path / "a.csv").write_text("a,b\n1,2\n")
    assert run("read-in", str(tmp_path / "a.csv"), "--column", "c=date")[0] == MISUSED
    assert run("read-in", str(tmp_path / "a.csv"), "--encoding", "rot13")[0] == MISUSED


def test_the_in_tray(run, tmp_path, store):
    assert run("in-tray")[0] == WRONG
    tray = tmp_path / "tray"
    tray.mkdir()
    (tray / "2026-06-03.txt").write_text("From afar.")
    os.utime(tray / "2026-06-03.txt", (1.7e9, 1.7e9))
    assert run("in-tray", "--folder", str(tray))[0] == DONE
    assert run("in-tray", "--look") == (DONE, "1 text waits.\n", "")
    assert run("in-tray") == (DONE, "Taken in: 1 text. The files are in \u201ctaken in\u201d.\n", "")
    assert store.row("SELECT text FROM line") == ("From afar.",)
    assert run("in-tray", "--none")[0] == DONE and run("in-tray")[0] == WRONG

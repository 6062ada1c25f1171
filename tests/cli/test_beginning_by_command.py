"""Where the command line begins a keeper, and where only when told to; and words that could not be kept."""

import os
import sys
from datetime import date
from pathlib import Path

import pytest

from keeper.actions import opening, reading
from keeper.cli.command import DONE, WRONG

NIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("clock_stands")


def lines_in(folder: Path) -> list[str]:
    with opening.open_kept(folder) as store:
        return [line.text for line in reading.one_night(store, NIGHT).lines]


WRITES = [("write", "Swam."), ("ask", "What?"), ("photo", __file__), ("photo", Path(__file__).parent)]


@pytest.mark.parametrize("verb", WRITES, ids=["write", "ask", "photo", "folder"])
@pytest.mark.parametrize("there", [True, False])
@pytest.mark.parametrize("by", ["option", "variable"])
def test_none_is_begun_in_a_folder_that_was_named(run, tmp_path, monkeypatch, verb, there, by):
    other = tmp_path / "stick" / "keeper"
    other.mkdir(parents=True) if there else None
    monkeypatch.setenv(opening.WHERE, str(other))
    status, told, complaint = run(*(("--in", other) if by == "option" else ()), *verb)
    assert (status, told) == (WRONG, "")
    assert complaint == f"There is no keeper in {other}. To begin one there, say --begin before the command.\n"
    assert not there or os.listdir(other) == []
    assert there or not other.parent.exists()


def test_one_is_begun_when_told(run, tmp_path):
    assert run("--in", tmp_path / "stick" / "keeper", "--begin", "write", "Swam.")[0] == DONE
    assert lines_in(tmp_path / "stick" / "keeper") == ["Swam."]
    # Said again it begins nothing anew.
    assert run("--in", tmp_path / "stick" / "keeper", "--begin", "write", "Slept.", "--kind", "m")[0] == DONE
    assert lines_in(tmp_path / "stick" / "keeper") == ["Swam.", "Slept."]


def test_the_window_finds_the_one_that_was_begun_for_it(run, tmp_path):
    found = []
    run("--in", tmp_path / "other", "--begin", window=lambda folder, **_: found.append(opening.has_keeper(folder)))
    assert found == [True]


def test_in_the_usual_folder_one_is_begun_by_itself(run, folder, monkeypatch):
    monkeypatch.delenv(opening.WHERE, raising=False)
    assert run("write", "Swam.")[0] == DONE
    assert lines_in(folder) == ["Swam."]


def test_nobody_types_before_it_is_said_that_there_is_no_keeper(run, tmp_path, monkeypatch):
    monkeypatch.setattr("keeper.cli.nights.writing.from_outside", lambda: pytest.fail("asked for words"))
    assert run("--in", tmp_path, "write")[0] == WRONG
    monkeypatch.delenv(opening.WHERE, raising=False)
    assert run("write", "--night", "2999-01-01")[0] == WRONG


def rescued(folder: Path) -> list[str]:
    return [path.read_text() for path in sorted(folder.parent.glob("keeper-unkept-*.txt"))]


@pytest.fixture
def typing(monkeypatch):
    """Let somebody type at a terminal."""

    def come(words: str) -> None:
        monkeypatch.setattr("keeper.cli.nights.writing.from_outside", lambda: words)
        monkeypatch.setattr("keeper.cli.nights.writing.came_by_pipe", lambda: False)

    return come


def test_what_was_typed_and_is_too_long_is_put_aside(run, folder, typing):
    words = "much to say " * 2000
    typing(words)
    status, _, complaint = run("write")
    assert (status, rescued(folder)) == (WRONG, [f"2026-11-14 gratitude: {words}\n"])
    assert complaint == (
        "This is 24,000 characters long; a line holds 20,000. "
        f"A copy of the words is in {folder.parent}/keeper-unkept-2026-11-14.txt.\n"
    )


def test_what_was_typed_beside_another_line_is_put_aside_and_an_earlier_copy_stays(run, folder, typing):
    run("write", "One.")
    for words in ("Two.", "Three."):
        typing(words)
        assert run("write")[0] == WRONG
    assert sorted(rescued(folder)) == ["2026-11-14 gratitude: Three.\n", "2026-11-14 gratitude: Two.\n"]
    assert lines_in(folder) == ["One."]


@pytest.mark.parametrize("how", ["words", "pipe"])
def test_what_a_full_disk_does_not_take_is_put_on_another(run, small_disk, tmp_path, monkeypatch, how):
    place = small_disk.path / "keeper"
    run("--in", place, "--begin", "write", "One.")
    small_disk.fill()
    monkeypatch.setattr("pathlib.Path.home", lambda: tmp_path)
    monkeypatch.setattr("keeper.cli.nights.writing.from_outside", lambda: "Two.")
    status, told, complaint = run("--in", place, "write", *(["Two."] if how == "words" else []), "--kind", "m")
    assert (status, told) == (WRONG, "")
    assert complaint == (
        f"The keeper in {place} cannot be written: its disk is full. Free some space and try again. "
        f"A copy of the words is in {tmp_path}/keeper-unkept-2026-11-14.txt.\n"
    )
    assert (tmp_path / "keeper-unkept-2026-11-14.txt").read_text() == "2026-11-14 memory: Two.\n"
    assert not list(small_disk.path.glob("keeper-unkept*"))


@pytest.mark.parametrize("how", ["full", "closed"])
def test_a_keeper_that_can_be_read_is_told_from(run, small_disk, tmp_path, how):
    place = small_disk.path / "keeper"
    run("--in", place, "--begin", "write", "One.")
    small_disk.fill() if how == "full" else small_disk.close_to_writing()
    assert "One." in run("--in", place, "show")[1]
    assert "One." in run("--in", place, "find", "one")[1]
    assert run("--in", place, "ask")[::2] == (DONE, "")
    assert run("--in", place, "themes")[2] == "Not enough yet to tell what keeps coming back.\n"
    assert run("--in", place, "book", "2026", "--to", tmp_path / "year.pdf")[0] == DONE
    for verb in (("rest", "2026-11-14"), ("ask", "What?"), ("themes", "--again")):
        status, _, complaint = run("--in", place, *verb)
        assert status == WRONG and "cannot be written: its disk" in complaint


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")
def test_a_book_is_its_owners_alone(run, folder, tmp_path, monkeypatch):
    monkeypatch.delenv(opening.WHERE, raising=False)
    run("write", "One.")
    before = os.umask(0)
    try:
        assert run("book", "2026", "--to", tmp_path / "year.pdf")[0] == DONE
    finally:
        os.umask(before)
    assert (tmp_path / "year.pdf").stat().st_mode & 0o777 == 0o600

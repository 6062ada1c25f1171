"""What was done, listed, taken back and done again on the command line; a line moved."""

from datetime import date

import pytest

from keeper.cli.command import DONE, MISUSED, WRONG
from keeper.store import lines, nights

TONIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def columns() -> int:
    return 90


def test_a_line_with_its_place_is_one_act_taken_back_and_done_again(run, store):
    run("write", "Fog and a good fire.", "--kind", "memory", "--place", "Riga")
    assert run("undo") == (DONE, "Took back: Memory for the night of 14 November 2026.\n", "")
    assert nights.one(store, TONIGHT).place is None and lines.count(store) == 0
    assert run("undo") == (WRONG, "", "There is nothing to take back.\n")
    assert run("redo") == (DONE, "Done again: Memory for the night of 14 November 2026.\n", "")
    assert nights.one(store, TONIGHT).place.name == "Riga"
    assert run("redo") == (WRONG, "", "There is nothing to do again.\n")


def test_lately_lists_what_was_done_with_numbers_to_undo_by(run, store):
    assert run("lately") == (WRONG, "", "Nothing was done yet.\n")
    run("write", "Fog.", "--kind", "memory")
    run("at", "Riga")
    run("at", "Visby", "--over")
    status, out, _ = run("lately")
    rows = [row.split("\t") for row in out.splitlines()]
    assert status == DONE and [(row[0], row[2], row[3]) for row in rows] == [
        ("3", "Visby for the night of 14 November 2026", "by the command line"),
        ("2", "Riga for the night of 14 November 2026", "by the command line"),
        ("1", "Memory for the night of 14 November 2026", "by the command line"),
    ]
    status, _, why = run("undo", "2")
    assert status == WRONG and why.startswith("Something done since leans on it: Visby for the night of 14")
    assert run("undo", "1")[0] == DONE
    assert run("lately", "memory")[1].endswith("by the command line, undone\n")
    assert run("undo", "1") == (WRONG, "", "That is undone already.\n")
    assert run("redo", "2") == (WRONG, "", "That stands already.\n")
    assert run("undo", "9")[:2] == (WRONG, "")


def test_what_was_taken_out_is_found_by_its_words(run, store):
    run("write", "Fog over the harbour.", "--kind", "memory")
    run("write", "Rain.", "--kind", "memory", "--replace")
    assert run("lately", "fog", "HARBOUR")[1].split("\t")[0] == "2"
    assert run("lately", "--taken-out")[0] == WRONG
    run("undo"), run("undo")
    assert [row.split("\t")[0] for row in run("lately", "--taken-out")[1].splitlines()] == ["1"]


def test_a_line_is_moved_and_both_nights_keep_their_wordings(run, store):
    run("write", "Fog.", "--kind", "memory")
    assert run("move", "tonight", "--kind", "m", "--to", "2026-11-13", "--as", "r") == (
        DONE, "Moved: Reflection, Friday 13 November 2026.\n", "",
    )
    assert lines.one(store, date(2026, 11, 13), "reflection").text == "Fog."
    assert [one.text for one in lines.wordings(store, TONIGHT, "memory")] == ["Fog."]
    run("write", "Anew.", "--kind", "memory")
    status, _, why = run("move", "2026-11-13", "--kind", "r", "--to", "tonight", "--as", "m")
    assert status == WRONG and "already: “Anew.”. Nothing was moved." in why
    assert run("move", "tonight")[0] == MISUSED
    assert run("move", "2026-11-13", "--as", "m")[::2] == (WRONG, "There is no gratitude of 13 November 2026.\n")
    for _ in range(3):
        run("undo")
    assert lines.count(store) == 0 and lines.all_wordings(store, 9) == ()

"""An archive whose taking in was cut off by the end of the program: told, finished or taken back."""

import subprocess
import sys
from pathlib import Path

import pytest
from kept_things import fill
from whole_keeper import content

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import cut_off, undoing
from keeper.actions.opening import open_or_begin
from keeper.store import open_store
from keeper.store.history import acts

TAKES = """
import sys
from pathlib import Path
from keeper.actions.giving import taking
from keeper.actions.opening import open_kept
from keeper.clock import Clock
taking._AT_A_TIME, kept = 5, taking._Taking._keep
def keep(run, some):
    kept(run, some)
    if some[0][0] not in ("kind", "place", "photo"):
        print("some came", flush=True)
        sys.stdin.readline()
taking._Taking._keep = keep
with open_kept(Path(sys.argv[1])) as store:
    taking.take(store, Path(sys.argv[2]), Clock())
"""


@pytest.fixture
def archive(clock, tmp_path) -> Path:
    """An archive of another keeper."""
    (tmp_path / "other").mkdir()
    with open_or_begin(tmp_path / "theirs") as other:
        fill(other, clock, tmp_path / "other")
        give(other, tmp_path / "archive", ToGive(), clock)
    return tmp_path / "archive"


@pytest.fixture
def cut(store, folder, archive):
    """A program that was killed while it took the archive in; what the keeper held before."""
    before = content(store)
    with subprocess.Popen([sys.executable, "-c", TAKES, folder, archive], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as taken:
        assert taken.stdout.readline() == "some came\n"
        # Somebody is still at it.
        assert cut_off.cut_off(store) == ()
        taken.kill()
    assert content(store) != before
    return before


def test_after_a_kill_it_is_told_and_can_be_taken_back(store, cut):
    (one,) = cut_off.cut_off(store)
    assert one.sentence == (
        "The archive \u201carchive\u201d came only in part, since it was cut off: take it in again and the rest comes, or take back what came."
    )
    undoing.turn(store, one.act)
    assert content(store) == cut and cut_off.cut_off(store) == ()


def test_taken_in_again_the_rest_comes_and_it_is_told_no_more(store, cut, archive, clock, tmp_path):
    take(store, archive, clock)
    assert cut_off.cut_off(store) == ()
    with open_or_begin(tmp_path / "at once") as other:
        take(other, archive, clock)
        assert content(other)["line"] == content(store)["line"]
    assert "in part" not in acts.latest(store, 1)[0].act.told and acts.latest(store, 1)[0].act.thing == ""


def test_what_was_taken_in_whole_or_stopped_is_not_told(store, archive, clock, monkeypatch):
    take(store, archive, clock)
    (done,) = acts.latest(store, 1)
    assert (done.act.told, done.act.thing) == ("The archive \u201carchive\u201d taken in", "") and cut_off.cut_off(store) == ()


def test_the_person_is_told_where_they_come_back_to(qtbot, store, folder, cut, opened):
    frame = opened()
    qtbot.waitUntil(lambda: frame.rest.cut_off_offer is not None and frame.rest.cut_off_offer.button.isVisible())
    button = frame.rest.cut_off_offer.button
    assert button.text() == "The archive \u201carchive\u201d came only in part \u203a"
    button.click()
    leaf = frame.pages["giving"].give
    qtbot.waitUntil(lambda: leaf.cut_off.isVisible())
    at, its = leaf.go, []
    while (at := at.nextInFocusChain()) is not leaf.go:
        its.append(at)
    # Tab goes down the page as it is seen.
    assert its.index(leaf.cut_off.backs[0]) < its.index(leaf.take) < its.index(leaf.take_file)
    leaf.cut_off.backs[0].click()
    qtbot.waitUntil(lambda: not leaf.cut_off.isVisible() and not button.isVisible())
    with open_store(folder) as again:
        assert content(again) == cut

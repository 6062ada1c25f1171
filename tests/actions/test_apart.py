"""Work in a process of its own: it tells, it can be ended, and where none comes up it is done here."""

import os
import sys
import time
from pathlib import Path

import pytest
from theme_keeper import fill

from keeper.actions.apart import apart
from keeper.actions.themes import asking as themes
from keeper.errors import KeeperError, Stopped, UnknownThing
from keeper.store import Store, lines
from keeper.store.themes import found as kept


def count(store: Store, more: int) -> tuple[int, int]:
    print("What is printed there does not disturb.")
    return os.getpid(), lines.count(store) + more


def tell(store: Store, progress, stopped) -> int:
    for part in range(3):
        progress(part / 2, f"part {part}")
    return os.getpid()


def wait(store: Store, mark: Path, progress, stopped) -> None:
    mark.write_text(str(os.getpid()))
    progress(0.0, "waiting")
    time.sleep(60)
    mark.write_text("was not ended")


def refuse(store: Store) -> None:
    raise UnknownThing("There is no such thing.")


def stumble(store: Store) -> None:
    raise ZeroDivisionError


def die(store: Store) -> None:
    os._exit(7)


def test_it_is_done_elsewhere_on_the_same_keeper(store):
    fill(store, 30)
    where, counted = apart(store, count, 5)
    assert counted == 35 and where != os.getpid()


def test_it_tells_how_far_it_is(store):
    told = []
    assert apart(store, tell, progress=lambda share, words: told.append((share, words))) != os.getpid()
    assert told == [(0.0, "part 0"), (0.5, "part 1"), (1.0, "part 2")]


def test_it_is_ended_at_once(store, tmp_path):
    told, mark = [], tmp_path / "mark"
    with pytest.raises(Stopped):
        apart(store, wait, mark, progress=lambda share, words: told.append(share), stopped=lambda: bool(told))
    if sys.platform != "win32":
        with pytest.raises(OSError):
            os.kill(int(mark.read_text()), 0)


def test_what_goes_wrong_there_is_told_here(store, folder):
    with pytest.raises(UnknownThing, match="no such thing"):
        apart(store, refuse)
    with pytest.raises(KeeperError, match="ZeroDivisionError"):
        apart(store, stumble)
    assert "ZeroDivisionError" in (folder / "trouble.txt").read_text()
    with pytest.raises(KeeperError, match="stays as it was"):
        apart(store, die)


@pytest.mark.parametrize("executable", ["/nowhere/python", ""])
def test_without_a_process_it_is_done_here(store, monkeypatch, executable):
    monkeypatch.setattr(sys, "executable", executable)
    assert apart(store, count, 0)[0] == os.getpid()
    told = []
    assert apart(store, tell, progress=lambda *news: told.append(news)) == os.getpid()
    assert len(told) == 3


def test_a_process_that_does_not_find_the_program_is_none(store, monkeypatch):
    monkeypatch.setattr("keeper.actions.apart._PROGRAM", "import keeper_that_is_not_there")
    assert apart(store, count, 0)[0] == os.getpid()


def test_what_cannot_be_sent_is_done_here(store):
    assert apart(store, lambda store: os.getpid()) == os.getpid()


def test_themes_found_apart_are_those_found_here(store, clock):
    fill(store, 160)
    told = []
    assert themes.look_apart(store, clock, lambda share, words: told.append(words), lambda: False) == themes.REBUILD
    assert "grouping" in told and len(kept.every(store)) >= 4
    apart_found = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert themes.look_apart(store, clock, lambda share, words: None, lambda: False) == themes.NOTHING
    build = kept.build(store)
    themes.rebuild_themes(store, clock)
    assert kept.build(store).id != build.id
    assert dict(store.rows("SELECT line_id, theme FROM theme_line")) == apart_found


def test_a_theme_is_split_apart(store, clock):
    fill(store, 160)
    themes.rebuild_themes(store, clock)
    halves = themes.halves_apart(store, themes.themes_view(store).threads[0].number)
    new = themes.split_so(store, halves, clock)
    assert themes.look_again(store, clock) == themes.REDRAW and kept.one(store, new) is not None

"""Forty kills of a real window, and three hundred of processes that take back and do again, with nothing lost, then or later."""

from undo_kills import kill_undoers
from window_kills import kill_windows

from keeper.store import create_store

TIMES = 40


def test_forty_kills(folder, capsys):
    create_store(folder).close()
    seen, lost = kill_windows(folder, TIMES, seed=40)
    with capsys.disabled():
        print(f"\n{TIMES} kills of a window: {seen} words were on disk at one of them, "
              f"{sum(map(len, lost.values()))} of these were gone later")  # fmt: skip
    assert lost == {}


def test_three_hundred_kills_in_undoing(folder, capsys):
    create_store(folder).close()
    # Two at work at a time.
    told, lost = kill_undoers(folder, 150, seed=300)
    with capsys.disabled():
        print(f"\n300 kills in undoing: {told} texts were told as kept, {len(lost)} of them were lost")
    assert lost == set()

"""Two processes that take back and do again are really killed; nothing that was told is lost."""

from undo_kills import kill_undoers

from keeper.store import create_store

TIMES = 4


def test_kill_in_undoing(folder):
    create_store(folder).close()
    told, lost = kill_undoers(folder, TIMES, seed=7)
    assert told > TIMES and lost == set()

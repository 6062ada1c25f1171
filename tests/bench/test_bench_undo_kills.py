"""Three hundred kills of processes that take back and do again, with nothing lost."""

from undo_kills import kill_undoers

from keeper.store import create_store

TIMES = 150
"""Two processes each."""


def test_three_hundred_kills_in_undoing(folder, capsys):
    create_store(folder).close()
    told, lost = kill_undoers(folder, TIMES, seed=300)
    with capsys.disabled():
        print(f"\n{2 * TIMES} kills in undoing: {told} texts were told as kept, {len(lost)} of them were lost")
    assert lost == set()

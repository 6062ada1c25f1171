"""A real window is killed while one types in it; ``tests/bench`` does so forty times."""

from window_kills import kill_windows

from keeper.store import create_store


def test_no_word_that_was_on_disk_is_lost_when_a_window_is_killed_and_opened_again(folder):
    create_store(folder).close()
    seen, lost = kill_windows(folder, times=3, seed=2)
    assert lost == {}
    assert seen > 7

"""Forty kills of a real window, with nothing lost, then or later."""




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

"""Backing up and bringing back are really killed, at any moment: nothing is lost and the keeper opens.

Many more times in ``tests/bench``.
"""

import random

import backup_kills
import pytest
from kept_things import fill

TIMES, LONGEST = 4, 0.5


@pytest.fixture
def filled(store, clock, tmp_path, folder):
    fill(store, clock, tmp_path)
    backup_kills.with_backups(store)
    store.close()
    return folder


@pytest.mark.parametrize("kill", [
    backup_kills.kill_in_backing_up, backup_kills.kill_in_bringing_back, backup_kills.kill_over_a_broken_one,
    backup_kills.kill_in_moving,
])  # fmt: skip
def test_killed_at_any_moment(filled, kill):
    chance = random.Random(11)
    for _ in range(TIMES):
        kill(filled, chance, LONGEST)

"""A thousand damaged copies, and a hundred kills while mending: the campaigns of the tests, at length."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "actions" / "damage"))

from test_damage_campaign import broken, check, rows, sound  # noqa: F401
from test_killed_while_mending import kill_while_mending

COPIES, KILLS = 500, 100
"""Copies of each of two keepers, one closed and one with a log."""


@pytest.mark.parametrize("part", range(10))
def test_a_thousand_damaged_copies(sound, rows, folder, part):  # noqa: F811
    stood, back, mended, silent, worst = 0, 0, 0, {}, 1.0
    for number in range(1000 + part, 1000 + COPIES, 10):
        here, came = check(sound, folder, rows, number, with_backup=False)
        stood, back, mended = stood + here, back + came, mended + 1
        worst = min(worst, came / here if here else 1.0)
        broken.break_a_copy(sound, folder, number, with_backup=False)
        if lost := broken.silently_lost(folder, rows):
            silent[number] = lost
    print(f"\n{mended} copies of {sound.name}: {stood} lines stood whole, {back} came back ({back / stood:.3%}, worst copy {worst:.2%})")
    assert silent == {} and worst >= 0.99


def test_killed_while_mending(tmp_path):
    assert kill_while_mending(tmp_path, KILLS, seed=8) > KILLS // 4

"""What a theme that the person begins leaves of another."""

import numpy as np
import pytest

from keeper.study.themes.decisions import decided
from keeper.study.themes.nouns import Begin, Move, Pin, Rename

BOATS = [f"boat {at}" for at in range(9)]
ODD, BREAD = ["odd"], [f"bread {at}" for at in range(10)]
IDS = [*BOATS, *ODD, *BREAD]
HOME = {**dict.fromkeys([*BOATS, *ODD], 1), **dict.fromkeys(BREAD, 2)}
POINTS = np.array([[1, 0, 0]] * len(BOATS) + [[0, 0, 1]] + [[0, 1, 0]] * len(BREAD), np.float32)


def homes(*decisions):
    return decided(IDS, POINTS, HOME, [Begin(9, "Our boats", tuple(BOATS[:3])), *decisions], POINTS).home


def test_what_is_left_of_a_theme_is_no_theme():
    home = homes()
    assert all(home[line] == 9 for line in BOATS) and all(home[line] == 2 for line in BREAD)
    assert "odd" not in home


@pytest.mark.parametrize("said", [Rename(1, "Odd things"), Pin(1, ("odd",)), Move("odd", 1)])
def test_unless_the_person_has_said_anything_of_it(said):
    assert homes(said)["odd"] == 1


def test_a_small_theme_that_loses_nothing_stays():
    home = {**HOME, "odd": 3}
    assert decided(IDS, POINTS, home, [Begin(9, "Our boats", tuple(BOATS[:3]))], POINTS).home["odd"] == 3

"""The course around a mark, against other nights of the same seasons."""

import numpy as np
import pytest
from simulated_years import HARD, mark_hard, yearly

from keeper.study.patterns.around import around

NIGHTS = 700


def course(rng):
    return np.rint(6 + 1.5 * HARD.course(rng, NIGHTS))


def test_means_are_those_of_the_nights_before_and_after():
    reading = [float(night) for night in range(100)]
    mark = [1.0 if night in (20, 40, 60, 75, 90) else 0.0 for night in range(100)]
    reading[41] = None
    found = around(reading, mark, span=2)
    assert found.offsets == (-2, -1, 0, 1, 2)
    assert found.means == pytest.approx((55, 56, 57, (21 + 61 + 76 + 91) / 4, 59))
    assert found.counts == (5, 5, 5, 4, 5) and (found.marked, found.clusters) == (5, 5)


def test_a_dip_after_a_mark_is_seen():
    rng = np.random.default_rng(1)
    reading, mark = course(rng), mark_hard(rng, NIGHTS, 0.08)
    reading[1:] -= 2.5 * mark[:-1]
    found = around(list(reading), list(mark))
    after = found.offsets.index(1)
    assert found.means[after] < found.low[after] and found.p <= 0.01


def test_a_season_that_both_follow_is_no_dip():
    rng, early = np.random.default_rng(2), 0
    for _ in range(60):
        reading = 6 + 3 * yearly(NIGHTS) + rng.normal(size=NIGHTS)
        mark = (rng.random(NIGHTS) < np.clip(0.1 - 0.08 * yearly(NIGHTS), 0, 1)).astype(float)
        early += around(list(reading), list(mark), seed=int(rng.integers(99))).p <= 0.05
    assert early <= 7


def test_clusters_that_meet_a_bad_week_by_chance_are_no_dip():
    rng, early = np.random.default_rng(3), 0
    for _ in range(60):
        early += around(list(course(rng)), list(mark_hard(rng, NIGHTS, 0.1))).p <= 0.05
    assert early <= 7


def test_a_seed_gives_the_same_band():
    rng = np.random.default_rng(4)
    reading, mark = list(course(rng)), list(mark_hard(rng, NIGHTS, 0.1))
    assert around(reading, mark, seed=3) == around(reading, mark, seed=3) != around(reading, mark, seed=4)


def test_too_few_clusters():
    mark = [0.0] * 100
    assert around([5.0] * 100, mark) is None
    mark[10:14] = [1.0] * 4
    mark[40] = mark[60] = mark[80] = 1.0
    assert around([5.0] * 100, mark) is None


def test_what_cannot_be_asked():
    with pytest.raises(ValueError, match="a night or more"):
        around([1.0], [1.0], span=0)
    with pytest.raises(ValueError, match="same nights"):
        around([1.0], [1.0, 0.0])

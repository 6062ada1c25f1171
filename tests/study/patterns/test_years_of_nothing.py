"""A few of the simulated years of tests/bench/patterns, where there are four hundred of each."""

import numpy as np
import pytest
from simulated_years import EASY, HARD, MARKS, MIDDLE, nothing, one_link, tally

from keeper.study.patterns import find_patterns
from keeper.study.patterns.discovery import false_discovery
from keeper.study.patterns.finding import _plain

SEED = 311


@pytest.mark.parametrize("kind", [EASY, HARD])
def test_next_to_nothing_is_told(kind):
    assert tally(nothing, 15, 365, SEED, kind=kind).false_alarms <= 2 / 15


def test_a_plain_look_would_announce_something_in_nearly_every_year():
    # So these years are hard: most would fool a rank correlation with false-discovery control.
    years = [find_patterns(nothing(np.random.default_rng([SEED, i]), 365, HARD), marks=MARKS) for i in range(8)]
    assert sum(false_discovery(np.array([_plain(one.strength, one.nights) for one in patterns])).min() <= 0.05 for patterns in years) >= 6


@pytest.mark.parametrize("kind", [EASY, MIDDLE])
def test_a_link_is_found(kind):
    assert tally(one_link, 10, 365, SEED, kind=kind).found >= 9 / 10


def test_what_is_told_is_shrunk_towards_what_is_true():
    found = tally(one_link, 15, 365, SEED, kind=EASY, spearman=0.25)
    assert found.told > found.noted > 0.22 and found.likely < found.told

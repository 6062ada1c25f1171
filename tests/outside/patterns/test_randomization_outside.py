"""A worked randomization test: two feeds for tomato plants, set out as the cards fell.

Box, Hunter & Hunter, Statistics for Experimenters (1978), section 4.2: eleven plants, yields in pounds, the second feed
1.69 better; 33 % of the 462 ways in which the cards could have fallen give as much or more.
"""

from itertools import combinations

import pytest

from keeper.study.patterns.trying import Plan, outcome

FEEDS = "AABBABBBAAB"
POUNDS = (29.9, 11.4, 26.6, 23.7, 25.3, 28.5, 14.2, 17.9, 16.5, 21.1, 24.3)


def differences() -> list[float]:
    """The second feed's mean less the first's, for all ways of giving it to six of eleven."""
    whole = sum(POUNDS)
    return [sum(its) / 6 - (whole - sum(its)) / 5 for its in combinations(POUNDS, 6)]


def test_two_feeds_for_tomatoes():
    found = outcome(Plan(tuple(feed == "B" for feed in FEEDS), 1), POUNDS)
    assert (round(found.difference, 2), found.draws, found.exact, found.blocks) == (1.69, 462, True, (6, 5))
    as_large = [one >= found.difference - 1e-9 for one in differences()]
    assert round(sum(as_large) / len(as_large), 2) == 0.33
    either_way = [abs(one) >= found.difference - 1e-9 for one in differences()]
    assert found.p == pytest.approx(sum(either_way) / 462)
    assert found.low < 0 < found.high

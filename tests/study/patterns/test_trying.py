"""A try in blocks drawn by lot: against all draws counted out, and against scipy's exact permutation test."""

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from waiting.when_used import WhenUsed

from keeper.study.patterns import trying
from keeper.study.patterns.trying import Plan, draw, outcome, power

stats = WhenUsed("scipy.stats")

values = st.lists(st.integers(0, 10).map(float), min_size=8, max_size=8)


@given(st.integers(2, 30), st.integers(1, 14), st.integers(0, 2**32))
def test_half_of_the_blocks_are_with(blocks, length, seed):
    plan = draw(blocks, length, seed)
    assert sum(plan.withs) == blocks // 2 and len(plan.withs) == blocks
    assert len(plan.nights) == blocks * length and sum(plan.nights) == length * (blocks // 2)
    assert plan == draw(blocks, length, seed)


def test_every_draw_is_as_likely():
    drawn = [draw(4, 1, seed).withs for seed in range(1200)]
    counts = [drawn.count(one) for one in set(drawn)]
    assert len(counts) == 6 and stats.chisquare(counts).pvalue > 0.001


@pytest.mark.parametrize(("blocks", "length"), [(1, 3), (4, 0), (4, 15)])
def test_no_such_plan(blocks, length):
    with pytest.raises(ValueError, match="two blocks of 1 to 14"):
        draw(blocks, length, 0)


def test_p_by_counting_out_all_draws():
    # Of 20 draws of three among six, only the one there was and its opposite are as far apart as 9 9 8 and 2 1 3.
    plan = Plan((True, False, True, False, False, True), 1)
    found = outcome(plan, [9, 2, 9, 1, 3, 8])
    assert (found.p, found.draws, found.exact) == (2 / 20, 20, True)
    assert found.difference == pytest.approx(26 / 3 - 2)
    # One draw in twenty is no fortieth: no interval can be given.
    assert (found.low, found.high) == (-math.inf, math.inf)


@given(values, st.integers(0, 1000))
def test_p_is_that_of_scipy(readings, seed):
    plan = draw(8, 1, seed)
    found = outcome(plan, readings)
    withs, without = ([v for v, w in zip(readings, plan.withs, strict=True) if w is side] for side in (True, False))
    mean = lambda x, y, axis=-1: np.mean(x, axis=axis) - np.mean(y, axis=axis)  # noqa: E731
    exact = stats.permutation_test((withs, without), mean, vectorized=True, n_resamples=math.inf)
    # With as many blocks on either side the draws lie evenly round nought, so that both ways of two sides agree.
    assert found.p == pytest.approx(exact.pvalue, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(values, st.integers(0, 1000))
def test_interval_holds_what_the_test_would_not_reject(readings, seed):
    plan = draw(8, 1, seed)
    found = outcome(plan, readings)
    withs = np.array(plan.withs)
    for d, inside in ((found.low - 0.01, False), (found.low + 0.01, True), (found.high - 0.01, True), (found.high + 0.01, False)):
        if found.low + 0.02 < found.high:
            assert (_smaller_side(np.array(readings) - d * withs, withs) > 0.025) == inside


def _smaller_side(values, withs):
    """The smaller one-sided p, by counting out."""
    every = [sum(values[list(chosen)]) for chosen in combinations(range(len(values)), withs.sum())]
    seen = values[withs].sum()
    return min(np.mean([one >= seen - 1e-9 for one in every]), np.mean([one <= seen + 1e-9 for one in every]))


def test_readings_that_are_missing():
    plan = Plan((True, False, True, False), 2)
    assert outcome(plan, []) is None
    assert outcome(plan, [5, None]) is None
    found = outcome(plan, [5, None, 3, 4, None, None, 2])
    assert found.difference == pytest.approx(5 - (3.5 + 2) / 2) and found.blocks == (1, 2)
    assert outcome(plan, [5, 7, 3, 3, 6, 6, 2, 2, 100, 100]).difference == 6 - 2.5


def test_of_very_many_draws_some_are_looked_at():
    plan = draw(30, 1, 4)
    readings = [3.0 * one + value for one, value in zip(plan.nights, np.random.default_rng(1).normal(size=30), strict=True)]
    found = outcome(plan, readings)
    assert not found.exact and found.draws == math.comb(30, 15) and 0 < found.p < 0.001
    assert 2 < found.low < found.difference < found.high < 4.5


def test_nothing_comes_out_of_nothing_however_nights_run_on():
    rng, early = np.random.default_rng(3), 0
    for year in range(200):
        course = np.cumsum(rng.normal(size=40))
        early += outcome(draw(10, 4, year), list(course)).p <= 0.05
    assert early / 200 <= 0.085


def test_power_grows_with_the_effect_and_the_blocks():
    rng = np.random.default_rng(2)
    past = [None if rng.random() < 0.1 else float(round(6 + rng.normal() * 1.5)) for _ in range(400)]
    powers = [power(past, 8, 5, effect) for effect in (0, 1, 3)]
    assert powers[0] <= 0.09 < powers[1] < powers[2] >= 0.95
    assert power(past, 14, 5, 1) > powers[1]
    assert power(past[:30], 8, 5, 1) is None


def test_power_is_that_of_counting_out_all_stretches_and_draws():
    past = [6, 7, 5, 8, 6, None, 7, 4, 6, 8, 7, 5, 6, 7, 9, 6, 5, 7]
    whole, hits = 0, 0
    for start in range(len(past) - 15):
        means = [_mean(past[start + 2 * block : start + 2 * block + 2]) for block in range(8)]
        for chosen in combinations(range(8), 4):
            shifted = [mean + 2 * (block in chosen) for block, mean in enumerate(means)]
            whole, hits = whole + 1, hits + (_p_counted_out(shifted, chosen) <= 0.05)
    expected, simulated = hits / whole, power(past, 8, 2, 2.0)
    assert 0.3 < expected < 0.9
    # 300 stretches: four standard errors.
    assert abs(simulated - expected) < 4 * math.sqrt(expected * (1 - expected) / 300)


def _mean(nights):
    noted = [one for one in nights if one is not None]
    return sum(noted) / len(noted)


def _p_counted_out(means, chosen):
    apart = lambda withs: abs(sum(means[i] for i in withs) / 4 - sum(means[i] for i in range(8) if i not in withs) / 4)  # noqa: E731
    every = [apart(one) for one in combinations(range(8), 4)]
    return sum(one >= apart(chosen) - 1e-9 for one in every) / len(every)


def test_several_effects_are_tried_on_the_same_nights_as_one():
    past = list(np.random.default_rng(5).normal(6, 1.5, 90))
    heard = []
    found = trying.powers(past, 8, 3, (0.5, 1.5), 4, heard.append)
    assert found == (power(past, 8, 3, 0.5, 4), power(past, 8, 3, 1.5, 4))
    assert heard[0] == 0 and heard == sorted(heard) and heard[-1] < 1


@pytest.mark.parametrize("blocks", range(2, 10))
def test_the_smallest_p_is_that_of_the_widest_difference(blocks):
    withs = tuple(block < blocks // 2 for block in range(blocks))
    found = outcome(Plan(withs, 1), [100.0 if one else 0.0 for one in withs])
    assert found.p == pytest.approx(trying.least_p(blocks))

"""A pattern for people: where a reading is cut, and what is told of the two sides; scipy as reference."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from waiting.when_used import WhenUsed

from keeper.study.patterns.contrast import contrast, cut, difference_of_means
from keeper.study.patterns.pattern import ABOVE, BELOW, MEANS, MEDIANS, RISKS, YES, Cut

stats = WhenUsed("scipy.stats")

values = st.lists(st.integers(-50, 50), min_size=3, max_size=60).filter(lambda its: len(set(its)) > 1)


@given(values, values)
def test_the_difference_of_means_is_welchs_as_scipy_has_it(one, other):
    ours = difference_of_means(np.array(one, float), np.array(other, float))
    theirs = stats.ttest_ind(one, other, equal_var=False).confidence_interval(0.95)
    assert ours.value == pytest.approx(np.mean(one) - np.mean(other), abs=1e-12)
    assert (ours.low, ours.high) == pytest.approx((theirs.low, theirs.high), rel=1e-12, abs=1e-12)


def test_likeness_makes_the_interval_wider():
    one, other = np.arange(40.0), np.arange(40.0) + 3
    plain, wider = difference_of_means(one, other), difference_of_means(one, other, 4.0)
    assert plain.value == wider.value == -3
    # As many nights as a quarter: twice as wide, and a little for the fewer degrees of freedom.
    assert 2 < (wider.high - wider.low) / (plain.high - plain.low) < 2.2


def test_the_mean_of_nights_that_are_all_alike_is_known():
    found = difference_of_means(np.full(30, 5.0), np.full(30, 4.0))
    assert (found.value, found.low, found.high) == (1, 1, 1)


@pytest.mark.parametrize(("its", "side", "expected"), [
    (list(range(100)), BELOW, Cut(BELOW, 19, 20)),
    (list(range(100)), ABOVE, Cut(ABOVE, 80, 79)),
    ([0] * 70 + [1] * 25 + [2] * 5, ABOVE, Cut(ABOVE, 1, 0)),
    # A fifth would be 12 nights of 60; there are to be twenty.
    (list(range(60)), BELOW, Cut(BELOW, 19, 20)),
    ([3] * 30 + [4] * 30, BELOW, Cut(BELOW, 3, 4)),
])  # fmt: skip
def test_a_reading_is_cut_where_about_a_fifth_lies_to_one_side(its, side, expected):
    assert cut(its, side) == expected


@given(st.lists(st.integers(0, 12), min_size=45, max_size=200).filter(lambda its: len(set(its)) > 1), st.sampled_from([BELOW, ABOVE]))
def test_both_sides_of_a_cut_have_nights_and_no_value_lies_between(its, side):
    found = cut(its, side)
    there = [one <= found.at if side == BELOW else one >= found.at for one in its]
    assert 0 < sum(there) < len(its)
    assert found.beyond in {one for one, is_there in zip(its, there, strict=True) if not is_there}
    assert not any(min(found.at, found.beyond) < one < max(found.at, found.beyond) for one in its)


def test_of_two_readings_medians_are_told_and_means_where_they_are_too_coarse():
    first = np.array([4.0] * 40 + [7.0] * 160)
    apart = np.concatenate([np.arange(40) % 5, np.arange(160) % 5 + 3.0])
    found = contrast(first, apart, Cut(BELOW, 4.0, 7.0), False, 1.0)
    assert (found.kind, found.value, found.with_mark.nights, found.without.nights) == (MEDIANS, -3, 40, 160)
    coarse = np.concatenate([np.tile([5.0, 5, 6, 6, 6], 8), np.tile([6.0, 6, 6, 7, 7], 32)])
    found = contrast(first, coarse, Cut(BELOW, 4.0, 7.0), False, 1.0)
    assert found.kind == MEANS and found.value == pytest.approx(-0.8) and found.high < 0


def test_into_a_mark_the_shares_are_told():
    first, second = np.array([1.0] * 40 + [0.0] * 160), np.array([1.0] * 20 + [0.0] * 20 + [1.0] * 16 + [0.0] * 144)
    found = contrast(first, second, Cut(YES), True, 1.0)
    assert (found.kind, found.value) == (RISKS, pytest.approx(5)) and found.low > 1
    assert (found.with_mark.value, found.without.value) == (0.5, 0.1)

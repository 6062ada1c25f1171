"""Medians, quartiles and shares of nights, against numpy and scipy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from waiting.when_used import WhenUsed

from keeper.study.readings.spread import Spread, share, spread

stats = WhenUsed("scipy.stats")

VALUES = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=366)


@given(VALUES)
def test_the_quartiles_are_numpy_s(values):
    found = spread(values)
    wanted = np.quantile(values, [0.25, 0.5, 0.75])
    assert (found.low, found.middle, found.high) == pytest.approx(tuple(wanted), rel=1e-9, abs=1e-6)
    assert found.nights == len(values)


@given(VALUES, st.randoms())
def test_the_order_of_nights_changes_nothing(values, chance):
    other = list(values)
    chance.shuffle(other)
    assert spread(other) == spread(values)


def test_nothing_noted_is_no_zero():
    assert spread([]) == share(0, 0) == Spread(None, None, None, 0)
    assert spread([0.0]) == Spread(0.0, 0.0, 0.0, 1)
    assert share(0, 4).middle == 0.0 and share(0, 4).high > 0


@given(st.integers(1, 366).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of))))
def test_a_share_has_wilson_s_interval(count):
    interval = stats.binomtest(*count).proportion_ci(0.95, "wilson")
    found = share(*count)
    assert found.middle == count[0] / count[1]
    assert (found.low, found.high) == pytest.approx((interval.low, interval.high), abs=1e-9)

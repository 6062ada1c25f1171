"""How often a mark follows another. Fisher, The Design of Experiments (1935), the tea; scipy as reference."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from waiting.when_used import WhenUsed

from keeper.study.patterns.following import cycles, fisher, follows, phase, sustained_rise

stats = WhenUsed("scipy.stats")

counts = st.integers(0, 40)


def nights(*yes, of=20, unknown=()):
    return [None if night in unknown else float(night in yes) for night in range(of)]


def test_the_tea_of_fisher_1935():
    assert fisher(4, 0, 0, 4)[1] == pytest.approx(1 / 70, abs=1e-15)
    assert fisher(3, 1, 1, 3)[1] == pytest.approx(17 / 70, abs=1e-15)


@given(counts, counts, counts, counts)
def test_the_exact_test_is_that_of_scipy(a, b, c, d):
    table = [[a, b], [c, d]]
    expected = stats.fisher_exact(table)[1], stats.fisher_exact(table, "greater")[1]
    assert fisher(a, b, c, d) == pytest.approx(expected, abs=1e-12)


def test_how_often_it_follows():
    found = follows(nights(0, 5, 10), nights(1, 2, 7, 14), within=2)
    assert (found.measure.with_mark.nights, found.measure.with_mark.value) == (3, pytest.approx(2 / 3))
    # Without: 13 (then 14), 16; 3 and 8 reach into windows that are taken.
    assert (found.measure.without.nights, found.measure.without.value) == (2, 0.5)


def test_windows_do_not_overlap():
    found = follows(nights(*range(10)), nights(3, of=20), within=3)
    assert found.measure.with_mark.nights == 3 and found.measure.without.nights == 2


def test_a_window_with_a_gap_counts_only_with_a_yes():
    assert follows(nights(0), nights(2, unknown=(1,)), within=2).measure.with_mark.value == 1
    assert follows(nights(0), nights(unknown=(1,)), within=2) is None
    assert follows(nights(of=0), nights(of=0), within=1) is None


def test_only_the_nights_of_a_phase_take_part():
    begun = nights(0, 15, of=30)
    found = follows(nights(3, 9, 18, of=30), nights(4, 19, of=30), within=1, only=phase(begun, 1, 5))
    assert (found.measure.with_mark.nights, found.measure.with_mark.value) == (2, 1)


@pytest.mark.parametrize(("within", "second", "words"), [(0, [1.0], "a night or more"), (1, [], "same nights")])
def test_what_cannot_be_asked(within, second, words):
    with pytest.raises(ValueError, match=words):
        follows([1.0], second, within)


def test_a_phase_begins_anew_with_each_mark():
    assert phase(nights(2, 4, of=9), 1, 2) == {3, 5, 6}
    assert phase(nights(2, 4, of=9), 0, 0) == {2, 4}
    assert phase(nights(of=9), 0, 9) == frozenset()


def test_cycles_lie_between_beginnings():
    assert cycles(nights(0, 1, 2, 28, 29, 57, 60, of=80)) == (range(0, 28), range(28, 57))
    assert cycles(nights(of=80)) == ()


def test_a_sustained_rise():
    low, high = [36.4, 36.5, 36.3, 36.4, 36.5, 36.4], [36.7, 36.8, 36.7]
    assert sustained_rise(low + high) == 6
    assert sustained_rise([*low, None, *high]) == 7
    assert sustained_rise([*low, 36.7, 36.5, 36.7]) is None
    assert sustained_rise(low[1:] + high) is None


def test_marks_that_have_nothing_to_do_with_each_other():
    rng = np.random.default_rng(1)
    ps = [follows(*(list((rng.random(300) < 0.2).astype(float)) for _ in range(2)), within=2).p for _ in range(150)]
    assert np.mean(np.array(ps) <= 0.05) <= 0.07

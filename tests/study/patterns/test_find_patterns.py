"""What is asked, what is answered, and on what the answer does not hang."""

import math
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from simulated_years import MARKS, MIDDLE, READINGS, one_link, standardised, yearly

from keeper.study.patterns import find_patterns
from keeper.study.patterns.pattern import DRIFT, SEASON, WEEKDAY
from keeper.study.patterns.rhythms import yearly_peak

seeds = st.integers(0, 2**32)
few = settings(max_examples=12, deadline=None)


def year(seed: int, nights: int = 120) -> dict:
    return one_link(np.random.default_rng(seed), nights, MIDDLE)


def asked(patterns) -> set:
    return {(one.first, one.second, one.lag) for one in patterns}


def test_a_link_is_told_and_its_neighbours_say_nothing_false():
    patterns = find_patterns(year(0, 365), marks=MARKS)
    assert (patterns[0].first, patterns[0].second, patterns[0].lag) == ("first", "second", 1)
    told = [one for one in patterns if one.stands_out]
    assert not patterns[0].hidden
    assert told == [one for one in told if {one.first, one.second} == {"first", "second"}] != []
    assert 0 < patterns[0].low < 0.35 < patterns[0].high


def test_every_ordered_pair_at_every_lag_is_asked_once():
    columns = {name: [float(v) for v in np.random.default_rng(i).integers(0, 9, 60)] for i, name in enumerate("xyz")}
    patterns = find_patterns(columns, lags=(0, 1, 2, 2))
    pairs = [(one.first, one.second, one.lag) for one in patterns]
    later = {(a, b, lag) for a in "xyz" for b in "xyz" for lag in (1, 2) if a != b}
    assert len(pairs) == len(set(pairs)) == 3 + 12 and later < set(pairs)
    assert {frozenset(pair[:2]) for pair in pairs if pair[2] == 0} == {frozenset("xy"), frozenset("xz"), frozenset("yz")}
    assert {one.asked for one in patterns} == {15}
    assert find_patterns(columns, lags=(1,)) and asked(find_patterns(columns, lags=(1,))) == {p for p in later if p[2] == 1}


@pytest.mark.parametrize(("nights", "yes", "is_asked"), [(40, 20, True), (39, 19, False), (60, 19, False), (60, 20, True)])
@pytest.mark.parametrize("turned", [False, True])
def test_too_few_nights_are_not_asked(nights, yes, is_asked, turned):
    rng = np.random.default_rng(1)
    mark = rng.permutation([1.0] * yes + [0.0] * (nights - yes))
    columns = {"mark": list(1 - mark if turned else mark), "mood": list(rng.normal(size=nights))}
    assert bool(find_patterns(columns, marks=["mark"], lags=[0])) == is_asked
    # One night later there is one pair less, on one side or on both.
    assert len(find_patterns(columns, marks=["mark"], lags=[0, 45])) == is_asked


def test_a_reading_that_is_always_the_same_is_not_asked():
    columns = {"same": [5.0] * 80, "mood": [float(v) for v in np.random.default_rng(1).integers(0, 9, 80)]}
    assert find_patterns(columns) == ()
    columns["same"][10:29] = [6.0] * 19
    assert find_patterns(columns, lags=[0]) == ()
    columns["same"][10:30] = [6.0] * 20
    assert len(find_patterns(columns, lags=[0])) == 1


def test_nothing_to_ask():
    assert find_patterns({}) == ()
    assert find_patterns({"a": []}) == ()
    assert find_patterns({"a": [None] * 50, "b": [1.0] * 50}, marks=["a"]) == ()


@pytest.mark.parametrize(
    ("columns", "how", "words"),
    [
        ({"a": [1.0], "b": [1.0, 2.0]}, {}, "same length"),
        ({"a": [1.0]}, {"marks": ["b"]}, "no column is called 'b'"),
        ({"a": [math.inf]}, {}, "without end"),
        ({"a": [1.0]}, {"lags": [-1]}, "0 or more"),
    ],
)
def test_what_cannot_be_asked_is_told(columns, how, words):
    with pytest.raises(ValueError, match=words):
        find_patterns(columns, **how)


def test_none_and_nan_are_the_same():
    columns = year(5)
    nan = {name: [math.nan if value is None else value for value in column] for name, column in columns.items()}
    assert find_patterns(nan, marks=MARKS) == find_patterns(columns, marks=MARKS)


@few
@given(seeds, st.integers(0, 40), st.integers(0, 40))
def test_empty_nights_at_the_ends_change_nothing(seed, before, after):
    # Other dates are the same: a column knows no date, only which night follows which.
    columns = year(seed)
    wider = {name: [None] * before + column + [None] * after for name, column in columns.items()}
    assert find_patterns(wider, marks=MARKS) == find_patterns(columns, marks=MARKS)


@few
@given(seeds, st.permutations(READINGS + MARKS))
def test_the_order_of_the_columns_changes_nothing(seed, order):
    columns = year(seed)
    assert find_patterns({name: columns[name] for name in order}, marks=MARKS) == find_patterns(columns, marks=MARKS)


@few
@given(seeds, st.permutations(READINGS + MARKS))
def test_names_change_nothing(seed, names):
    columns = year(seed)
    new = dict(zip(columns, names, strict=True))
    renamed = find_patterns({new[name]: column for name, column in columns.items()}, marks=[new[name] for name in MARKS])
    expected = find_patterns(columns, marks=MARKS)
    assert renamed == tuple(replace(one, first=new[one.first], second=new[one.second]) for one in expected)


@few
@given(seeds, st.sampled_from(MARKS))
def test_yes_for_no_turns_the_sign_and_nothing_else(seed, mark):
    columns = year(seed)
    other = {**columns, mark: [None if value is None else 1 - value for value in columns[mark]]}
    before, after = find_patterns(columns, marks=MARKS), find_patterns(other, marks=MARKS)
    assert len(before) == len(after) > 20
    for one, its_turn in zip(before, after, strict=True):
        if mark in (one.first, one.second):
            turned = {"strength": -one.strength, "low": -one.high, "high": -one.low, "within": -one.within}
            one = replace(one, **turned, measure=its_turn.measure)
        assert its_turn == one


@few
@given(seeds, st.integers(1, 5))
def test_any_seed_gives_the_same_answer(seed, other):
    columns = year(seed)
    assert find_patterns(columns, marks=MARKS, seed=other) == find_patterns(columns, marks=MARKS)


def test_a_measure_that_fits_the_pair():
    patterns = {(one.first, one.second): one.measure for one in find_patterns(year(8, 800), marks=MARKS, lags=[1])}
    assert patterns["first", "second"].kind == "rank correlation"
    assert patterns["a", "first"].kind == patterns["first", "a"].kind == "difference of medians"
    assert patterns["a", "b"].kind == "risk ratio"


def test_both_follow_the_season_and_nothing_else():
    patterns = find_patterns(waves(SEASON), lags=[0, 1])
    assert {one.rhythm for one in patterns} == {SEASON} and not any(one.stands_out for one in patterns)


def test_both_drift_over_months():
    # Less than a year: a season cannot be told from a drift.
    patterns = find_patterns({name: column[:300] for name, column in waves(SEASON).items()}, lags=[0])
    assert [one.rhythm for one in patterns] == [DRIFT] and not patterns[0].stands_out


def test_both_follow_the_day_of_the_week():
    patterns = find_patterns(waves(WEEKDAY), lags=[0, 7])
    assert {one.rhythm for one in patterns} == {WEEKDAY} and not any(one.stands_out for one in patterns)


def waves(which: str) -> dict:
    """Two readings that have a wave in common, and nothing else."""
    rng, nights = np.random.default_rng(12), 730
    wave = yearly(nights) if which == SEASON else standardised((np.arange(nights) % 7 >= 5).astype(float))
    return {name: [float(v) for v in np.rint(5 + 1.5 * (wave + rng.normal(size=nights)))] for name in ("swims", "mood")}


@pytest.mark.parametrize("peak", [0, 20, 180, 340])
def test_when_the_yearly_wave_is_highest(peak):
    column = [5 + 2 * math.cos(2 * math.pi * (night - peak) / 365.2425) for night in range(800)]
    column[30:90] = [None] * 60
    assert yearly_peak(column) == peak
    assert yearly_peak([1.0] * 9) is None


def test_whoever_only_names_a_pattern_waits_for_nothing():
    source = """
import sys
from keeper.study.patterns import Pattern, find_patterns
assert not {"numpy", "scipy"} & sys.modules.keys()
rows = [float(i * 7 % 11) for i in range(90)]
assert find_patterns({"a": rows, "b": rows[::-1]})
assert "scipy.special" in sys.modules and not {"scipy.stats", "ruptures"} & sys.modules.keys()
"""
    subprocess.run([sys.executable, "-c", source], check=True, timeout=200)


def test_a_link_that_a_season_turns_round_is_told_as_it_is_within_the_seasons():
    # Within the seasons more goes with less; over the year both are higher in summer.
    rng, nights = np.random.default_rng(4), 730
    common = rng.normal(size=nights)
    columns = {name: list(2 * yearly(nights) + sign * common + rng.normal(size=nights) / 2) for name, sign in (("a", 1), ("b", -1))}
    (pattern,) = find_patterns(columns, lags=[0])
    assert pattern.stands_out and pattern.hidden
    assert pattern.strength > 0.3 and pattern.within < -0.5

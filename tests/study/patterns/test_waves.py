"""Whether a column goes with the weekday or the season: found where it is planted, and not told where it is not.

The full look at calibration (500 columns each of 365 to 3,650 nights, nights alike up to .85, with a drift) gave .036 to .066 below
.05 for both questions; the seeds here were not among its own.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from simulated_years import running_on, yearly
from waiting.when_used import WhenUsed

from keeper.study.patterns.pattern import SEASON, WEEKDAY
from keeper.study.patterns.waves import _one_way, waves

stats = WhenUsed("scipy.stats")


def columns(many: int, nights: int, likeness: float, season: float = 0.0, week: float = 0.0, seed: int = 0) -> dict:
    rng = np.random.default_rng(seed)
    slide, days = np.linspace(-1, 1, nights), np.arange(nights) % 7 >= 5
    made = (running_on(rng, nights, likeness) + rng.normal(0, 0.8) * slide + season * yearly(nights) + week * days for _ in range(many))
    return {str(name): [float(value) for value in np.rint(5 + 2 * one)] for name, one in enumerate(made)}


def below(its, kind: str, bar: float = 0.05) -> float:
    ps = [one.p for one in its if one.kind == kind]
    assert ps
    return float(np.mean(np.array(ps) <= bar))


@pytest.mark.parametrize("likeness", [0.0, 0.7])
def test_neither_is_told_where_there_is_none(likeness):
    found = waves(columns(80, 1200, likeness, seed=91), (), (WEEKDAY, SEASON))
    # Of 80 at .05 more than 11 come in one of a thousand.
    assert below(found, WEEKDAY) <= 11 / 80 and below(found, SEASON) <= 11 / 80


def test_both_are_found_where_they_are():
    found = waves(columns(6, 2200, 0.5, season=0.6, week=0.6, seed=92), (), (WEEKDAY, SEASON))
    assert below(found, WEEKDAY, 1e-4) == 1 and below(found, SEASON, 0.01) == 1


def test_of_marks_too():
    made = {name: [float(value > 7) for value in column] for name, column in columns(4, 700, 0.3, week=1.0, seed=93).items()}
    assert below(waves(made, made, (WEEKDAY,)), WEEKDAY, 1e-4) == 1


def test_a_season_is_asked_with_three_years_only_and_only_what_is_wanted():
    made = columns(1, 3 * 366, 0.2, seed=94)
    assert [one.kind for one in waves(made, (), (WEEKDAY, SEASON))] == [WEEKDAY, SEASON]
    short = {name: column[: 3 * 365 - 100] for name, column in made.items()}
    assert [one.kind for one in waves(short, (), (WEEKDAY, SEASON))] == [WEEKDAY]
    assert waves(made, (), ()) == () and waves({}, (), (WEEKDAY,)) == ()


@given(st.integers(1, 60), st.integers(0, 2**31))
@settings(max_examples=10, deadline=None)
def test_empty_nights_before_it_change_nothing(empty, seed):
    made = columns(1, 400, 0.4, week=0.3, seed=seed)
    (one,), (other,) = (waves(its, (), (WEEKDAY,)) for its in (made, {"0": [None] * empty + made["0"]}))
    assert other.p == pytest.approx(one.p, rel=1e-9) and other.nights == one.nights == 400


def test_too_few_nights_are_not_asked_of_a_rhythm():
    assert waves({"a": [float(v % 4) for v in range(39)]}, (), (WEEKDAY,)) == ()
    assert len(waves({"a": [float(v % 4) for v in range(40)]}, (), (WEEKDAY,))) == 1
    assert waves({"a": [1.0] * 19 + [0.0] * 60}, ["a"], (WEEKDAY,)) == ()


def test_years_that_swing_one_way_are_hotellings_test_as_by_two_regressions():
    # In one direction it is the square of Student's t; scipy as reference.
    rng = np.random.default_rng(3)
    turns = rng.normal((0.8, 0.2), size=(9, 2))
    spread = np.cov(turns.T)
    best = np.linalg.solve(spread, turns.mean(0))
    squared = stats.ttest_1samp(turns @ best, 0).statistic ** 2
    assert _one_way(turns) == pytest.approx(stats.f.sf(squared * 7 / (2 * 8), 2, 7), rel=1e-9)

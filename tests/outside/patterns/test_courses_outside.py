"""Closer looks against scipy, a public series, and a best cut found by trying all.

The Nile at Aswan 1871 to 1970 as statsmodels carries it: Cobb, Biometrika 65 (1978), finds one shift, after 1898. The
lady tasting tea: Fisher, The Design of Experiments (1935), chapter 2.
"""

from datetime import date
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from waiting.when_used import WhenUsed

from keeper.model import Tracker
from keeper.review.courses.after import after_told, sides
from keeper.review.courses.around import around_told
from keeper.review.courses.changes import changes_told
from keeper.review.patterns.candidates import READING, Candidate
from keeper.study.patterns import changes
from keeper.study.patterns.around import around, clusters
from keeper.study.patterns.changes import levels, standing
from keeper.study.patterns.following import Following, fisher, follows
from keeper.study.patterns.measures import risk_ratio

stats = WhenUsed("scipy.stats")
contingency = WhenUsed("scipy.stats.contingency")
datasets = WhenUsed("statsmodels.datasets")

DAY = date(1871, 1, 1)


def tracker(name: str, form: str = "amount") -> Tracker:
    return Tracker(name, name, form, None, None, "", "neither", DAY)


def mark(name: str) -> Candidate:
    return Candidate(f"reading:{name}", name, READING, True, tracker(name, "mark"))


@pytest.fixture
def noisy():
    rng = np.random.default_rng(5)
    reading = [None if rng.random() < 0.1 else float(one) for one in np.rint(rng.normal(6, 2, 400))]
    yes = [None if rng.random() < 0.05 else float(one) for one in rng.random(400) < 0.08]
    return reading, yes


def test_the_nile_as_statsmodels_carries_it_shifted_once_after_1898():
    data = datasets.nile.load_pandas().data
    flows = data["volume"].tolist()
    assert (data["year"].iloc[0], len(flows)) == (1871, 100)
    before, after = levels(flows)
    assert 1871 + before.last == 1898 and (after.first, after.last) == (28, 99)
    assert before.mean == pytest.approx(stats.tmean(flows[:28]), rel=1e-12)
    told = changes_told(tracker("flow"), DAY, flows, (before, after))
    assert told.sentences[0].startswith("Over 100 nights the level of flow shifted once: around ")
    assert told.sentences[0].endswith(" from 1,097.75 to 849.97.")


def test_the_tea_is_told_with_its_p():
    p, more = fisher(3, 1, 1, 3)
    assert (p, more) == (pytest.approx(34 / 70, abs=1e-15), pytest.approx(17 / 70, abs=1e-15))
    five = risk_ratio(4, 5, 1, 5)
    told = after_told(mark("milk first"), mark("said so"), 1, None, Following(five, p, more))
    assert "in 49 % of cases" in told.sentences[-1]


def test_means_and_medians_around_a_mark_are_those_of_scipy(noisy):
    reading, yes = noisy
    found = around(reading, yes, span=4)
    nights = [night for night, one in enumerate(yes) if one]
    pairs = [(offset, reading[night + offset]) for night in nights for offset in range(-4, 5)
             if 0 <= night + offset < 400 and reading[night + offset] is not None]  # fmt: skip
    offsets, values = zip(*pairs, strict=True)
    edges = np.arange(-4.5, 5)
    for which, ours in (("mean", found.means), ("count", found.counts)):
        expected = stats.binned_statistic(offsets, values, which, edges).statistic
        assert ours == pytest.approx(tuple(expected), abs=1e-12)
    medians = stats.binned_statistic(offsets, values, "median", edges).statistic
    told = around_told(mark("m"), tracker("r"), 4, reading, yes, found, clusters(yes, 4))
    assert [row[2] for row in told.figures.rows] == [f"{one:g}" for one in medians]


@given(st.integers(1, 30), st.integers(1, 30), st.integers(1, 30), st.integers(1, 30))
def test_the_risk_ratio_and_its_interval_are_those_of_scipy(hits, misses, others, other_misses):
    ours = risk_ratio(hits, hits + misses, others, others + other_misses)
    expected = contingency.relative_risk(hits, hits + misses, others, others + other_misses)
    interval = expected.confidence_interval(0.95)
    assert (ours.value, ours.low, ours.high) == pytest.approx((expected.relative_risk, interval.low, interval.high), rel=1e-12)


@given(st.integers(0, 20), st.integers(5, 20))
def test_the_share_drawn_has_the_interval_of_scipy(hits, of):
    hits = min(hits, of)
    told = after_told(mark("a"), mark("b"), 1, None, Following(risk_ratio(hits, of, 3, 9), 0.5, 0.5))
    one = sides(told)[0]
    expected = stats.binomtest(hits, of).proportion_ci(method="wilson")
    assert (one.low, one.high) == pytest.approx((expected.low, expected.high), abs=1e-9)


def test_the_middle_half_of_the_months_is_that_of_scipy():
    months = [5, 6.5, 7, 8, 4, 6, 7, 3.5]
    found = standing(6, months)
    assert (found.low, found.high) == pytest.approx(stats.mstats.mquantiles(months, (0.25, 0.75), alphap=1, betap=1), abs=1e-12)


@settings(max_examples=15)
@given(st.integers(0, 2**32 - 1))
def test_the_levels_are_the_best_of_all_cuts(seed):
    """By trying every way to cut a short series: the sum of squares and what the shifts cost are the least."""
    rng = np.random.default_rng(seed)
    row = np.repeat(rng.normal(0, 2, 3), 30) + rng.normal(0, 1, 90)
    found = levels(list(row))
    penalty = changes.PENALTY * changes._long_run_variance(row) * np.log(90)

    def cost(cuts):
        ends = (0, *cuts, 90)
        parts = [row[one:other] for one, other in pairwise(ends)]
        return sum(((part - part.mean()) ** 2).sum() for part in parts) + penalty * len(cuts)

    places = [cuts for many in range(4) for cuts in combinations(range(21, 70), many)
              if all(other - one >= 21 for one, other in zip((0, *cuts), (*cuts, 90), strict=True))]  # fmt: skip
    assert cost(tuple(one.first for one in found[1:])) == pytest.approx(min(map(cost, places)), abs=1e-8)


@given(st.integers(0, 60), st.integers(0, 60), st.integers(0, 5))
def test_empty_nights_around_a_record_change_nothing_but_places(before, after, seed):
    rng = np.random.default_rng(seed)
    reading, yes, other = (list(np.rint(rng.normal(6, 2, 150))), *([float(one) for one in rng.random(150) < 0.1] for _ in range(2)))
    wide = [[None] * before + row + [None] * after for row in (reading, yes, other)]
    assert around(wide[0], wide[1], span=3) == around(reading, yes, span=3)
    assert follows(wide[1], wide[2], 2) == follows(yes, other, 2)
    moved = [(one.first - before, one.last - before, one.mean, one.noted) for one in levels(wide[0])]
    assert moved == [(one.first, one.last, one.mean, one.noted) for one in levels(reading)]

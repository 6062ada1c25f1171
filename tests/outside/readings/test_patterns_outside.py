"""Patterns against published examples and reference libraries.

Benjamini & Hochberg, J. R. Stat. Soc. B 57 (1995), the fifteen p of the worked example. Anscombe, The American
Statistician 27 (1973), quartet I. Newcombe, Statistics in Medicine 17 (1998): 81 of 263, Wilson's interval.
scipy.stats is the reference for every estimate.
"""

import numpy as np
import pytest
from waiting.when_used import WhenUsed

from keeper.study.patterns import find_patterns, measures
from keeper.study.patterns.chance import joined, sums, tails
from keeper.study.patterns.discovery import false_discovery, shrinkage
from keeper.study.patterns.within import autocorrelations, likeness, scores
from keeper.study.trend import wilson

stats = WhenUsed("scipy.stats")
contingency = WhenUsed("scipy.stats.contingency")
datasets = WhenUsed("statsmodels.datasets")
stattools = WhenUsed("statsmodels.tsa.stattools")

FIFTEEN = (0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0)
ANSCOMBE = (
    (10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5),
    (8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68),
)


def test_benjamini_and_hochberg_1995():
    q = false_discovery(np.array(FIFTEEN))
    assert (q <= 0.05).sum() == 4
    assert q == pytest.approx(stats.false_discovery_control(FIFTEEN), abs=1e-12)


def test_false_discovery_in_any_order():
    p = np.random.default_rng(0).permutation(np.repeat(np.random.default_rng(1).random(40), 2))
    assert false_discovery(p) == pytest.approx(stats.false_discovery_control(p), abs=1e-12)


def test_newcombe_1998():
    assert wilson(81, 263) == pytest.approx((0.2553, 0.3662), abs=5e-5)


def test_anscombe_1973():
    x, y = (np.array(one, float) for one in ANSCOMBE)
    everywhere = np.ones((1, len(x)))
    assert sums(x[None], y[None], everywhere).r[0] == pytest.approx(0.816, abs=5e-4)
    assert sums(x[None], y[None], everywhere).r[0] == pytest.approx(stats.pearsonr(x, y)[0], abs=1e-12)
    assert measures.rank_correlation(x, y) == pytest.approx(stats.spearmanr(x, y)[0], abs=1e-12)


def test_rank_correlation_of_what_was_noted_is_that_of_scipy():
    rng = np.random.default_rng(5)
    columns = {name: [None if rng.random() < 0.1 else float(rng.integers(0, 8)) for _ in range(400)] for name in "ab"}
    columns["mark"] = [None if rng.random() < 0.1 else float(rng.random() < 0.3) for _ in range(400)]
    for one in find_patterns(columns, marks=["mark"]):
        first, second = (np.array(columns[name], float) for name in (one.first, one.second))
        first, second = first[: 400 - one.lag], second[one.lag :]
        both = ~np.isnan(first + second)
        assert one.nights == both.sum()
        assert one.strength == pytest.approx(stats.spearmanr(first[both], second[both])[0], abs=1e-12)
        if "mark" in (one.first, one.second):
            mark, of = (first[both], second[both]) if one.first == "mark" else (second[both], first[both])
            assert one.measure.value == pytest.approx(np.median(of[mark == 1]) - np.median(of[mark == 0]), abs=1e-12)


def test_risk_ratio_and_its_interval_are_those_of_scipy():
    ours, theirs = measures.risk_ratio(27, 122, 44, 487), contingency.relative_risk(27, 122, 44, 487)
    interval = theirs.confidence_interval(0.95)
    assert (ours.value, ours.low, ours.high) == pytest.approx((theirs.relative_risk, interval.low, interval.high), abs=1e-12)


def test_interval_of_ranks_by_hand():
    # Bonett & Wright 2000: atanh(.5) = .549306; sqrt(1.125 / 97) = .107694; +- .211077: tanh .338229 and .760383.
    assert measures.interval_of_ranks(0.5, 100, 1) == pytest.approx((0.32589, 0.64128), abs=1e-4)


def test_a_tail_of_type_iii_is_that_of_scipy():
    for skewness in (-1.5, -0.3, 0.2, 0.9, 2.0):
        z = np.array([-1.2, -0.4, 0.1, 0.7, 2.5, 4.0])
        curve = stats.pearson3(skewness)
        assert tails(z, np.full(6, skewness)) == pytest.approx(2 * np.minimum(curve.sf(z), curve.cdf(z)), rel=1e-9, abs=1e-300)
    assert tails(np.array([1.96]), np.array([0.0])) == pytest.approx(2 * stats.norm.sf(1.96), rel=1e-4)


def test_two_p_joined_as_scipy_joins_them():
    # scipy has no Cauchy combination: the formula of Liu & Xie 2020 with scipy's own distribution.
    for one, other in ((0.03, 0.4), (1e-9, 0.9), (1e-5, 2e-5), (0.8, 0.6)):
        mean = (stats.cauchy.isf(one) + stats.cauchy.isf(other)) / 2
        assert joined(np.array([one]), np.array([other]))[0] == pytest.approx(stats.cauchy.sf(mean), rel=1e-7)
    assert joined(np.array([1e-6]), np.array([1.0]))[0] < 2.1e-6


def test_skewness_is_that_of_all_orders():
    from itertools import permutations

    a, b = np.array([1.0, 1, 2, 9, 4, 4, 30]), np.array([0.0, 0, 0, 1, 0, 0, 1])
    orders = np.array(list(permutations(b)))
    everywhere = np.ones_like(orders)
    every = sums(np.broadcast_to(a, orders.shape), orders, everywhere)
    assert every.skewness[0] == pytest.approx(stats.skew(every.r), abs=1e-9)
    assert np.std(every.r) == pytest.approx(1 / np.sqrt(len(a) - 1), abs=1e-12)


def test_spread_is_that_of_white_1980():
    rng = np.random.default_rng(7)
    x = rng.normal(size=200)
    y = 0.3 * x + rng.normal(size=200) * np.abs(x)
    x, y = x - x.mean(), y - y.mean()
    slope = x @ y / (x @ x)
    rest = y - slope * x
    # The sandwich (HC0) over the plain variance of the slope.
    sandwich, plain = (x * x) @ (rest * rest) / (x @ x) ** 2, rest @ rest / 200 / (x @ x)
    assert sums(x[None], y[None], np.ones((1, 200))).spread[0] == pytest.approx(sandwich / plain, abs=1e-12)


def test_normal_scores_are_those_of_scipy():
    values = np.random.default_rng(2).integers(0, 9, 50).astype(float)
    expected = stats.norm.ppf(stats.rankdata(values) / 51)
    assert scores(values[None])[0] == pytest.approx(expected, abs=1e-12)


def test_autocorrelations_of_the_sunspots_are_those_of_statsmodels():
    # The yearly numbers 1700 to 2008 as statsmodels carries them: Yule's series, whose second year is known to tell most.
    numbers = datasets.sunspots.load_pandas().data["SUNACTIVITY"].to_numpy(float)
    rest = (numbers - numbers.mean())[None]
    ours = autocorrelations(rest, np.ones_like(rest), 14)[0]
    # Both sums divided by their own number of years.
    theirs = stattools.acf(numbers, adjusted=True, nlags=14, fft=False)[1:]
    assert len(numbers) == 309 and ours == pytest.approx(theirs, abs=1e-12)


def test_the_likeness_of_the_sunspots_is_that_of_yule_and_walker():
    numbers = datasets.sunspots.load_pandas().data["SUNACTIVITY"].to_numpy(float)
    rest = (numbers - numbers.mean())[None]
    # Yule, Phil. Trans. R. Soc. A 226 (1927): two years, the second against the first.
    one, two = stattools.acf(numbers, adjusted=True, nlags=2, fft=False)[1:]
    theirs = np.linalg.solve([[1, one], [one, 1]], [one, two])
    assert likeness(rest, np.ones_like(rest))[0] == pytest.approx(theirs, abs=1e-12)
    assert theirs[0] > 1.3 and theirs[1] < -0.6


def test_nights_in_one_of_two_courses_that_run_on():
    # Bartlett 1946: of two courses of likeness a and b, 1 + 2 ab / (1 - ab) in the long run.
    k = np.arange(1, 200)
    likeness = np.array([0.8**k, 0.5**k])
    found = measures.nights_in_one(likeness, np.full((2, 2), 1e9))
    assert found == pytest.approx(np.array([[4.5556, 2.3333], [2.3333, 1.6667]]), abs=1e-4)


def test_shrinkage_makes_the_one_seen_likeliest_among_those_told():
    # Zhong & Prentice 2008: by looking through all values with scipy's own distribution.
    p, largest = 2 * stats.norm.sf(3.9), 2 * stats.norm.sf(3.6)
    true = np.linspace(0, 5, 50_001)
    told = stats.norm.sf(3.6 - true) + stats.norm.cdf(-3.6 - true)
    likeliest = true[np.argmax(stats.norm.logpdf(3.9 - true) - np.log(told))]
    assert shrinkage(p, largest) * 3.9 == pytest.approx(likeliest, abs=2e-4)
    assert shrinkage(1e-40, largest) > 0.999

"""Choosing lines, against brute force and against scikit-learn's cosine.

G. L. Nemhauser, L. A. Wolsey & M. L. Fisher, Mathematical Programming 14
(1978): greedy reaches at least 1 - 1/e of the best choice.
"""

from itertools import combinations
from math import e

import numpy as np
import pytest
from covering import worth

from keeper.study.choosing import greedy, likeness

BOUND = 1 - 1 / e


def best(alike: np.ndarray, count: int) -> float:
    """The worth of the best choice of all."""
    return max(worth(alike, chosen) for chosen in combinations(range(len(alike)), count))


def word_bags(chance: np.random.Generator, lines: int) -> list[list[str]]:
    """Lines of words with frequencies as in any language."""
    often = 1 / np.arange(1, 41)
    return [[f"w{n}" for n in chance.choice(40, chance.integers(1, 9), p=often / often.sum())] for _ in range(lines)]


@pytest.mark.parametrize("seed", range(25))
@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_never_below_the_bound(seed, count):
    chance = np.random.default_rng(seed)
    for alike in (likeness(word_bags(chance, 11)).astype(float), _any_likeness(chance, 11)):
        assert worth(alike, greedy(alike, count)) >= BOUND * best(alike, count)


def _any_likeness(chance: np.random.Generator, lines: int) -> np.ndarray:
    made = chance.random((lines, lines)) ** 4
    return np.maximum(made, made.T)


def test_a_case_where_greedy_falls_short_and_still_keeps_the_bound():
    # Line 4 lies near to all; 0 and 1 together cover the rest better.
    alike = np.array([
        [1.0, 0.0, 1.0, 0.0, 0.6, 0.0],
        [0.0, 1.0, 0.0, 1.0, 0.6, 0.0],
        [1.0, 0.0, 1.0, 0.0, 0.6, 0.0],
        [0.0, 1.0, 0.0, 1.0, 0.6, 0.0],
        [0.6, 0.6, 0.6, 0.6, 1.0, 0.0],
        [0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
    ])  # fmt: skip
    reached, possible = worth(alike, greedy(alike, 2)), best(alike, 2)
    assert (reached, possible) == (pytest.approx(4.2), pytest.approx(4.6))
    assert reached >= BOUND * possible


def test_worth_has_diminishing_returns():
    alike = likeness(word_bags(np.random.default_rng(3), 12)).astype(float)
    for small, large in (([0], [0, 1, 2]), ([], [4, 5]), ([7, 8], [7, 8, 9, 10])):
        for line in range(12):
            gain_early = worth(alike, [*small, line]) - worth(alike, small)
            gain_late = worth(alike, [*large, line]) - worth(alike, large)
            assert gain_late <= gain_early + 1e-9


def test_the_likeness_is_the_cosine_of_tf_idf():
    from sklearn.feature_extraction.text import CountVectorizer

    bags = word_bags(np.random.default_rng(5), 30)
    counts = CountVectorizer(analyzer=list).fit_transform(bags).toarray().astype(float)
    weights = np.where(counts > 0, 1 + np.log(np.maximum(counts, 1)), 0) * np.log(1 + len(bags) / (counts > 0).sum(0))
    unit = weights / np.linalg.norm(weights, axis=1, keepdims=True)
    assert np.allclose(likeness(bags), unit @ unit.T, atol=1e-5)

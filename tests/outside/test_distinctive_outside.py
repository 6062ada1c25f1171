"""What sets a month apart, against published formulas and a reference library.

Monroe, Colaresi & Quinn, Political Analysis 16 (2008), equations 16 to 22:
log-odds with an informative Dirichlet prior, its variance and z.
Dunning, Computational Linguistics 19 (1993): the log-likelihood ratio.
"""

import math

import numpy as np
import pytest
from waiting.when_used import WhenUsed

from keeper.study.distinctive import g2, log_odds

stats = WhenUsed("scipy.stats")

# Three words said here and there; the prior is their sum, worth 12.
TABLE = {"harbour": (12, 5), "piano": (30, 40), "bread": (8, 55)}
PRIOR = 12.0


@pytest.mark.parametrize("word", TABLE)
def test_log_odds_by_the_equations_written_out(word):
    here, there = (np.array(column, float) for column in zip(*TABLE.values(), strict=True))
    alpha = PRIOR * (here + there) / (here + there).sum()
    n_here, n_there, a0 = here.sum(), there.sum(), alpha.sum()
    # Equation 16 (the difference of two equations 15), 20 and 22, word by word.
    delta = np.log((here + alpha) / (n_here + a0 - here - alpha)) - np.log((there + alpha) / (n_there + a0 - there - alpha))
    variance = 1 / (here + alpha) + 1 / (there + alpha)
    z = delta / np.sqrt(variance)
    at = list(TABLE).index(word)
    ours = log_odds(*(int(TABLE[word][0]), int(n_here), int(TABLE[word][1]), int(n_there)), alpha[at], a0)
    assert ours.delta == pytest.approx(delta[at], abs=1e-12)
    assert ours.variance == pytest.approx(variance[at], abs=1e-12)
    assert ours.z == pytest.approx(z[at], abs=1e-12)


def test_a_small_table_worked_by_hand():
    # harbour: 12 of 50 here, 5 of 100 there; prior 12 * 17 / 150 = 1.36 of 12.
    # (13.36 / 48.64) / (6.36 / 105.64) = 0.274671 / 0.060204 = 4.562302; ln = 1.517828
    # 1 / 13.36 + 1 / 6.36 = 0.074850 + 0.157233 = 0.232083; z = 1.517828 / 0.481750 = 3.1507
    ours = log_odds(12, 50, 5, 100, 1.36, 12.0)
    assert ours.delta == pytest.approx(1.5178, abs=1e-3)
    assert ours.variance == pytest.approx(0.232083, abs=1e-6)
    assert ours.z == pytest.approx(3.1507, abs=2e-3)


def test_log_odds_turn_their_sign_with_the_parts():
    one, other = log_odds(12, 50, 5, 100, 1.36, 12.0), log_odds(5, 100, 12, 50, 1.36, 12.0)
    assert one.delta == pytest.approx(-other.delta, abs=1e-12)
    assert one.z == pytest.approx(-other.z, abs=1e-12)


@pytest.mark.parametrize("cells", [(12, 50, 5, 100), (110, 2442, 111, 29114), (1, 900, 40, 39_000), (0, 30, 7, 200), (4, 4, 0, 9)])
def test_g2_against_scipy(cells):
    here, all_here, there, all_there = cells
    seen = np.array([[here, all_here - here], [there, all_there - there]], float)
    expected = seen.sum(1, keepdims=True) * seen.sum(0, keepdims=True) / seen.sum()
    theirs = stats.power_divergence(seen, expected, axis=None, lambda_="log-likelihood").statistic
    assert g2(*cells) == pytest.approx(theirs, rel=1e-12, abs=1e-9)
    if (seen > 0).all():
        by_table = stats.chi2_contingency(seen, correction=False, lambda_="log-likelihood").statistic
        assert g2(*cells) == pytest.approx(by_table, rel=1e-12)


def test_dunnings_swiss_example():
    # Dunning 1993, table 2: bigram "the swiss": 110 with, 2,442 and 111 alone, 29,114 neither; -2 log lambda 270.72.
    assert g2(110, 110 + 111, 2442, 2442 + 29114) == pytest.approx(270.72, abs=0.01)
    assert math.isfinite(g2(0, 10, 0, 10))

"""All questions asked once, and answered.

The steps, each where it is named: normal scores of the ranks less drift (91 nights) and weekday (`within`); the second
column's likeness to its nights before taken out of both, as in a regression whose errors run on (Cochrane & Orcutt, J.
Am. Stat. Assoc. 44, 1949; that a series freed of its own course may be held against another is Haugh's, J. Am. Stat.
Assoc. 71, 1976); the tail of Pearson's type III with the skewness of all shufflings, its spread never under White's (1980)
where a mark takes part (`chance`); Benjamini & Hochberg (1995) among all questions, and Zhong & Prentice (2008) against
the luck of what was picked (`discovery`); Spearman's correlation, medians and risks with intervals widened after Bartlett
(1946) and Pyper & Peterman (1998) (`measures`).

Measured over simulated years (tests/bench/patterns): about one to three years in a hundred with a false alarm.

Where it fails. A link that works only over months, or only through the weekday, is taken out with the drift. A second
column that is driven for weeks by a first that hardly changes is found less often than by plain correlation. Links that
are not of one direction (both little and much sleep going with a bad day) are not seen. Two columns that depend on a
third on the same night (travel, illness) stand out with each other: a pattern is no cause. An autocorrelation that
two nights do not describe (a rhythm of ten days in both) is taken out in part only, and clusters in which a mark and the
spread of a reading grow at the same time can still fool it. With several strong links, each also shows at the lags beside it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from keeper.study.patterns import chance, measures, rhythms
from keeper.study.patterns.discovery import false_discovery, picked_above, shrinkage
from keeper.study.patterns.pattern import BAR, NIGHTS_NEEDED, NIGHTS_OF_EACH, Measure, Pattern
from keeper.study.patterns.table import Table, table
from keeper.study.patterns.within import Parts, autocorrelations, parts


@dataclass(frozen=True)
class Answered:
    """A question and what is summed for it: rows of first and second, and the correlation within the seasons."""

    i: int
    j: int
    lag: int
    nights: int
    strength: float
    within: float
    p: float
    worth: float
    slow: float
    weekday: float


def found(
    columns: Mapping[str, Sequence[float | None]], marks: Collection[str], lags: Sequence[int]
) -> tuple[Pattern, ...]:
    """What `find_patterns` gives. ValueError as it says."""
    if any(lag < 0 for lag in lags):
        raise ValueError("a lag is a number of nights, 0 or more")
    of = table(columns, marks)
    if not of.values.size:
        return ()
    apart = parts(of.turned, of.noted)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        asked = [one for lag in sorted(set(lags)) if lag < of.values.shape[1] for one in _at_lag(of, apart, lag)]
        return _told(of, apart, asked) if asked else ()


def _at_lag(of: Table, apart: Parts, lag: int) -> list[Answered]:
    may_ask = _answerable(of, lag)
    if not may_ask.any():
        return []
    beyond = of.values.shape[1] - lag
    nights = of.noted[:, :beyond] @ of.noted[:, lag:].T
    p, within = chance.chances(apart, of.marks, lag)
    inflation = measures.nights_in_one(autocorrelations(apart.left, apart.noted, measures.LAGS), nights)
    slow, weekday = rhythms.common(apart, lag)
    codes = [np.unique(row, return_inverse=True)[1] for row in of.turned]
    noted, asked = of.noted > 0, []
    for i, j in np.argwhere(may_ask).tolist():
        both = noted[i, :beyond] & noted[j, lag:]
        strength = measures.of_codes(codes[i][:beyond][both], codes[j][lag:][both])
        if not math.isnan(strength):
            n = int(nights[i, j])
            asked.append(Answered(i, j, lag, n, strength, *(float(x[i, j]) for x in (within, p, n / inflation, slow, weekday))))
    return asked


def _answerable(of: Table, lag: int) -> np.ndarray:
    """Whether there are nights enough to ask each pair (first x second)."""
    beyond = of.values.shape[1] - lag
    ordinary = of.ordinary
    first, second = of.noted[:, :beyond], of.noted[:, lag:]
    both = first @ second.T
    usual = ordinary[:, :beyond] @ second.T, first @ ordinary[:, lag:].T
    enough = both >= NIGHTS_NEEDED
    for of_one, is_mark in zip(usual, (of.marks[:, None], of.marks[None]), strict=True):
        enough &= (both - of_one >= NIGHTS_OF_EACH) & (~is_mark | (of_one >= NIGHTS_OF_EACH))
    # At lag 0 neither comes second: each pair once.
    return np.triu(enough, 1) if lag == 0 else enough & ~np.eye(len(enough), dtype=bool)


def _told(of: Table, apart: Parts, asked: list[Answered]) -> tuple[Pattern, ...]:
    p = np.array([one.p for one in asked])
    q = false_discovery(p)
    plainly = false_discovery(np.array([_plain(one) for one in asked]))
    waves, largest = rhythms.rhythms(apart), picked_above(q)
    told = []
    for one, its_q, its_plain in zip(asked, q.tolist(), plainly.tolist(), strict=True):
        stands_out = its_q <= BAR
        rhythm = ""
        if its_plain <= BAR and not stands_out:
            both = (bool(wave[one.i] and wave[one.j]) for wave in (waves.yearly, waves.weekly))
            rhythm = rhythms.word(one.slow, one.weekday, *both)
        kept = shrinkage(one.p, largest) if stands_out else 1.0
        told.append((_pattern(of, one, its_q, stands_out, kept, rhythm, len(asked)), (one.i, one.j, one.lag)))
    told.sort(key=lambda pair: (not pair[0].stands_out, -abs(pair[0].strength) if pair[0].stands_out else pair[0].p, pair[1]))
    return tuple(pattern for pattern, _ in told)


def _plain(one: Answered) -> float:
    """p of the rank correlation as if nights were independent: what an unwary look would go by."""
    return math.erfc(abs(one.strength) * math.sqrt((one.nights - 1) / 2))


def _pattern(of: Table, one: Answered, q: float, stands_out: bool, kept: float, rhythm: str, asked: int) -> Pattern:
    sign = float(of.signs[one.i] * of.signs[one.j])
    inflation = one.nights / one.worth
    ends = measures.interval_of_ranks(one.strength, one.nights, inflation)
    low, high = sorted(sign * end for end in ends)
    strength = sign * one.strength
    measure = _measure(of, one, inflation) or measures.ranks_measure(strength, low, high)
    return Pattern(
        of.names[one.i], of.names[one.j], one.lag, one.nights, strength, low, high, sign * one.within, one.p, q,
        stands_out, measure, one.worth, kept, rhythm, asked,
    )  # fmt: skip


def _measure(of: Table, one: Answered, inflation: float) -> Measure | None:
    """The measure of a pair with a mark in it."""
    if not (of.marks[one.i] or of.marks[one.j]):
        return None
    first, second = of.values[one.i, : of.values.shape[1] - one.lag], of.values[one.j, one.lag :]
    both = ~np.isnan(first) & ~np.isnan(second)
    first, second = first[both], second[both]
    mark, other = (first, second) if of.marks[one.i] else (second, first)
    yes, no = other[mark > 0], other[mark == 0]
    if of.marks[one.i] and of.marks[one.j]:
        return measures.risk_ratio(int(yes.sum()), len(yes), int(no.sum()), len(no), inflation)
    return measures.difference_of_medians(yes, no, inflation)

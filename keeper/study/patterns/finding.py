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
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import fields

import numpy as np

from keeper.study.patterns import chance, measures, rhythms
from keeper.study.patterns.discovery import false_discovery, picked_above, shrinkage
from keeper.study.patterns.pattern import BAR, NIGHTS_NEEDED, NIGHTS_OF_EACH, Answer, Measure, Pair, Pattern
from keeper.study.patterns.table import Table, table
from keeper.study.patterns.within import Parts, autocorrelations, parts


def found(
    columns: Mapping[str, Sequence[float | None]], marks: Collection[str], lags: Sequence[int]
) -> tuple[Pattern, ...]:
    """What `find_patterns` gives. ValueError as it says."""
    return told(answers(columns, marks, lags))[0]


def answers(
    columns: Mapping[str, Sequence[float | None]],
    marks: Collection[str],
    lags: Sequence[int],
    only: Collection[str] | None = None,
    progress: Callable[[float], None] = lambda share: None,
) -> tuple[Answer, ...]:
    """Each question that `find_patterns` asks, answered by itself. ValueError as it says.

    only: of the pairs that have one of these columns in them (None: of all). An answer to the others is as it was while
    their columns are. progress is told how far this is, 0 to 1, and may raise.
    """
    if any(lag < 0 for lag in lags):
        raise ValueError("a lag is a number of nights, 0 or more")
    of = table(columns, marks)
    if not of.values.size:
        return ()
    wanted = np.array([only is None or name in only for name in of.names])
    apart, asked = parts(of.turned, of.noted), []
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        its = [lag for lag in sorted(set(lags)) if lag < of.values.shape[1]]
        waves = rhythms.rhythms(apart)
        for done, lag in enumerate(its):
            asked += _at_lag(of, apart, lag, wanted, waves, lambda share, done=done: progress((done + share) / len(its)))
        return tuple(asked)


def told(asked: Sequence[Answer], beside: Sequence[float] = ()) -> tuple[tuple[Pattern, ...], tuple[float, ...]]:
    """Set answers among each other; and the p of other questions, asked `beside`, which get their q."""
    if not asked and not beside:
        return (), ()
    p = np.array([*(one.p for one in asked), *beside])
    q = false_discovery(p)
    plainly = false_discovery(np.array([one.plain_p for one in asked])).tolist() if asked else []
    largest = picked_above(q)
    its = [_pattern(one, its_q, its_plain, largest, len(p)) for one, its_q, its_plain in zip(asked, q.tolist(), plainly, strict=False)]
    # Where all is equal they stay in the order in which they were asked.
    its.sort(key=lambda one: (not one.stands_out, -abs(one.strength) if one.stands_out else one.p))
    return tuple(its), tuple(q[len(asked) :].tolist())


def _pattern(one: Answer, q: float, plain_q: float, largest: float, asked: int) -> Pattern:
    stands_out = q <= BAR
    rhythm = one.moved_by if plain_q <= BAR and not stands_out else ""
    shrink = shrinkage(one.p, largest) if stands_out else 1.0
    return Pattern(*(getattr(one, field.name) for field in fields(Pair)), q, stands_out, shrink, rhythm, asked)


def _at_lag(
    of: Table, apart: Parts, lag: int, wanted: np.ndarray, waves: rhythms.Rhythms, progress: Callable[[float], None]
) -> list[Answer]:
    may_ask = _answerable(of, lag) & (wanted[:, None] | wanted[None])
    if not may_ask.any():
        return []
    beyond = of.values.shape[1] - lag
    nights = of.noted[:, :beyond] @ of.noted[:, lag:].T
    p, within = chance.chances(apart, of.marks, lag, wanted, progress)
    inflation = measures.nights_in_one(autocorrelations(apart.left, apart.noted, measures.LAGS), nights)
    slow, weekday = rhythms.common(apart, lag)
    codes = [np.unique(row, return_inverse=True)[1] for row in of.turned]
    noted, asked = of.noted > 0, []
    for i, j in np.argwhere(may_ask).tolist():
        both = noted[i, :beyond] & noted[j, lag:]
        strength = measures.of_codes(codes[i][:beyond][both], codes[j][lag:][both])
        if not math.isnan(strength):
            moved_by = rhythms.word(float(slow[i, j]), float(weekday[i, j]), *(bool(w[i] and w[j]) for w in (waves.yearly, waves.weekly)))
            numbers = (float(x[i, j]) for x in (within, p, inflation))
            asked.append(_answer(of, i, j, lag, int(nights[i, j]), strength, *numbers, moved_by))
    return asked


def _answer(
    of: Table, i: int, j: int, lag: int, nights: int, strength: float, within: float, p: float, inflation: float, moved_by: str
) -> Answer:
    sign = float(of.signs[i] * of.signs[j])
    low, high = sorted(sign * end for end in measures.interval_of_ranks(strength, nights, inflation))
    measure = _measure(of, i, j, lag, inflation) or measures.ranks_measure(sign * strength, low, high)
    return Answer(
        of.names[i], of.names[j], lag, nights, sign * strength, low, high, sign * within, p, measure, nights / inflation,
        _plain(strength, nights), moved_by,
    )  # fmt: skip


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


def _plain(strength: float, nights: int) -> float:
    """p of the rank correlation as if nights were independent: what an unwary look would go by."""
    return math.erfc(abs(strength) * math.sqrt((nights - 1) / 2))


def _measure(of: Table, i: int, j: int, lag: int, inflation: float) -> Measure | None:
    """The measure of a pair with a mark in it."""
    if not (of.marks[i] or of.marks[j]):
        return None
    first, second = of.values[i, : of.values.shape[1] - lag], of.values[j, lag:]
    both = ~np.isnan(first) & ~np.isnan(second)
    first, second = first[both], second[both]
    mark, other = (first, second) if of.marks[i] else (second, first)
    yes, no = other[mark > 0], other[mark == 0]
    if of.marks[i] and of.marks[j]:
        return measures.risk_ratio(int(yes.sum()), len(yes), int(no.sum()), len(no), inflation)
    return measures.difference_of_medians(yes, no, inflation)

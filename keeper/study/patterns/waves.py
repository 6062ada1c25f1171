"""Whether a column goes with the day of the week, or with the season: asked of it alone.

Both are taken out before columns are held against one another, so they are asked by themselves. The week: an F-test of
six terms on the course freed of drift and of its likeness to the two nights before. The season: of each whole year the
best yearly wave beside a straight slide, and whether the waves of several years point one way (Hotelling, Annals of
Mathematical Statistics 2, 1931). Years are what repeats a season: so it is asked only where there are three of them, and
neither a drift nor likeness from night to night is taken for one. It fails where a season is not like a wave, and with three
or four years it finds the strongest only.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from keeper.study.patterns.pattern import NIGHTS_NEEDED, NIGHTS_OF_EACH, SEASON, WEEKDAY
from keeper.study.patterns.rhythms import YEAR, explains, terms_of
from keeper.study.patterns.table import table
from keeper.study.patterns.within import Parts, parts

YEARS_NEEDED = 3
_QUARTERS, _NIGHTS_OF_A_QUARTER = 4, 10


@dataclass(frozen=True)
class Wave:
    """An answer: does the column `name` go with the weekday, or with the season (`kind`)? nights: noted; p: of chance."""

    name: str
    kind: str
    nights: int
    p: float


def waves(
    columns: Mapping[str, Sequence[float | None]], marks: Collection[str], kinds: Collection[str]
) -> tuple[Wave, ...]:
    """Ask of each column whether it goes with each of the kinds (WEEKDAY, SEASON); not where there are too few nights.

    ValueError as `find_patterns` says.
    """
    of = table(columns, marks)
    if not of.values.size or not kinds:
        return ()
    apart, found = parts(of.turned, of.noted), []
    enough = (of.noted.sum(1) >= NIGHTS_NEEDED) & ((of.noted - of.ordinary * of.noted).sum(1) >= NIGHTS_OF_EACH)
    for i in np.flatnonzero(enough).tolist():
        for kind, ask in ((WEEKDAY, _week), (SEASON, _season)):
            p = ask(apart, i) if kind in kinds else None
            if p is not None:
                found.append(Wave(of.names[i], kind, int(of.noted[i].sum()), p))
    return tuple(found)


def _week(apart: Parts, i: int) -> float:
    return explains(terms_of(apart.whole.shape[1])[1], apart.whole[i] - apart.slow[i], apart, i)


def _season(apart: Parts, i: int) -> float | None:
    """None under three years noted in all their quarters."""
    noted = np.flatnonzero(apart.noted[i])
    year = ((noted - noted[0]) / YEAR).astype(int)
    turns = [turn for number in range(year[-1] + 1)
             if (turn := _turn(noted[year == number], apart.whole[i][noted[year == number]])) is not None]  # fmt: skip
    return _one_way(np.array(turns)) if len(turns) >= YEARS_NEEDED else None


def _turn(nights: np.ndarray, values: np.ndarray) -> np.ndarray | None:
    """The cosine and the sine of a year's wave; None where a quarter of it has hardly a night."""
    quarter = (nights / YEAR * _QUARTERS).astype(int) % _QUARTERS
    if np.bincount(quarter, minlength=_QUARTERS).min() < _NIGHTS_OF_A_QUARTER:
        return None
    turn = 2 * np.pi * nights / YEAR
    terms = np.stack([np.ones_like(turn), nights - nights.mean(), np.cos(turn), np.sin(turn)], 1)
    return np.linalg.lstsq(terms, values, rcond=None)[0][2:]


def _one_way(turns: np.ndarray) -> float:
    from scipy.special import fdtrc

    many, spread = len(turns), np.cov(turns.T)
    mean = turns.mean(0)
    if np.linalg.det(spread) < 1e-15:
        return 1.0
    far = many * mean @ np.linalg.solve(spread, mean)
    return float(fdtrc(2, many - 2, far * (many - 2) / (2 * (many - 1))))

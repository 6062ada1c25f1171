"""What moves with the season, with months or with the day of the week only, told as such."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from keeper.study.patterns.chance import freed
from keeper.study.patterns.pattern import DRIFT, SEASON, WEEKDAY
from keeper.study.patterns.within import Parts

YEAR = 365.2425
NIGHTS_OF_A_YEAR = 330
"""A record shorter than this cannot tell a season from a drift."""

SURE_OF_RHYTHM = 0.01
MOST = 0.5
"""The share of what two columns have in common that must come from a rhythm, to be put down to it."""


@dataclass(frozen=True)
class Rhythms:
    """Of each column: whether it has a yearly wave, and whether it has a weekly one."""

    yearly: np.ndarray
    weekly: np.ndarray


def rhythms(parts: Parts) -> Rhythms:
    """Which columns have waves, by F-tests on the course freed of its likeness to the nights before."""
    wave, days = terms_of(parts.whole.shape[1])
    long_enough = parts.whole.shape[1] >= NIGHTS_OF_A_YEAR
    count = len(parts.whole)
    yearly = [long_enough and explains(wave, parts.whole[i], parts, i) < SURE_OF_RHYTHM for i in range(count)]
    weekly = [explains(days, parts.whole[i] - parts.slow[i], parts, i) < SURE_OF_RHYTHM for i in range(count)]
    return Rhythms(np.array(yearly, bool), np.array(weekly, bool))


def terms_of(nights: int) -> tuple[np.ndarray, np.ndarray]:
    """A yearly wave, and all days of the week but one (terms x nights)."""
    night = np.arange(nights)
    turn = 2 * np.pi * night / YEAR
    return np.stack([np.cos(turn), np.sin(turn)]), np.stack([night % 7 == day for day in range(6)]).astype(float)


def explains(terms: np.ndarray, column: np.ndarray, parts: Parts, i: int) -> float:
    """p of the terms' adding nothing to what the course, freed of its likeness, is made of."""
    from scipy.special import fdtrc

    rows = np.vstack([np.ones_like(column), terms, column])
    noted = np.broadcast_to(parts.noted[i], rows.shape)
    *known, of = freed(rows, noted, parts.likeness[i])
    more, free = len(terms), int(parts.noted[i].sum()) - len(terms) - 1
    if free < 20:
        return 1.0
    without, with_terms = _left_over(np.array(known[:1]), of), _left_over(np.array(known), of)
    gain = max(without - with_terms, 0) / more
    return float(fdtrc(more, free, gain / max(with_terms / free, 1e-300)))


def _left_over(known: np.ndarray, of: np.ndarray) -> float:
    """The sum of squares that the known ones leave."""
    factors = np.linalg.lstsq(known.T, of, rcond=None)[0]
    return float(((of - factors @ known) ** 2).sum())


def yearly_peak(column: Sequence[float | None]) -> int | None:
    """The night, counted from the first and under a year, around which a column's yearly wave is highest.

    By least squares. None where nothing differs. The one that asks knows the dates, and so the season.
    """
    values = np.array(column, float)
    nights = np.flatnonzero(~np.isnan(values))
    if len(nights) < 3 or np.ptp(values[nights]) == 0:
        return None
    turn = 2 * np.pi * nights / YEAR
    _, cosine, sine = np.linalg.lstsq(np.stack([np.ones_like(turn), np.cos(turn), np.sin(turn)], 1), values[nights], rcond=None)[0]
    return round(math.atan2(sine, cosine) / (2 * math.pi) * YEAR) % 365


def common(parts: Parts, lag: int) -> tuple[np.ndarray, np.ndarray]:
    """Which share of what each pair has in common at a lag is drift, and which is the day of the week."""
    whole, slow, weekday = (_covariances(one, parts.noted, lag) for one in (parts.whole, parts.slow, parts.weekday))
    whole = np.where(np.abs(whole) < 1e-12, np.inf, whole)
    return slow / whole, weekday / whole


def _covariances(rows: np.ndarray, noted: np.ndarray, lag: int) -> np.ndarray:
    nights = rows.shape[1]
    first, second, of_first, of_second = rows[:, : nights - lag], rows[:, lag:], noted[:, : nights - lag], noted[:, lag:]
    n = np.maximum(of_first @ of_second.T, 1)
    return first @ second.T / n - (first @ of_second.T / n) * (of_first @ second.T / n)


def word(slow: float, weekday: float, yearly: bool, weekly: bool) -> str:
    """What moves a pair together: its shares of drift and weekday, and whether both have a yearly, a weekly wave."""
    if slow >= MOST:
        return SEASON if yearly else DRIFT
    return WEEKDAY if weekday >= MOST and weekly else ""

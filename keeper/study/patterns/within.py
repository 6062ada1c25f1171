"""What is left of a column when season, drift and weekday are taken out, and how far nights resemble their neighbours."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

HALF_WINDOW = 45
"""Nights on either side over which the drift is averaged: a quarter of a year in all."""

MOST_ALIKE = 0.95
"""Above this a column is no longer told from one that wanders off for ever."""


@dataclass(frozen=True)
class Parts:
    """Normal scores of the ranks and what they are made of (all columns x nights, 0 where not noted).

    whole = slow + weekday + left, but for a constant. noted: 1 or 0. likeness: of what is left, its coefficients on the
    night before and the one before that (columns x 2).
    """

    whole: np.ndarray
    slow: np.ndarray
    weekday: np.ndarray
    left: np.ndarray
    noted: np.ndarray
    likeness: np.ndarray


def parts(turned: np.ndarray, noted: np.ndarray) -> Parts:
    """Take the columns apart.

    Scores: van der Waerden's normal scores (Indagationes Mathematicae 14, 1952), ties sharing their middle rank. Slow:
    the centred mean of 91 nights, as far as noted. Weekday: the mean of every seventh night of the rest.
    """
    whole = scores(turned) * noted
    slow = drift(whole, noted) * noted
    weekday = _of_weekdays(whole - slow, noted)
    left = _centred(whole - slow - weekday, noted)
    return Parts(whole, slow, weekday, left, noted, likeness(left, noted))


def scores(values: np.ndarray) -> np.ndarray:
    """Normal scores of each row's ranks; 0 where not noted."""
    from scipy.special import ndtri

    out = np.zeros_like(values)
    for row, of in zip(out, values, strict=True):
        known = ~np.isnan(of)
        _, which, counts = np.unique(of[known], return_inverse=True, return_counts=True)
        middle = np.cumsum(counts) - (counts - 1) / 2
        row[known] = ndtri(middle / (known.sum() + 1))[which]
    return out


def autocorrelations(left: np.ndarray, noted: np.ndarray, lags: int) -> np.ndarray:
    """Of each row at lags 1 to `lags`, over the nights noted of both (columns x lags)."""
    power = (left * left).sum(1) / np.maximum(noted.sum(1), 1)
    found = np.zeros((len(left), lags))
    for k in range(1, min(lags, left.shape[1] - 1) + 1):
        both = (noted[:, :-k] * noted[:, k:]).sum(1)
        found[:, k - 1] = (left[:, :-k] * left[:, k:]).sum(1) / np.maximum(both, 1) / np.maximum(power, 1e-12)
    return np.clip(found, -1, 1)


def drift(whole: np.ndarray, noted: np.ndarray) -> np.ndarray:
    """The centred mean of 91 nights of each row, as far as noted."""
    night = np.arange(whole.shape[1])
    first, beyond = np.maximum(night - HALF_WINDOW, 0), np.minimum(night + HALF_WINDOW + 1, len(night))
    sums, counts = (np.pad(np.cumsum(one, 1), ((0, 0), (1, 0))) for one in (whole, noted))
    return (sums[:, beyond] - sums[:, first]) / np.maximum(counts[:, beyond] - counts[:, first], 1)


def _of_weekdays(rest: np.ndarray, noted: np.ndarray) -> np.ndarray:
    out = np.zeros_like(rest)
    for day in range(7):
        mean = rest[:, day::7].sum(1) / np.maximum(noted[:, day::7].sum(1), 1)
        out[:, day::7] = mean[:, None]
    return out * noted


def _centred(rest: np.ndarray, noted: np.ndarray) -> np.ndarray:
    mean = rest.sum(1) / np.maximum(noted.sum(1), 1)
    return (rest - mean[:, None]) * noted


def likeness(left: np.ndarray, noted: np.ndarray) -> np.ndarray:
    """Each row's coefficients on the night before and the one before that, by Yule and Walker's equations (rows x 2)."""
    # By partial autocorrelations: kept within the bounds, they give a course that does not run away.
    one, two = autocorrelations(left, noted, 2).T
    one = np.clip(one, -MOST_ALIKE, MOST_ALIKE)
    second = np.clip((two - one**2) / (1 - one**2), -MOST_ALIKE, MOST_ALIKE)
    return np.stack([one * (1 - second), second], 1)

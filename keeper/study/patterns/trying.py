"""Finding out by trying: blocks of nights with and without one thing, drawn by lot.

Edgington & Onghena, Randomization Tests, 4th ed. (2007): since the lot was drawn, how often all the draws that could
have been give as large a difference is an exact p, whatever the readings' distribution and however much nights
resemble one another. It fails where what is done in one block lasts into the next, and it tells of the plan that was
drawn: nights not kept to are counted as drawn, so the difference told is that of trying, not of doing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

MOST_DRAWS = 20_000
"""Up to so many draws all are looked at; of more, so many are drawn by lot."""

FEWER_DRAWS = 1_000
"""As many as a simulation looks at, each time."""

SURE = 0.95
STRETCHES = 300


@dataclass(frozen=True)
class Plan:
    """Which blocks are with the thing; each is `length` nights, one after another."""

    withs: tuple[bool, ...]
    length: int

    @property
    def nights(self) -> tuple[bool, ...]:
        """For each night whether it is with."""
        return tuple(one for one in self.withs for _ in range(self.length))


@dataclass(frozen=True)
class Tried:
    """What came of it. difference: mean of the blocks' means with, minus that without, with its interval (infinite where
    there are too few draws for one). p: share of draws with as large a difference either way. draws: how many there were;
    exact: whether all were looked at. blocks: with and without, of which something was noted.
    """

    difference: float
    low: float
    high: float
    p: float
    draws: int
    exact: bool
    blocks: tuple[int, int]


def draw(blocks: int, length: int, seed: int) -> Plan:
    """Draw by lot which half of the blocks is with (of an odd number, the smaller half).

    ValueError under 2 blocks, or for blocks of other than 1 to 14 nights.
    """
    if blocks < 2 or not 1 <= length <= 14:
        raise ValueError("a try has at least two blocks of 1 to 14 nights")
    chosen = np.random.default_rng(seed).permutation(blocks)[: blocks // 2]
    return Plan(tuple(block in chosen for block in range(blocks)), length)


def outcome(plan: Plan, readings: Sequence[float | None], seed: int = 0) -> Tried | None:
    """What came of a plan; None while one of the two sides has nothing noted.

    readings: one a night from the plan's first, as far as it went. Interval: the differences that the same test would
    not reject, by its linear form in each draw.
    """
    means, withs = _means(plan, readings), np.array(plan.withs)
    noted = ~np.isnan(means)
    if not (noted & withs).any() or not (noted & ~withs).any():
        return None
    every = math.comb(len(withs), int(withs.sum()))
    draws = _usable(_draws(withs, seed, MOST_DRAWS), noted)
    seen, others = _difference(withs[None], means, noted)[0], _difference(draws, means, noted)
    low, high = _interval(draws, others, seen, withs, noted)
    blocks = int((noted & withs).sum()), int((noted & ~withs).sum())
    return Tried(float(seen), low, high, _share_as_large(others, seen), every, every <= MOST_DRAWS, blocks)


def _share_as_large(others: np.ndarray, seen: float) -> float:
    return float((np.abs(others) >= abs(seen) - 1e-9 * max(1.0, abs(seen))).mean())


def _usable(draws: np.ndarray, noted: np.ndarray) -> np.ndarray:
    """Those with something noted on either side."""
    return draws[draws[:, noted].any(1) & (~draws[:, noted]).any(1)]


def _means(plan: Plan, readings: Sequence[float | None]) -> np.ndarray:
    wanted = len(plan.withs) * plan.length
    nights = np.full(wanted, np.nan)
    nights[: min(len(readings), wanted)] = np.array(readings[:wanted], float)
    nights = nights.reshape(-1, plan.length)
    counts = (~np.isnan(nights)).sum(1)
    return np.where(counts > 0, np.nansum(nights, 1) / np.maximum(counts, 1), np.nan)


def _draws(withs: np.ndarray, seed: int, most: int) -> np.ndarray:
    """All draws there could have been, or so many by lot and the one there was, as rows of booleans."""
    blocks, chosen = len(withs), int(withs.sum())
    if math.comb(blocks, chosen) > most:
        order = np.random.default_rng(seed).random((most, blocks)).argsort(1)
        return np.vstack([withs, order < chosen])
    rows = np.zeros((math.comb(blocks, chosen), blocks), bool)
    for row, places in zip(rows, combinations(range(blocks), chosen), strict=True):
        row[list(places)] = True
    return rows


def _difference(draws: np.ndarray, values: np.ndarray, noted: np.ndarray) -> np.ndarray:
    withs, without = draws & noted, ~draws & noted
    values = np.where(noted, values, 0)
    return withs @ values / withs.sum(1) - without @ values / without.sum(1)


def _interval(
    draws: np.ndarray, others: np.ndarray, seen: float, withs: np.ndarray, noted: np.ndarray
) -> tuple[float, float]:
    # A draw's difference, once `d` is taken off the blocks with, reaches the one seen when d >= (seen - its own) / (1 -
    # overlap): in so many draws the one-sided test does not reject d.
    overlap = _difference(draws, withs.astype(float), noted)
    others, overlap = others[overlap < 1 - 1e-12], overlap[overlap < 1 - 1e-12]
    edges = np.sort((seen - others) / (1 - overlap))
    same = len(draws) - len(edges)
    # The smallest number of edges that, with the draw itself, is more than a fortieth of all.
    needed = math.floor((1 - SURE) / 2 * len(draws)) + 1 - same
    if needed < 1 or needed > len(edges):
        return -math.inf, math.inf
    return float(edges[needed - 1]), float(edges[-needed])


def least_p(blocks: int) -> float:
    """The smallest p that so many blocks could give at all: of an even number, a draw has its opposite."""
    return min(1.0, (2 if blocks % 2 == 0 else 1) / math.comb(blocks, blocks // 2))


def power(past: Sequence[float | None], blocks: int, length: int, effect: float, seed: int = 0) -> float | None:
    """How often a try of this plan would come out (p at most .05) if the thing changed the reading by `effect`.

    By simulation on the person's own past: stretches of it as long as the plan, each with a draw of its own and the
    effect added to its nights with. None where the past is shorter than the plan.
    """
    found = powers(past, blocks, length, (effect,), seed)
    return found[0] if found else None


def powers(
    past: Sequence[float | None], blocks: int, length: int, effects: Sequence[float], seed: int = 0,
    heard: Callable[[float], None] = lambda share: None,
) -> tuple[float, ...]:  # fmt: skip
    """The same for several effects, on the same stretches and draws; () where the past is too short.

    `heard` is told the share that is done, and may raise to break off.
    """
    if len(past) < blocks * length:
        return ()
    rng, nights, effects = np.random.default_rng(seed), np.array(past, float), np.array(effects, float)
    ps = []
    for number in range(STRETCHES):
        heard(number / STRETCHES)
        start, plan = int(rng.integers(len(past) - blocks * length + 1)), draw(blocks, length, int(rng.integers(2**31)))
        means, withs = _means(plan, nights[start : start + blocks * length]), np.array(plan.withs)
        noted = ~np.isnan(means)
        draws = _usable(_draws(withs, int(rng.integers(2**31)), FEWER_DRAWS), noted)
        if (noted & withs).any() and (noted & ~withs).any():
            ps.append([_p_if(draws, means + effect * withs, withs, noted) for effect in effects])
    return tuple(float(one) for one in (np.array(ps) <= 1 - SURE).mean(0)) if ps else ()


def _p_if(draws: np.ndarray, means: np.ndarray, withs: np.ndarray, noted: np.ndarray) -> float:
    return _share_as_large(_difference(draws, means, noted), _difference(withs[None], means, noted)[0])

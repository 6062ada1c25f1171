"""After a mark: how often another follows within some nights, against otherwise; and phases and cycles to ask it in."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise

from keeper.study.patterns.pattern import Measure


@dataclass(frozen=True)
class Following:
    """How often a second mark came within so many nights after the first, and otherwise.

    measure: the risk ratio with its interval, and both sides. p: Fisher's exact test, either way. more: the same, one
    way: how likely chance gives as many after the first mark, or more.
    """

    measure: Measure
    p: float
    more: float


def follows(
    first: Sequence[float | None], second: Sequence[float | None], within: int, only: Collection[int] | None = None
) -> Following | None:
    """Of nights with the first mark and of nights without: on how many the second came in the `within` nights after.

    only: the nights (by number) that take part, such as those of a phase. Windows never overlap, so that no night
    counts twice: nights with the first mark are taken as they come, then nights without, wherever there is room. A
    window with a gap and without a yes is left out. None if a side has no night. ValueError for within below 1.

    Fisher, The Design of Experiments (1935). It takes windows to be independent of each other; where the second mark
    comes in clusters longer than `within`, p is too small.
    """
    if within < 1 or len(first) != len(second):
        raise ValueError("within is a night or more, and both marks have the same nights")
    came = {night: _came(second[night + 1 : night + 1 + within], within) for night in range(len(first))}
    able = [night for night in came if came[night] is not None and first[night] is not None and (only is None or night in only)]
    withs = _apart([night for night in able if first[night] > 0], within, [])
    without = _apart([night for night in able if not first[night] > 0], within, withs)
    if not withs or not without:
        return None
    from keeper.study.patterns.measures import risk_ratio

    hits, others = sum(came[night] for night in withs), sum(came[night] for night in without)
    p, more = fisher(hits, len(withs) - hits, others, len(without) - others)
    return Following(risk_ratio(hits, len(withs), others, len(without)), p, more)


def _came(window: Sequence[float | None], within: int) -> bool | None:
    """Whether the mark came in a window; None where it cannot be known."""
    if any(value is not None and value > 0 for value in window):
        return True
    return False if len(window) == within and None not in window else None


def _apart(nights: Sequence[int], within: int, taken: Sequence[int]) -> list[int]:
    chosen: list[int] = []
    used = set(taken)
    for night in nights:
        if not any(night + d in used for d in range(-within, within + 1)):
            chosen.append(night)
            used.add(night)
    return chosen


def fisher(a: int, b: int, c: int, d: int) -> tuple[float, float]:
    """Fisher's exact test of a table (a, b / c, d): p of as unlikely a table either way, and of an `a` as large or larger.

    In whole numbers; scipy.stats has it, but takes 0.8 s to come in.
    """
    hits, rows, others = a + c, a + b, c + d
    least, most = max(0, hits - others), min(rows, hits)
    ways = {least: math.comb(rows, least) * math.comb(others, hits - least)}
    for k in range(least, most):
        # One more of the first row, one less of the second: to ask for each anew takes seconds over fifty years.
        ways[k + 1] = ways[k] * (rows - k) * (hits - k) // ((k + 1) * (others - hits + k + 1))
    every = sum(ways.values())
    # As scipy does: what is as likely but for rounding counts as as likely. In whole numbers nothing is rounded.
    either = sum(way for way in ways.values() if way <= ways[a])
    return either / every, sum(way for k, way in ways.items() if k >= a) / every


def phase(mark: Sequence[float | None], first: int, last: int) -> frozenset[int]:
    """The nights from `first` to `last` nights after the latest night with a mark: 1 to 14, say. 0 is that night itself."""
    found, since = [], None
    for night, value in enumerate(mark):
        since = 0 if value is not None and value > 0 else None if since is None else since + 1
        if since is not None and first <= since <= last:
            found.append(night)
    return frozenset(found)


def cycles(mark: Sequence[float | None], apart: int = 10) -> tuple[range, ...]:
    """Cycles that begin with a marked night after at least `apart` nights without; the last one is open and left out."""
    begins, latest = [], None
    for night, value in enumerate(mark):
        if value is not None and value > 0:
            if latest is None or night - latest > apart:
                begins.append(night)
            latest = night
    return tuple(range(one, after) for one, after in pairwise(begins))


def sustained_rise(temperatures: Sequence[float | None]) -> int | None:
    """The first of three readings that all lie above the highest of the six before; None where there is none.

    'Three over six', as Marquette University's institute for natural family planning describes it (nfp.marquette.edu,
    monitor_bbt.php, read), which asks for 0.1 degrees more; the World Health Organization's texts, as others quote
    them, for 0.2; Marshall, The Lancet 292 (1968), for none (from memory). Readings not taken are passed over. It misses a
    slow rise and a cycle with few readings, and takes a fever or a late morning for a rise; in 5 of 74 cycles the curve
    itself misled (Hilgers & Bailey, Obstetrics & Gynecology 55, 1980, abstract read). It marks what was, and says nothing
    of fertile days.
    """
    noted = [(night, value) for night, value in enumerate(temperatures) if value is not None]
    for i in range(6, len(noted) - 2):
        if min(value for _, value in noted[i : i + 3]) > max(value for _, value in noted[i - 6 : i]):
            return noted[i][0]
    return None

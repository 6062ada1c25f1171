"""Growing or fading: said only when the interval leaves no room for 'no change'."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist


@dataclass(frozen=True)
class Trend:
    """How the share of kept nights with a theme changed from an earlier span to a later one.

    `word`: 'growing', 'fading', or '' when the two cannot be told apart. `before`, `after`: shares, 0..1.
    `difference`: after - before, with the interval from `low` to `high`.
    """

    word: str
    before: float
    after: float
    difference: float
    low: float
    high: float


def trend(
    before_nights: int,
    before_kept: int,
    after_nights: int,
    after_kept: int,
    *,
    level: float = 0.95,
    among: int = 1,
) -> Trend:
    """Compare nights with the theme out of nights kept, in two spans that do not overlap.

    The interval is Newcombe's hybrid score interval for the difference of independent proportions (Statistics in
    Medicine 17, 1998, 873-890, method 10). `among`: how many themes are looked at together; the level is raised for
    that (Bonferroni), so that among twenty threads one does not seem to grow by chance. With no night kept in a span
    the word is ''. ValueError if there are more nights with the theme than nights kept, or numbers out of range.
    """
    for nights, kept in ((before_nights, before_kept), (after_nights, after_kept)):
        if not 0 <= nights <= kept:
            raise ValueError(f"{nights} nights of {kept} kept")
    if not 0 < level < 1 or among < 1:
        raise ValueError("level lies between 0 and 1, among is at least 1")
    if before_kept == 0 or after_kept == 0:
        return Trend("", _share(before_nights, before_kept), _share(after_nights, after_kept), 0.0, -1.0, 1.0)
    before, after = before_nights / before_kept, after_nights / after_kept
    low, high = newcombe(after_nights, after_kept, before_nights, before_kept, 1 - (1 - level) / among)
    word = "growing" if low > 0 else "fading" if high < 0 else ""
    return Trend(word, before, after, after - before, low, high)


def _share(nights: int, kept: int) -> float:
    return nights / kept if kept else 0.0


def wilson(hits: int, of: int, level: float = 0.95) -> tuple[float, float]:
    """Score interval of a proportion without continuity correction (Wilson, J. Am. Stat. Assoc. 22, 1927)."""
    z = NormalDist().inv_cdf(0.5 + level / 2)
    share = hits / of
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z / (1 + z * z / of) * math.sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    return max(0.0, middle - half), min(1.0, middle + half)


def newcombe(hits1: int, of1: int, hits2: int, of2: int, level: float = 0.95) -> tuple[float, float]:
    """Interval of hits1/of1 - hits2/of2 (Newcombe 1998, method 10)."""
    one, two = hits1 / of1, hits2 / of2
    low1, high1 = wilson(hits1, of1, level)
    low2, high2 = wilson(hits2, of2, level)
    below = math.hypot(one - low1, high2 - two)
    above = math.hypot(high1 - one, two - low2)
    return max(-1.0, one - two - below), min(1.0, one - two + above)

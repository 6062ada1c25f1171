"""How some nights were: the middle and the quartiles, or a share and how sure it is."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import quantiles

from keeper.study.trend import wilson


@dataclass(frozen=True, slots=True)
class Spread:
    """The median of some nights' values, its quartiles, and of how many nights.

    Of a mark, ``middle`` is the share of nights with it (0 to 1), ``low`` and
    ``high`` its interval. All are None where nothing was noted.
    """

    middle: float | None = None
    low: float | None = None
    high: float | None = None
    nights: int = 0


def spread(values: Sequence[float]) -> Spread:
    """Median and quartiles, linear between values (Hyndman & Fan, Am. Stat. 50, 1996, definition 7)."""
    if len(values) < 2:
        return Spread(*list(values) * 3, len(values)) if values else Spread()
    low, middle, high = quantiles(values, n=4, method="inclusive")
    return Spread(middle, low, high, len(values))


def share(hits: int, nights: int) -> Spread:
    """The share of nights with a mark, and its 95 % score interval (Wilson, J. Am. Stat. Assoc. 22, 1927)."""
    return Spread(hits / nights, *wilson(hits, nights), nights) if nights else Spread()

"""What a pattern is, and the numbers that were chosen by measuring."""

from __future__ import annotations

from dataclasses import dataclass

BAR = 0.05
"""The share of false ones among all patterns told that is put up with (Benjamini & Hochberg's q)."""

NIGHTS_NEEDED = 40
"""Pairs of nights under which nothing is asked."""

NIGHTS_OF_EACH = 20
"""Nights with and nights without a mark under which nothing is asked of it."""

RANKS, MEDIANS, RISKS, MEANS = "rank correlation", "difference of medians", "risk ratio", "difference of means"

YES, BELOW, ABOVE = "yes", "below", "above"

SEASON, DRIFT, WEEKDAY = "season", "drift", "weekday"


@dataclass(frozen=True)
class Side:
    """The nights with, or those without, a mark: how many, and the median or the share (0..1) of the other there."""

    nights: int
    value: float


@dataclass(frozen=True)
class Measure:
    """A pair in the words that fit it, with its 95 % interval.

    ``kind`` is RANKS (two readings: `value` is the rank correlation, -1..1), MEDIANS (a mark and a reading: median of
    the nights with, minus that of the nights without, in the reading's own units) or RISKS (two marks: share of the
    second after the first, over its share otherwise; 1 is no difference, infinite if it never came otherwise).
    """

    kind: str
    value: float
    low: float
    high: float
    with_mark: Side | None = None
    without: Side | None = None


@dataclass(frozen=True)
class Cut:
    """The side of a column that is told of: YES (a mark), BELOW (values up to `at`) or ABOVE (values from `at` on).

    beyond: the value next to `at` on the other side.
    """

    side: str
    at: float = 1.0
    beyond: float = 0.0


@dataclass(frozen=True)
class Pair:
    """Does `second` go with `first`, so many nights (`lag`) after it? What the two columns say of it by themselves.

    nights: pairs of nights behind it. worth: how many nights independent of each other these are as good as.
    strength: Spearman's rank correlation over these nights as they are (of two marks: phi), -1..1, with its 95 %
    interval `low` to `high`, wider where nights resemble their neighbours.
    within: the correlation with season, drift, weekday and the likeness to the night before taken out; `p` is its own.
    p: chance of so much in nights in which the two have nothing to do with each other, once season, drift, weekday and
    likeness to the night before are taken out.
    """

    first: str
    second: str
    lag: int
    nights: int
    strength: float
    low: float
    high: float
    within: float
    p: float
    measure: Measure
    worth: float


@dataclass(frozen=True)
class Answer(Pair):
    """A pair before it is set among the others.

    plain_p: of the rank correlation as if nights were independent, what an unwary look would go by. moved_by: the
    rhythm that would move the two together, if they do not go together otherwise, or ''.
    """

    plain_p: float
    moved_by: str


@dataclass(frozen=True)
class Pattern(Pair):
    """An answer to one question, among all questions asked (`asked` of them).

    q: its p among all of them. stands_out: q is at most BAR.
    shrink: 0..1, what is left of strength and of `within` after allowing for its having been picked for being strong (1 when it was
    not picked). rhythm: '' or what moves the two together, where they do not go together otherwise: SEASON (both have a
    yearly wave), DRIFT (both change over months) or WEEKDAY.
    """

    q: float
    stands_out: bool
    shrink: float
    rhythm: str
    asked: int

    @property
    def likely(self) -> float:
        """The strength that is likelier to be met again."""
        return self.strength * self.shrink

    @property
    def hidden(self) -> bool:
        """Whether it stands out within the seasons only, while drift hides it, or turns it round, over the whole."""
        return self.stands_out and not min(self.low * self.within, self.high * self.within) > 0

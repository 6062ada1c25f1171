"""Patterns: what goes with what, asked so that chance, season and habit are not taken for an answer.

`find_patterns` is for use from outside; its steps are in `finding`, and what they hold and miss is told there.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from keeper.study.patterns.pattern import Measure, Pattern, Side

__all__ = ["Measure", "Pattern", "Side", "find_patterns"]


def find_patterns(
    columns: Mapping[str, Sequence[float | None]],
    *,
    marks: Collection[str] = (),
    lags: Sequence[int] = (0, 1, 2),
    seed: int = 0,
) -> tuple[Pattern, ...]:
    """Ask of every ordered pair of columns, at every lag, whether the second goes with the first so many nights before.

    columns: for each name one value a night, all beginning with the same night, None (or NaN) where nothing was noted.
    marks: which of them are yes (above 0) or no. At lag 0 a pair is asked once. Not asked: pairs with under 40 nights
    noted of both, with under 20 nights on either side of a mark, or with a reading that is other than its commonest
    value on under 20. What stands out comes first, strongest first, then the others, least like chance first.

    The same readings give the same answer, whatever their order, their names and the nights left empty around them.
    No step draws by lot: ``seed`` is there for whoever asks, and any seed gives the same answer.

    ValueError: columns of unequal length, a value without end, a mark that is no column, a lag below 0.
    """
    # Whoever names this room only to speak of a Pattern shall not wait for numpy.
    from keeper.study.patterns.finding import found

    return found(columns, marks, lags)

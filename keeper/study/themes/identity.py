"""The same theme tomorrow: which new group is which old theme."""

from __future__ import annotations

from collections.abc import Sequence, Set

from keeper.study.themes.nouns import BaseTheme

SAME = 0.2  # least likeness (0..1) of an old and a new theme to be one and the same


def likeness(old: BaseTheme, members: Set[str], terms: Set[str], still_here: Set[str]) -> float:
    """0..1: three quarters what they share of the lines that both could have, one quarter what they share of terms."""
    lines = _jaccard(set(old.members) & still_here, members)
    return 0.75 * lines + 0.25 * _jaccard(set(old.terms), terms)


def _jaccard(one: Set[str], other: Set[str]) -> float:
    either = len(one | other)
    return len(one & other) / either if either else 0.0


def matched(
    before: Sequence[BaseTheme], groups: Sequence[tuple[Set[str], Set[str]]], next_number: int
) -> tuple[list[int], int]:
    """An id for each new group (lines, terms), and the next number never used.

    One-to-one, so that the sum of likenesses is greatest (Kuhn 1955), above a threshold; a group that is like no
    earlier theme gets a new number. Lines that are new since are left out of the comparison.
    """
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    known = {line for theme in before for line in theme.members}
    here = known & {line for lines, _ in groups for line in lines}
    alike = np.zeros((len(groups), len(before)))
    for i, (lines, terms) in enumerate(groups):
        for j, old in enumerate(before):
            alike[i, j] = likeness(old, lines & here, terms, here)
    ids: list[int | None] = [None] * len(groups)
    for i, j in zip(*linear_sum_assignment(-alike), strict=True):
        if alike[i, j] >= SAME:
            ids[i] = before[j].id
    number = max([next_number, *(theme.id + 1 for theme in before)])
    for i, found in enumerate(ids):
        if found is None:
            ids[i], number = number, number + 1
    return [i for i in ids if i is not None], number

"""The same theme tomorrow: which new group is which old theme."""

from __future__ import annotations

from collections.abc import Sequence, Set
from typing import TYPE_CHECKING

from keeper.study.language.words import Word
from keeper.study.themes.naming import theme_terms
from keeper.study.themes.nouns import BaseTheme

if TYPE_CHECKING:
    import numpy as np

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


def labels_before(ids: Sequence[str], previous: Sequence[BaseTheme]) -> np.ndarray:
    """(n,) which of the earlier themes that still have lines each line was in, counted from 0; -1 = in none."""
    import numpy as np

    theme_of = {line: i for i, theme in enumerate(previous) for line in theme.members}
    return np.unique([-1, *(theme_of.get(line, -1) for line in ids)], return_inverse=True)[1][1:] - 1


def identified(
    ids: Sequence[str], words: Sequence[Sequence[Word]], labels: np.ndarray, previous: Sequence[BaseTheme], number: int
) -> tuple[tuple[BaseTheme, ...], int]:
    """The groups of the lines `ids` as themes, each with the id of the earlier one that it is, and the next number.

    `words`: those of each line; `labels`: (n,), -1 = loose.
    """
    import numpy as np

    inside = {label: np.flatnonzero(labels == label).tolist() for label in sorted(set(labels.tolist()) - {-1})}
    terms = theme_terms(words, inside)
    groups = [({ids[i] for i in at}, {term.stem for term in terms[label]}) for label, at in inside.items()]
    theme_ids, number = matched(previous, groups, number)
    absent = _absent(previous, set(ids))
    base = [
        BaseTheme(theme, tuple(ids[i] for i in at) + absent.get(theme, ()), tuple(t.stem for t in terms[label]))
        for theme, (label, at) in zip(theme_ids, inside.items(), strict=True)
    ]
    return tuple(sorted(base, key=lambda theme: theme.id)), number


def _absent(previous: Sequence[BaseTheme], here: set[str]) -> dict[int, tuple[str, ...]]:
    """Members that are not there at present; if they come back, they come home."""
    return {theme.id: tuple(line for line in theme.members if line not in here) for theme in previous}


def home(base: Sequence[BaseTheme], ids: Sequence[str]) -> dict[str, int]:
    """Line -> theme, of those of the lines `ids` that have one."""
    here = set(ids)
    return {line: theme.id for theme in base for line in theme.members if line in here}

"""Who stays at a fresh start: all but those whose theme lies clearly further off than another.

Two themes that came together in one group are two still, while they are apart: whether they come together is half chance,
and a few lines more may part them again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from keeper.study.themes import clusters

if TYPE_CHECKING:
    import numpy as np

AT_HOME = 0.4  # a line is moved only to a theme that is nearer by so much (cosine)
TOGETHER = 0.5  # of a theme's lines came into one group, so that it is told where it went
STILL_APART = 0.3  # of how far apart the middles of themes have to lie


def stayed(rows: np.ndarray, labels: np.ndarray, before: np.ndarray, least: int) -> np.ndarray:
    """(n,) labels of a fresh start, where lines stay in the theme they were in unless clearly misplaced; -1 = loose.

    rows: (n, d) unit rows, smoothed; before: (n,) the earlier theme of each, from 0, -1 = in none. Which group is which
    earlier theme is told by the lines they share, one to one. Lines of a theme that is still there stay in it too where
    they would be loose. Groups of fewer than `least` lines are none.
    """
    import numpy as np

    if labels.max(initial=-1) < 0:
        return labels
    labels, is_now = _parted_again(rows, labels, before, _same(before, labels), least)
    now, old = np.where(before >= 0, is_now[before], -1), np.flatnonzero(before >= 0)
    old = old[now[old] >= 0]
    near = rows @ clusters.middles(rows, labels).T
    there = np.where(labels[old] >= 0, near[old, np.maximum(labels[old], 0)], near[old].max(axis=1))
    stays = old[near[old, now[old]] + AT_HOME >= there]
    labels[stays] = now[stays]
    sizes = np.bincount(labels[labels >= 0], minlength=is_now.max(initial=-1) + 1)
    return np.where((labels >= 0) & (sizes[labels] >= least), labels, -1)


def _parted_again(
    rows: np.ndarray, labels: np.ndarray, before: np.ndarray, is_now: np.ndarray, least: int
) -> tuple[np.ndarray, np.ndarray]:
    """Labels, and the group of each earlier theme, where a theme that came into another's group has one of its own again.

    Lines that are new go with the nearer of the two.
    """
    import numpy as np

    labels, is_now, apart = labels.copy(), is_now.copy(), STILL_APART * clusters.apart(len(rows))
    for theme in np.flatnonzero(is_now < 0):
        there = np.bincount(labels[(before == theme) & (labels >= 0)], minlength=1)
        group, its = int(there.argmax()), before == theme
        its &= labels == group
        if its.sum() < max(least, TOGETHER * (before == theme).sum()):
            continue
        own = int(max(labels.max(), is_now.max())) + 1
        tried = np.where(its, own, labels)
        middles = clusters.middles(rows, tried)
        if 1 - middles[own] @ middles[group] < apart:
            continue
        new = np.flatnonzero((before < 0) & (labels == group))
        tried[new[rows[new] @ (middles[own] - middles[group]) > 0]] = own
        labels, is_now[theme] = tried, own
    return labels, is_now


def _same(before: np.ndarray, labels: np.ndarray) -> np.ndarray:
    """For each earlier theme the group that shares most lines with it, one to one (Kuhn 1955), -1 for one that shares none."""
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    both = (before >= 0) & (labels >= 0)
    shared = np.zeros((before.max() + 1, max(0, labels.max()) + 1))
    np.add.at(shared, (before[both], labels[both]), 1)
    either = shared.sum(axis=1, keepdims=True) + shared.sum(axis=0) - shared
    share = shared / np.maximum(either, 1)
    found = np.full(len(shared), -1)
    old, new = linear_sum_assignment(-share)
    found[old] = np.where(share[old, new] > 0, new, -1)
    return found

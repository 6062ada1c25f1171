"""What the lines teach: where each lies, and which belong together. Deterministic for a seed.

(n,) labels say the group of each line, -1 = loose.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes import clusters, grain, guard
from keeper.study.themes.compounds import parted, seen_in
from keeper.study.themes.fitted import Speech
from keeper.study.themes.identity import labels_before
from keeper.study.themes.nouns import Earlier
from keeper.study.themes.points import Space, learn_space, line_points
from keeper.study.themes.smoothing import smooth
from keeper.study.themes.weighing.belonging import ALONE, belonging, counted, sure_alone, untold
from keeper.study.themes.weighing.found_again import LEAST, MIXED, found_again, usual
from keeper.study.themes.weighing.looks import LOOSELY
from keeper.study.themes.weighing.staying import stayed
from keeper.study.themes.weighing.subjects import of_subjects, said_of, saying, without_manner
from keeper.study.themes.weighing.width import how_sure, narrowed

if TYPE_CHECKING:
    import numpy as np

GROWN = 0.25  # a fresh start is due when there are so many more or fewer lines than at the last one
LEAST_MEMBERS = 3
NARROW_SHARE = 0.01  # of all lines; fewer share a turn of speech rather than a subject
FAR_SHARE = 0.1  # of lines dealt at random
SURER = 0.02  # by so much lines have to become surer of narrow themes, or they stay in the old ones
THEME_SURE_FROM = 1.5  # standard deviations; the lines as a whole have passed a stricter test by then


@dataclass(frozen=True, eq=False)
class Learned:
    """Lines turned into points; `some`: positions of the lines that have any; `fine`: smoothed for small themes."""

    space: Space
    counts: object
    far: np.ndarray
    points: np.ndarray
    shared: object
    smoothed: np.ndarray
    some: np.ndarray
    fine: bool = False

    def resmoothed(self, rows: np.ndarray, fine: bool) -> Learned:
        """The same with other smoothed rows of the lines `some`."""
        smoothed = self.smoothed.copy()
        smoothed[self.some] = rows
        return dataclasses.replace(self, smoothed=smoothed, fine=fine)


@dataclass(frozen=True, eq=False)
class Grouped:
    """Labels of all lines, and the lines as they were smoothed for them.

    `fresh`: how many lines there were at the last fresh start; `begun`: this is one. `mixed`: labels of groups whose lines
    have little in common, only told at a fresh start; `narrow`: they were parted further than is usual, each by its subject.
    """

    labels: np.ndarray
    learned: Learned
    fresh: int
    begun: bool
    mixed: frozenset[int] = frozenset()
    narrow: bool = False


def learn(docs: Sequence[Sequence[str]], speech: Speech, seed: int, count: int | None = None) -> Learned:
    """Points of lines given as stems; `count`: how many themes are wished, if that is known."""
    import numpy as np

    tables = speech.tables()
    if speech.compounds:
        docs = parted(docs, seen_in(docs))
    space, counts, far = learn_space(docs, tables, seed)
    points, shared = line_points(space, counts, far)
    some = np.flatnonzero(np.linalg.norm(points, axis=1) > 0)
    if len(some) == len(points):
        smoothed = smooth(points, shared, themes=count, seed=seed)
    else:
        smoothed = np.zeros_like(points)
        smoothed[some] = smooth(points[some], shared[some], themes=count, seed=seed)
    return Learned(space, counts, far, points, shared, smoothed, some)


def grouped(ids: Sequence[str], learned: Learned, earlier: Earlier, seed: int) -> Grouped:
    """The lines `ids` in groups: those of earlier, while there are about as many lines, else found afresh."""
    before = labels_before([ids[i] for i in learned.some], earlier.base)
    fresh = earlier.fitted.fresh if earlier.fitted else int((before >= 0).sum())
    if before.max(initial=-1) < 0 or not fresh / (1 + GROWN) <= len(learned.some) <= fresh * (1 + GROWN):
        found = _begun(learned, seed)
        if before.max(initial=-1) < 0:
            return found
        if found.narrow:
            # Narrow groups come out otherwise with any line more: they start afresh only where lines become surer by it.
            on = _gone_on(ids, learned, before, earlier, seed, len(learned.some))
            if _as_sure(learned, on.labels, _by_subjects(learned, found.labels)):
                return on
        labels = stayed(found.learned.smoothed[learned.some], found.labels[learned.some], before, LEAST_MEMBERS)
        return dataclasses.replace(found, labels=_of_all(learned, labels))
    return _gone_on(ids, learned, before, earlier, seed, fresh)


def _as_sure(learned: Learned, one: np.ndarray, other: np.ndarray) -> bool:
    """Whether lines are about as sure of the themes `one` as of `other`; of fewer than two nobody can be."""
    sure = [how_sure(learned, labels[learned.some]) if labels.max(initial=-1) > 0 else 0.0 for labels in (one, other)]
    return sure[0] > 0 and sure[0] >= sure[1] - SURER


def wished(docs: Sequence[Sequence[str]], learned: Learned, count: int, seed: int) -> np.ndarray:
    """Labels of just so many groups; no line with words is loose, and none is asked whether it is chance."""
    import numpy as np

    labels, some = np.full(len(docs), -1), learned.some
    labels[some] = clusters.group(learned.points[some], learned.smoothed[some], count=count, seed=seed)
    # Words that no other line has give no direction; such a line goes where most lines are.
    wordy = np.array([bool(doc) for doc in docs])
    labels[wordy & (labels < 0)] = np.bincount(labels[some]).argmax() if len(some) else 0
    return labels


def guarded(found: Grouped, company: guard.Company, seed: int) -> Grouped:
    """The same without the themes that do not beat chance, or have no subject; none at all when the lines as a whole do not.

    Themes that go on from earlier ones have passed already; what is near the border must not flicker.
    """
    import numpy as np

    labels, learned = found.labels, found.learned
    if not (company.beats_chance or (company.holds and not found.begun)) or labels.max(initial=-1) < 0:
        return dataclasses.replace(found, labels=np.full_like(labels, -1))
    if not found.begun:
        return found
    usual = guard.shuffled_nearness(learned.counts, learned.far, seed, learned.space.stems)
    above = guard.theme_company(learned.counts, learned.far, labels, usual, learned.space.stems)
    stands = (labels >= 0) & (above[np.maximum(labels, 0)] >= THEME_SURE_FROM)
    labels = np.where(stands, labels, -1)
    if not found.narrow:
        return dataclasses.replace(found, labels=without_manner(learned, labels))
    return dataclasses.replace(found, labels=_by_subjects(learned, labels))


def _by_subjects(learned: Learned, labels: np.ndarray) -> np.ndarray:
    """Narrow themes by their subjects, without the lines that would go on to another as soon as lines come."""
    import numpy as np

    labels = of_subjects(learned, labels, max(LEAST_MEMBERS, round(NARROW_SHARE * len(learned.some))))
    if labels.max(initial=-1) < 0:
        return labels
    place = counted(labels)
    on = clusters.continued(learned.smoothed[learned.some], place[learned.some])
    return np.where(_of_all(learned, on) == place, labels, -1)


def _begun(learned: Learned, seed: int) -> Grouped:
    """As fine as the lines are."""
    import numpy as np

    some = learned.some
    found, rows, fine = grain.grouped(
        learned.points[some], learned.smoothed[some], learned.shared[some], learned.counts[some], seed
    )
    if fine:
        learned = learned.resmoothed(rows, fine)
        return Grouped(_of_all(learned, _honest(learned, found, seed)), learned, len(some), True)
    narrow, looks = narrowed(learned, found, seed)
    labels, mixed = _of_all(learned, _honest(learned, narrow, seed)), frozenset()
    if looks is None:
        labels, mixed = _without_leftovers(learned, labels, seed)
        labels = _of_many(belonging(learned, labels))
    else:
        # Narrow groups go on calling for their lines where they are none themselves: so the others stay what they are.
        none = np.flatnonzero(looks.together(labels[some]) < LOOSELY)
        labels = sure_alone(learned, belonging(learned, labels, none), ALONE)
        labels = _of_many(np.where(np.isin(labels, untold(learned, labels)), -1, labels), round(NARROW_SHARE * len(some)))
    mixed &= set(labels.tolist())
    return Grouped(labels, learned, len(some), True, mixed, looks is not None)


def _without_leftovers(learned: Learned, labels: np.ndarray, seed: int) -> tuple[np.ndarray, frozenset[int]]:
    """The same without groups that are not found again, and which of those left hardly are.

    The lines of a group that is none go to another that is nearest to them both by their own words and by their likes'.
    """
    import numpy as np

    again = found_again(learned, labels, seed)
    share = again / max(1e-9, usual(again, labels))
    gone = share < LEAST
    mixed = frozenset(np.flatnonzero((share < MIXED)[~gone]).tolist())
    if gone.all():
        return labels, mixed
    left = np.where((labels >= 0) & ~gone[np.maximum(labels, 0)], labels, -1)
    left[left >= 0] = (np.cumsum(~gone) - 1)[left[left >= 0]]
    middles = clusters.middles(learned.smoothed, left)
    nearest = (learned.smoothed @ middles.T).argmax(axis=1)
    moved = (labels >= 0) & (left < 0) & (nearest == (learned.points @ middles.T).argmax(axis=1))
    left[moved] = nearest[moved]
    return _of_all(learned, _honest(learned, left[learned.some], seed)), mixed


def _of_many(labels: np.ndarray, least: int = 0) -> np.ndarray:
    """The same without themes of fewer than three lines, or of fewer than `least`."""
    import numpy as np

    sizes = np.bincount(labels[labels >= 0], minlength=1)
    return np.where((labels >= 0) & (sizes[np.maximum(labels, 0)] >= max(LEAST_MEMBERS, least)), labels, -1)


def _gone_on(
    ids: Sequence[str], learned: Learned, before: np.ndarray, earlier: Earlier, seed: int, fresh: int
) -> Grouped:
    import numpy as np

    some, fitted = learned.some, earlier.fitted
    if fitted is not None and fitted.fine:
        learned = learned.resmoothed(grain.smoothed(learned.points[some], learned.shared[some], seed), True)
    loose = np.array([fitted is not None and ids[i] in fitted.loose for i in some])
    labels = clusters.continued(learned.smoothed[some], before)
    labels = _honest_anew(labels, _honest(learned, labels, seed), before, loose)
    labels, narrow = _of_all(learned, labels), fitted is not None and bool(fitted.base.said)
    if narrow:
        # What is new says the subject as well, or is loose; who was there stays.
        there = _of_all(learned, before)
        labels = np.where((there >= 0) | saying(learned, labels, said_of(learned, there)), labels, -1)
    return Grouped(labels, learned, fresh, False, narrow=narrow)


def _of_all(learned: Learned, labels: np.ndarray) -> np.ndarray:
    import numpy as np

    of_all = np.full(len(learned.points), -1)
    of_all[learned.some] = labels
    return of_all


def _honest(learned: Learned, labels: np.ndarray, seed: int) -> np.ndarray:
    """Labels of the lines `some` with what fits nowhere made loose: far lines, and themes of fewer than three lines.

    A line is far when its own words bring it no nearer to the middle of its theme than the furthest quarter of lines
    with words dealt at random come to the middle nearest to them. The smoothed points would not tell: they have been
    drawn to where they are by other lines.
    """
    import numpy as np

    middles = clusters.middles(learned.smoothed[learned.some], labels)
    if not len(middles):
        return labels
    near = (learned.points @ middles.T)[learned.some, np.maximum(labels, 0)]
    honest = np.where(near < _far(learned, middles, seed), -1, labels)
    sizes = np.bincount(honest[honest >= 0], minlength=len(middles))
    return np.where((honest >= 0) & (sizes[honest] >= LEAST_MEMBERS), honest, -1)


def _far(learned: Learned, middles: np.ndarray, seed: int) -> float:
    """The closeness to its nearest middle that a quarter of lines with words dealt at random do not reach."""
    import numpy as np

    dealt = guard.dealt_lines(learned.counts, seed, learned.space.stems)
    points, _ = line_points(learned.space, dealt, learned.far)
    points = points[np.linalg.norm(points, axis=1) > 0]
    return float(np.quantile((points @ middles.T).max(axis=1), FAR_SHARE)) if len(points) else 0.0


def _honest_anew(labels: np.ndarray, honest: np.ndarray, before: np.ndarray, loose: np.ndarray) -> np.ndarray:
    """Loose lines among the new ones; who was in a theme or loose stays so, until a fresh start looks again."""
    import numpy as np

    honest = np.where(loose & (before < 0), -1, honest)
    sizes = np.bincount(labels, minlength=labels.max() + 1)
    return np.where((before >= 0) & (sizes[labels] >= LEAST_MEMBERS), labels, honest)

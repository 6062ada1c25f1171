"""How wide themes are: as wide as the lines are sure of them.

How far apart the middles of themes lie is known of plain lines (clusters). Where lines say much beside what they are about,
all middles lie nearer to one another, and joined at that distance they make themes so wide that lines hardly belong to
one rather than to another. Such themes are parted again, as far as the lines become surer by it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from keeper.study.themes import clusters
from keeper.study.themes.weighing.belonging import SURE, counted, surest
from keeper.study.themes.weighing.looks import Looks, looked

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.learning import Learned

GROWS = 1.2  # from one trial to the next there are so many times more groups
LINES_EACH = 12  # at least, of a narrow group in the mean: one of fewer can hardly be told from chance


def narrowed(learned: Learned, labels: np.ndarray, seed: int = 0) -> tuple[np.ndarray, Looks | None]:
    """(m,) labels of the lines `some`, given those as wide as is usual: the same where lines are sure of them, else narrower.

    With these comes what was looked at for it.
    """
    some = learned.some
    if labels.max(initial=-1) < 1:
        return labels, None
    best, found, looks = how_sure(learned, labels), labels, None
    if best >= SURE:
        return labels, None
    points, rows, groups = learned.points[some], learned.smoothed[some], int(labels.max()) + 1
    most = min(clusters.first_count(len(some)), len(some) // LINES_EACH)
    while (groups := math.ceil(GROWS * groups)) <= most:
        looks = looks or looked(learned, seed)
        tried = clusters.settled_where_many(points, rows, looks.joined(rows, groups), seed)
        sure = how_sure(learned, tried)
        if sure > best:
            best, found = sure, counted(tried)
        if best >= SURE:
            break
    return found, None if found is labels else looks


def how_sure(learned: Learned, labels: np.ndarray) -> float:
    """How sure the lines `some` are of what they belong to, 0..1, in the mean."""
    import numpy as np

    every = np.full(len(learned.points), -1)
    every[learned.some] = labels
    return float(surest(learned, counted(every))[1][learned.some].mean())

"""Lines that stand for many: a few that together lie near to all, and apart from one another.

Facility location. With s(i, j) the likeness of two lines, a choice S is worth

    F(S) = sum over all lines i of max over j in S of s(i, j),

so a line counts as covered as well as the chosen line most like it covers it.
What is covered already adds nothing, hence variety. F is monotone and
submodular, so choosing the best next line, again and again, reaches at least
1 - 1/e (63 %) of the best possible choice: G. L. Nemhauser, L. A. Wolsey &
M. L. Fisher, An analysis of approximations for maximizing submodular set
functions, Mathematical Programming 14 (1978) 265-294. For summaries of texts:
H. Lin & J. Bilmes, A class of submodular functions for document summarization,
ACL 2011. Gains only shrink, so most need not be reckoned anew: M. Minoux,
Accelerated greedy algorithms for maximizing submodular set functions, Lecture
Notes in Control and Information Sciences 7 (1978) 234-243.
"""

from __future__ import annotations

import heapq
from collections import Counter, defaultdict
from collections.abc import Sequence
from itertools import chain
from math import log, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

Bag = Sequence[str]
"""The content words of one line, as stems (``keeper.study.language.words``), repetitions too."""

_ALIKE = 1e-9
"""Gains closer than this are the same, so that rounding decides nothing."""


_OFTEN = 48
"""Lines with a word, from which on it is reckoned by itself."""


def choose(bags: Sequence[Bag], count: int) -> list[int]:
    """Which lines stand for all, at most ``count``, the most telling first.

    The same lines give the same choice; of equals the earlier one is taken.
    Some 30 ms for 1,100 lines.
    """
    if count <= 0 or not bags:
        return []
    return greedy(likeness(bags), count)


def likeness(bags: Sequence[Bag]) -> np.ndarray:
    """How alike each two lines are, 0 to 1: the cosine of their tf-idf vectors.

    Weights are (1 + ln tf) * ln(1 + n / df), as in Manning, Raghavan &
    Schuetze, Introduction to Information Retrieval (2008), section 6.4, with a
    document frequency that leaves a word of every line some weight. A line is
    wholly like itself, one without content words too.
    """
    import numpy as np

    lines = len(bags)
    alike, alone = np.zeros(lines * lines), defaultdict(list)
    for at, weights in _postings(bags).values():
        if len(at) > _OFTEN:
            alike.reshape(lines, lines)[np.ix_(at, at)] += np.outer(weights, weights)
        else:
            alone[len(at)].append((at, weights))
    # Most words are in a few lines only: those in as many lines are taken together.
    spots, products = [np.zeros(0, int)], [np.zeros(0)]
    for of_size in alone.values():
        at, weights = np.array([one for one, _ in of_size]), np.array([weights for _, weights in of_size])
        spots.append((at[:, :, None] * lines + at[:, None, :]).ravel())
        products.append((weights[:, :, None] * weights[:, None, :]).ravel())
    alike += np.bincount(np.concatenate(spots), np.concatenate(products), lines * lines)
    alike = np.minimum(alike, 1.0).reshape(lines, lines)
    np.fill_diagonal(alike, 1.0)
    return alike


def greedy(alike: np.ndarray, count: int) -> list[int]:
    """The lazy greedy choice for a matrix of likenesses (n by n, none negative)."""
    import numpy as np

    by_line = np.ascontiguousarray(alike.T)
    covered = np.zeros(len(alike))
    # The gains of the first round, largest first; then each is only an upper
    # bound, reckoned anew when it comes to the top.
    waiting = [(-_rounded(gain), line, 0) for line, gain in enumerate(by_line.sum(axis=1, dtype=float))]
    heapq.heapify(waiting)
    chosen: list[int] = []
    while waiting and len(chosen) < count:
        bound, line, reckoned = heapq.heappop(waiting)
        if reckoned == len(chosen):
            chosen.append(line)
            covered = np.maximum(covered, by_line[line])
            continue
        gain = float(np.maximum(by_line[line] - covered, 0.0).sum())
        heapq.heappush(waiting, (max(bound, -_rounded(gain)), line, len(chosen)))
    return chosen


def _postings(bags: Sequence[Bag]) -> dict[str, tuple[list[int], list[float]]]:
    """For each word of several lines those it is in, and its weight in each; lines have length one."""
    counts = [_counted(bag) for bag in bags]
    often = Counter(chain.from_iterable(counts))
    rare = {word: log(1 + len(bags) / lines) for word, lines in often.items()}
    found: dict[str, tuple[list[int], list[float]]] = {word: ([], []) for word, lines in often.items() if lines > 1}
    for line, bag in enumerate(counts):
        weights = {word: (1 + log(many)) * rare[word] if many > 1 else rare[word] for word, many in bag.items()}
        length = sqrt(sum(weight * weight for weight in weights.values()))
        for word, weight in weights.items():
            if word in found:
                lines, of_word = found[word]
                lines.append(line)
                of_word.append(weight / length)
    return found


def _counted(bag: Bag) -> dict[str, int]:
    # Hardly a line has a word twice, and a Counter is slow to make.
    once = dict.fromkeys(bag, 1)
    return once if len(once) == len(bag) else Counter(bag)


def _rounded(gain: float) -> float:
    return round(gain / _ALIKE) * _ALIKE

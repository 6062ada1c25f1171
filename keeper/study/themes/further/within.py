"""What lies within a wide theme, told only where it is clear.

A theme's lines are parted by their own points, without what all of them share. Whether the parts are more than chance is
asked of the words, as for the grain of themes: they must be likelier in parts than together, by more than the same
words are when they are dealt out anew among the theme's lines and parted in the same way.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes.naming import theme_names, theme_terms
from keeper.study.themes.weighing.usage import usages

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.fitted import Fitted
    from keeper.study.themes.shown import Rows

LEAST_LINES = 80  # a theme of fewer lines is read as it is
HELD = 0.6  # of what it takes; a theme that had parts keeps them while there is so much, or a line more could make them come and go
LOOKED_AT = 200  # lines by which the parts of a larger theme are found
MOST_PARTS = 6
LEAST_SHARE, LEAST_OF_PART = 0.08, 8  # of the lines looked at; what is smaller is no part
CLEAR = 0.75  # natural units a line, more than with words dealt anew
DEALT = 2  # so often the words are dealt
NEIGHBOURS, ROUNDS = 12, 3


@dataclass(frozen=True)
class Part:
    """Something within a theme: what it is called, and its lines."""

    theme: int
    name: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NumberedPart:
    """A part with the number under which it stays known."""

    number: int
    theme: int
    name: str
    lines: tuple[str, ...]


def parts_within(rows: Rows, home: Mapping[str, int], fitted: Fitted) -> tuple[Part, ...]:
    """The parts of those themes that clearly have any; a line need not be in one."""
    inside: dict[int, list[int]] = {}
    for at, line in enumerate(rows.ids):
        if line in home and rows.words[at]:
            inside.setdefault(home[line], []).append(at)
    found = []
    for theme, at in sorted(inside.items()):
        held = HELD if theme in fitted.parted else 1.0
        if len(at) >= held * LEAST_LINES:
            found += _parts(theme, at, rows, fitted, held)
    return tuple(found)


def numbered(parts: Sequence[Part], before: Mapping[int, tuple[int, frozenset[str]]], number: int) -> tuple[NumberedPart, ...]:
    """The parts under their numbers; `before`: number -> theme and lines of the earlier ones, `number`: the next one free.

    A part is the earlier one of its theme with which it shares most lines, more than half of what either has of the
    lines that both could have.
    """
    found, free = [], dict(before)
    here = frozenset(line for part in parts for line in part.lines)
    for part in sorted(parts, key=lambda one: (-len(one.lines), one.theme, one.name)):
        lines = frozenset(part.lines)
        alike = {known: _alike(lines, its & here) for known, (theme, its) in free.items() if theme == part.theme}
        same = max(alike, key=lambda known: (alike[known], -known), default=None)
        if same is None or alike[same] <= 0.5:
            same, number = number, number + 1
        free.pop(same, None)
        found.append(NumberedPart(same, part.theme, part.name, part.lines))
    return tuple(found)


def _alike(lines: frozenset[str], earlier: frozenset[str]) -> float:
    return 2 * len(lines & earlier) / max(1, len(lines) + len(earlier))


def _parts(theme: int, at: Sequence[int], rows: Rows, fitted: Fitted, held: float) -> list[Part]:
    import numpy as np

    step = 1 + (len(at) - 1) // LOOKED_AT
    seen = np.array(at[::step])
    docs = [[word.stem for word in rows.words[i]] for i in seen]
    labels = clear_parts(docs, rows.points[seen], fitted, held)
    if labels is None:
        return []
    every = _with_the_rest(np.array(at), seen, labels, rows)
    inside = {part: np.array(at)[every == part].tolist() for part in range(labels.max() + 1)}
    central = {part: its[int((rows.points[its] @ rows.points[its].mean(axis=0)).argmax())] for part, its in inside.items()}
    used = usages(rows.texts, rows.words, rows.languages, inside, central)
    # Told from one another, not from all other lines.
    of_theme = {part: np.flatnonzero(every == part).tolist() for part in inside}
    names = theme_names(theme_terms([rows.words[i] for i in at], of_theme), usages=used)
    return [Part(theme, names[part], tuple(rows.ids[i] for i in its)) for part, its in inside.items()]


def _with_the_rest(at: np.ndarray, seen: np.ndarray, labels: np.ndarray, rows: Rows) -> np.ndarray:
    """(m,) the part of every line of the theme: of those not looked at, the nearest."""
    import numpy as np

    points = _apart(rows.points[at])
    known = np.isin(at, seen)
    middles = np.stack([points[known][labels == part].mean(axis=0) for part in range(labels.max() + 1)])
    every = (points @ middles.T).argmax(axis=1)
    every[known] = labels
    return every


def clear_parts(docs: Sequence[Sequence[str]], points: np.ndarray, fitted: Fitted, held: float = 1.0) -> np.ndarray | None:
    """(n,) parts 0..k-1 of the lines of a theme, -1 = in none; None where parts are not clearly more than chance.

    docs: the stems of each line; points: (n, d) unit rows; held: share of being clear that is enough.
    """
    import numpy as np

    gain, labels = _parted(docs, points)
    wanted = held * CLEAR * len(docs)
    if labels is None or gain < wanted:
        return None
    rng = np.random.default_rng(0)
    for _ in range(DEALT):
        dealt = _dealt(docs, rng)
        chance, _ = _parted(dealt, fitted.points_of(dealt))
        if gain < max(chance, 0.0) + wanted:
            return None
    return labels


def _dealt(docs: Sequence[Sequence[str]], rng: np.random.Generator) -> list[list[str]]:
    words = iter(rng.permutation([word for doc in docs for word in doc]).tolist())
    return [[next(words) for _ in doc] for doc in docs]


def _parted(docs: Sequence[Sequence[str]], points: np.ndarray) -> tuple[float, np.ndarray | None]:
    """How much likelier the words are in parts than together, and the parts by which they are likeliest."""
    import numpy as np
    from scipy.cluster.hierarchy import fcluster, linkage

    from keeper.study.themes.counts import count_matrix
    from keeper.study.themes.grain import log_evidence

    counts = count_matrix(docs, tuple(sorted({stem for doc in docs for stem in doc})))
    tree = linkage(_drawn_together(_apart(points)), "average", metric="euclidean")
    together = log_evidence(counts, np.zeros(len(docs), int))
    gain, best = -np.inf, None
    for many in range(2, MOST_PARTS + 1):
        labels = fcluster(tree, many, "maxclust") - 1
        kept = _large(labels)
        if kept.max() > 0:
            likelier = log_evidence(counts, labels) - together
            if likelier > gain:
                gain, best = likelier, kept
    return float(gain), best


def _large(labels: np.ndarray) -> np.ndarray:
    """The same without parts of too few lines, which are -1, counted anew from 0."""
    import numpy as np

    sizes = np.bincount(labels)
    large = np.flatnonzero(sizes >= max(LEAST_OF_PART, LEAST_SHARE * len(labels)))
    new = np.full(len(sizes), -1)
    new[large] = np.arange(len(large))
    return new[labels]


def _apart(points: np.ndarray) -> np.ndarray:
    """Unit rows without what all of them share."""
    from keeper.study.themes.counts import unit

    return unit(points - points.mean(axis=0))


def _drawn_together(points: np.ndarray) -> np.ndarray:
    """Each point drawn towards its nearest, as all lines are before they are grouped."""
    import numpy as np

    from keeper.study.themes.counts import unit

    near = points @ points.T
    np.fill_diagonal(near, -2)
    size = min(NEIGHBOURS, max(2, len(points) // 8))
    index = np.argpartition(-near, size, axis=1)[:, :size]
    share = np.take_along_axis(near, index, axis=1).clip(0) ** 2
    share /= share.sum(axis=1, keepdims=True).clip(1e-9)
    drawn = points
    for _ in range(ROUNDS):
        drawn = unit(0.3 * drawn + 0.7 * unit(np.einsum("nk,nkd->nd", share, drawn[index])))
    return drawn

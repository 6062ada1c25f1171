"""How surely each line belongs to a theme, asked of the other lines of it; who then belongs, and which theme is none.

A line is asked three things, each with itself left out: whether its own words put it nearer to the middle of one theme
than to any other, whether its likes do, and how much likelier its words are there (naive Bayes, as in Manning, Raghavan &
Schuetze 2008, chapter 13). What these tell together was learned, as a logistic regression, from lines that people had put
into groups: of the lines that are given four in ten, about so many are where those people had put most of that group's.
So a group is a leftover where its lines more likely do not belong than do.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from keeper.study.themes.counts import presence, unit
from keeper.study.themes.points import line_points
from keeper.study.themes.weighing.seconds import reached

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.learning import Learned

OWN, DRAWN, WORDS, BEFORE = 1.3, 2.4, 0.5, -0.8
AMONG, USUAL = 0.6, 13
LEFTOVER = 0.52  # of the lines of what people called one thing, clearly more belong
SURE = 0.65  # of all lines, where these are plain and in the groups that people made of them, or more
HALF = 0.5  # of a leftover's lines less than half belong; the middles are taken of lines that rather do than not
LEAST = 0.4
ALONE = 0.46  # the same of narrow themes, of which there are many to be near to
NAMING = 0.3  # of a line that has a word which the theme is known by
ALIKE = 0.05  # of lines of one subject, what is left when the leading words are taken away is more alike than this
LEADING, FEW, TOLD_BY = 2, 12, 0.3
KNOWN_BY = 6
INWARD = 0.25  # of a theme's lines say it less than what is let in later must
EXPECTED = 1.0  # times that a word is thought to have been said in a theme beside those that it was


def belonging(learned: Learned, labels: np.ndarray, none: Collection[int] | None = None) -> np.ndarray:
    """(n,) the theme of each line, or -1; from labels 0..k-1, -1 of themes and leftovers, of which the themes keep theirs.

    A line has its place where it is sure of it while all groups call for it; then those left over are asked again, of
    whom more is wanted: with fewer to choose from, one is sooner the nearest.
    """
    import numpy as np

    names = np.array(sorted(set(labels.tolist()) - {-1}), dtype=int)
    if len(names) < 2:
        return labels
    some, labels = np.linalg.norm(learned.points, axis=1) > 0, counted(labels)
    narrow = none is not None
    (place, sure), by_words = surest(learned, labels), by_a_word(learned, labels)
    gone = _leftovers(place[some], sure[some], by_words, int(labels.max()) + 1, narrow)
    if narrow:
        gone = sorted({*gone, *np.flatnonzero(np.isin(names, list(none))).tolist()})
    joined = {} if narrow else _joined(learned, labels, gone, by_words)
    if joined:
        labels = np.array([*(joined.get(one, one) for one in range(len(names))), -1])[labels]
        names, labels = names[np.unique(labels[labels >= 0])], counted(labels)
        (place, sure), by_words = surest(learned, labels), by_a_word(learned, labels)
        gone = _leftovers(place[some], sure[some], by_words, int(labels.max()) + 1)
    least = np.where(_named(learned, labels, place), NAMING, LEAST)
    first = np.where(some & ~np.isin(place, gone) & ((sure >= least) | _of_two(learned, labels, place, gone)), place, -1)
    if len(np.unique(first[(sure >= HALF) & (first >= 0)])) < 2:
        return np.where(first >= 0, names[first], -1)
    # Lines held together by a word go on calling for theirs: they are no theme, but nothing of another either.
    calling = (first >= 0) | np.isin(place, by_words)
    central = np.where(some & calling & (sure >= HALF), place, -1)
    known = np.unique(central[central >= 0])
    again = _let_in(learned, counted(central), (first < 0) & some)
    let_in = (again >= 0) & ~np.isin(known[again], gone)
    return np.where(first >= 0, names[first], np.where(let_in, names[known[again]], -1))


def untold(learned: Learned, labels: np.ndarray) -> list[int]:
    """The themes of whose lines not even half have one of their dozen leading words: nothing that one could name."""
    import numpy as np

    there = presence(learned.counts)
    seen, found = np.asarray(there.sum(axis=0)).ravel(), []
    for theme in sorted(set(labels.tolist()) - {-1}):
        its = there[labels == theme]
        said = np.asarray(its.sum(axis=0)).ravel()
        known = np.argsort(-(said * (said / np.maximum(seen, 1)) ** 2), kind="stable")[: 2 * KNOWN_BY]
        if (np.asarray(its[:, known].sum(axis=1)).ravel() > 0).mean() < HALF:
            found.append(theme)
    return found


def sure_alone(learned: Learned, labels: np.ndarray, least: float) -> np.ndarray:
    """(n,) the same without the lines that are not sure of their theme when only those that are shown call for them."""
    import numpy as np

    names = np.array(sorted(set(labels.tolist()) - {-1}), dtype=int)
    if len(names) < 2:
        return labels
    place, sure = surest(learned, counted(labels))
    return np.where((labels == names[place]) & (sure >= least), labels, -1)


def _of_two(learned: Learned, labels: np.ndarray, place: np.ndarray, gone: list[int]) -> np.ndarray:
    """(n,) whether a line is as near to two themes as one that stands in them second: what is about both is nearer to none."""
    import numpy as np

    own = _near(learned, labels)[0]
    near = own >= [reached(own[labels == one, one]) for one in range(own.shape[1])]
    near[:, gone] = False
    return near[np.arange(len(place)), place] & (near.sum(axis=1) > 1)


def _let_in(learned: Learned, labels: np.ndarray, asked: np.ndarray) -> np.ndarray:
    """(n,) the theme of those of the lines `asked` whose likes and whose words both point to it, and the words as much as they
    do of nearly all of its own lines, and of those that are sure of it now; else -1.
    """
    import numpy as np

    words, drawn = likelier(learned.counts, labels), _near(learned, labels)[1].argmax(axis=1)
    least = np.array([np.quantile(words[labels == one, one], INWARD) for one in range(labels.max() + 1)])
    there = (words.argmax(axis=1) == drawn) & (words[np.arange(len(drawn)), drawn] >= least[drawn].clip(0))
    place, sure = surest(learned, labels)
    return np.where(asked & there, drawn, np.where(asked & (sure >= LEAST), place, -1))


def _joined(learned: Learned, labels: np.ndarray, gone: list[int], by_words: list[int]) -> dict[int, int]:
    """Leftover, but for those held together `by_words` -> the theme to which most of its lines would go, if their words would too."""
    import numpy as np

    kept = [one for one in range(labels.max() + 1) if one not in gone]
    if not gone or len(kept) < 2:
        return {}
    left = counted(np.where(np.isin(labels, gone), -1, labels))
    place, words, found = surest(learned, left)[0], likelier(learned.counts, left).argmax(axis=1), {}
    for one in set(gone) - set(by_words):
        at = labels == one
        most = int(np.bincount(place[at]).argmax())
        if (place[at] == most).mean() > HALF and np.bincount(words[at]).argmax() == most:
            found[one] = kept[most]
    return found


def _leftovers(place: np.ndarray, sure: np.ndarray, by_words: list[int], many: int, narrow: bool = False) -> list[int]:
    """Of so many groups, those of whose lines less than half belong, and those held together `by_words`; never all.

    place, sure: of each line as `surest` tells. `narrow`: what a word holds together stays where its lines are as sure of
    it as plain lines are of theirs.
    """
    import numpy as np

    its = [sure[place == one] for one in range(many)]
    least = np.full(len(its), LEFTOVER)
    least[by_words] = SURE if narrow else np.inf
    gone = [one for one, near in enumerate(its) if not len(near) or np.mean(near) < least[one]]
    return gone if len(gone) < len(its) else []


def by_a_word(learned: Learned, labels: np.ndarray) -> list[int]:
    """The themes that are held together by words alone: without these, the lines that have them are no more alike than any."""
    import numpy as np

    there = presence(learned.counts)
    seen, found = np.asarray(there.sum(axis=0)).ravel(), []
    for theme in range(int(labels.max(initial=-1)) + 1):
        at = np.flatnonzero(labels == theme)
        said = np.asarray(there[at].sum(axis=0)).ravel()
        leading = np.argsort(-(said * said / np.maximum(seen, 1)), kind="stable")[:LEADING]
        having = [at[there[at][:, [word]].toarray().ravel() > 0] for word in leading]
        if len(at) and sum(map(len, having)) >= TOLD_BY * len(at):
            alike = [_alike_without(learned, its, leading) for its in having if len(its) >= FEW]
            if alike and max(alike) < ALIKE:
                found.append(theme)
    return found


def _alike_without(learned: Learned, at: np.ndarray, words: np.ndarray) -> float:
    """Mean cosine of two of the lines `at` when the words are taken from them, nought for lines taken at random; 1 where too
    few say anything else.
    """
    import numpy as np

    kept = np.ones(learned.counts.shape[1], np.float32)
    kept[words] = 0
    counts = learned.counts[at].multiply(kept).tocsr()
    counts.eliminate_zeros()
    points, _ = line_points(learned.space, counts, learned.far)
    points = points[np.linalg.norm(points, axis=1) > 0]
    if len(points) < FEW:
        return 1.0
    total = points.sum(axis=0)
    return float((total @ total - len(points)) / (len(points) * (len(points) - 1)))


def surest(learned: Learned, labels: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(n,) the theme of 0..k-1 that each line most likely belongs to, and (n,) how likely that is, 0..1.

    labels: (n,), -1 = in none; every theme has a line.
    """
    import numpy as np

    own, drawn = _near(learned, labels)
    words = likelier(learned.counts, labels)
    place = (0.5 * own + 0.5 * drawn + 0.15 * words.clip(-2, 2)).argmax(axis=1)
    told = OWN * _margin(own, place) + DRAWN * _margin(drawn, place) + WORDS * _margin(words, place) + BEFORE
    told += AMONG * np.log((labels.max() + 1) / USUAL)  # the more there are, the less is one nearer than all others
    return place, 1 / (1 + np.exp(-told))


def _near(learned: Learned, labels: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(n, k) cosines of lines with middles by their own words, from which each is left out, and by their likes."""
    import numpy as np

    themes = labels.max() + 1
    sums = np.stack([learned.smoothed[labels == theme].sum(axis=0) for theme in range(themes)])
    own, drawn = learned.points @ unit(sums).T, learned.smoothed @ unit(sums).T
    inside = np.flatnonzero(labels >= 0)
    others = unit(sums[labels[inside]] - learned.smoothed[inside])
    own[inside, labels[inside]] = np.einsum("nd,nd->n", learned.points[inside], others)
    return own, drawn


def likelier(counts, labels: np.ndarray) -> np.ndarray:
    """(n, k) how much likelier the words of a line are in a theme than in all lines, by its other lines.

    Log ratio, over the square root of how many words there are; what one line alone has said tells nothing.
    """
    import numpy as np
    from scipy.sparse import csr_matrix

    there = presence(counts)
    inside = np.flatnonzero(labels >= 0)
    dealt = csr_matrix((np.ones(len(inside), np.float32), (labels[inside], inside)), (labels.max() + 1, len(labels)))
    said = np.asarray((dealt @ there).todense()).T
    seen = np.asarray(there.sum(axis=0)).ravel()
    usual = np.maximum(seen - 1, 0.5)[:, None] / max(1.0, seen.sum()) * said.sum(axis=0)
    more = np.where(seen[:, None] > 1, np.log((said + EXPECTED) / (usual + EXPECTED)), 0.0)
    without = np.where(seen[:, None] > 1, np.log(((said - 1).clip(0) + EXPECTED) / (usual + EXPECTED)), 0.0)
    told = there @ more
    rows = np.repeat(np.arange(len(labels)), np.diff(there.indptr))
    theirs = labels[rows] >= 0
    less = (more - without)[there.indices[theirs], labels[rows[theirs]]]
    np.subtract.at(told, (rows[theirs], labels[rows[theirs]]), less)
    return told / np.sqrt(np.maximum(1, np.diff(there.indptr)))[:, None]


def _named(learned: Learned, labels: np.ndarray, place: np.ndarray) -> np.ndarray:
    """(n,) whether the line has one of the words that the theme at its `place` is known by."""
    import numpy as np

    there = presence(learned.counts)
    seen, named = np.asarray(there.sum(axis=0)).ravel(), np.zeros(len(labels), bool)
    for theme in range(labels.max() + 1):
        said = np.asarray(there[labels == theme].sum(axis=0)).ravel()
        known = np.argsort(-(said * (said / np.maximum(seen, 1)) ** 2), kind="stable")[:KNOWN_BY]
        named |= (place == theme) & (np.asarray(there[:, known].sum(axis=1)).ravel() > 0)
    return named


def _margin(rows: np.ndarray, place: np.ndarray) -> np.ndarray:
    """(n,) by how much each row is greater at its place than anywhere else."""
    import numpy as np

    at = np.arange(len(rows))
    others = rows.copy()
    others[at, place] = -np.inf
    return rows[at, place] - others.max(axis=1)


def counted(labels: np.ndarray) -> np.ndarray:
    """The same themes counted from 0 without gaps."""
    import numpy as np

    return np.unique(np.append(labels, -1), return_inverse=True)[1][:-1] - 1

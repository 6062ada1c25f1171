"""A theme as it is shown: middle, name, words, members in order, and how sure it is."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.language.words import Word
from keeper.study.themes import clusters
from keeper.study.themes.decisions import Overlay
from keeper.study.themes.fitted import Middles, Speech
from keeper.study.themes.naming import Term, known_by, named_by, theme_names, theme_terms
from keeper.study.themes.nouns import FoundTheme
from keeper.study.themes.weighing.seconds import beside, inner
from keeper.study.themes.weighing.subjects import one_subject
from keeper.study.themes.weighing.usage import Usage, usages

if TYPE_CHECKING:
    import numpy as np

LOOSE_SHARE = 0.03  # a new line further from a theme's middle than all but so few of its lines is loose
MIXED_SURE = 0.35  # at most, of a theme whose lines have little in common
LOOSE_BELOW = 0.35  # and only when it is as far away as this


@dataclass(frozen=True, eq=False)
class Rows:
    """The lines `ids` as themes are drawn from them: the words of each, and its (n, d) unit rows before and after smoothing.

    `texts` and `languages`: what names are made of besides; without them they are made of words of any kind.
    """

    ids: Sequence[str]
    words: Sequence[Sequence[Word]]
    points: np.ndarray
    smoothed: np.ndarray
    texts: Sequence[str] = ()
    languages: tuple[str, ...] = ()


def floor(near: np.ndarray) -> float:
    """The least closeness of a line that belongs, from the (m,) closeness of a theme's lines, unsmoothed, to its middle."""
    import numpy as np

    return float(min(LOOSE_BELOW, np.quantile(near, LOOSE_SHARE)))


def middles_of(rows: Rows, home: Mapping[str, int]) -> Middles:
    """Middles of the themes in `home` (line -> theme)."""
    import numpy as np

    themes = tuple(sorted(set(home.values())))
    at = {theme: i for i, theme in enumerate(themes)}
    labels = np.array([at.get(home.get(line, -1), -1) for line in rows.ids], dtype=int)
    middles = clusters.middles(rows.smoothed, labels, len(themes))
    near, some = rows.points @ middles.T, labels >= 0
    floors = [floor(near[labels == i, i]) for i in range(len(themes))]
    within = [inner(near[labels == i, i], near[some & (labels != i), i], len(themes)) for i in range(len(themes))]
    return Middles(themes, middles, np.array(floors, np.float32), np.array(within, np.float32))


def dressed(
    rows: Rows, overlay: Overlay, middles: Middles, sure: float, mixed: Collection[int] = ()
) -> tuple[tuple[FoundTheme, ...], dict[str, int]]:
    """Themes with names, terms and members, largest first, and what comes nearest to loose lines; `sure`: 0..1, of the whole.

    `mixed`: ids of the themes whose lines have little in common; these are not sure, but where one name holds them together.
    """
    second, offered = beside(rows.ids, rows.points, rows.smoothed, overlay.home, middles, overlay.closed(), mixed)
    # Where the person has said where a line belongs it is there alone.
    second = {line: one for line, one in second.items() if line not in overlay.held}
    inside = _inside(rows.ids, overlay.home)
    terms = theme_terms(rows.words, inside)
    near = {theme: _members(rows, at, middles.rows[middles.ids.index(theme)]) for theme, at in inside.items()}
    usages = _usages(rows, inside, near, terms)
    second = _saying_so(rows, second, {theme: known_by(terms[theme], usages.get(theme)) for theme in inside})
    names = theme_names(terms, overlay.names, usages, mixed)
    apart = {theme for theme in mixed if not (theme in usages and named_by(usages[theme]))}
    found = []
    for theme, members in near.items():
        own = tuple((term.spelling, round(term.weight, 4)) for term in terms[theme])
        central = tuple(line for line, _ in members[:3])
        said = theme in overlay.pinned or theme in overlay.made
        found.append(
            FoundTheme(
                theme, names[theme], theme in overlay.names, theme in overlay.pinned, own, members, central,
                1.0 if said else _sure(members, min(sure, MIXED_SURE) if theme in apart else sure),
                _also(theme, second),
            )
        )  # fmt: skip
    return tuple(found), offered


def _saying_so(
    rows: Rows, second: Mapping[str, tuple[int, float]], told: Mapping[int, Collection[str]]
) -> dict[str, tuple[int, float]]:
    """Those lines that have a word which the theme they stand in second is known by: one sees why they are there."""
    said = {line: {word.stem for word in doc} for line, doc in zip(rows.ids, rows.words, strict=True) if line in second}
    return {line: one for line, one in second.items() if said[line].intersection(told.get(one[0], ()))}


def _also(theme: int, second: Mapping[str, tuple[int, float]]) -> tuple[tuple[str, float], ...]:
    return tuple(sorted(((line, near) for line, (at, near) in second.items() if at == theme), key=lambda one: (-one[1], one[0])))


def _usages(
    rows: Rows, inside: Mapping[int, Sequence[int]], near: Mapping[int, Sequence[tuple[str, float]]],
    terms: Mapping[int, Sequence[Term]],
) -> dict[int, Usage]:  # fmt: skip
    place, tables = {line: i for i, line in enumerate(rows.ids)}, Speech(rows.languages).tables()
    found = usages(rows.texts, rows.words, rows.languages, inside, {theme: place[its[0][0]] for theme, its in near.items()})
    for theme, used in found.items():
        subject, plainest = one_subject({term.stem: term.weight for term in terms[theme]}, tables)
        found[theme] = dataclasses.replace(used, subject=tuple(subject), plainest=plainest)
    return found


def _inside(ids: Sequence[str], home: Mapping[str, int]) -> dict[int, list[int]]:
    """Theme -> positions of its lines, largest first."""
    inside: dict[int, list[int]] = {}
    for i, line in enumerate(ids):
        if line in home:
            inside.setdefault(home[line], []).append(i)
    return dict(sorted(inside.items(), key=lambda item: (-len(item[1]), item[0])))


def _members(rows: Rows, at: Sequence[int], middle: np.ndarray) -> tuple[tuple[str, float], ...]:
    near = (0.5 * rows.points[at] @ middle + 0.5 * rows.smoothed[at] @ middle).clip(0, 1)
    ranked = sorted(zip(at, near.tolist(), strict=True), key=lambda pair: (-pair[1], pair[0]))
    return tuple((rows.ids[i], round(cosine, 4)) for i, cosine in ranked)


def _sure(near: Sequence[tuple[str, float]], sure: float) -> float:
    """A theme is as sure as the whole, less when its lines lie far apart or are few."""
    mean = sum(cosine for _, cosine in near) / len(near)
    return round(sure * min(1.0, 0.4 + mean * 0.8) * min(1.0, 0.5 + len(near) / 20), 4)

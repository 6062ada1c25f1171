"""Themes: what keeps coming back, told by the lines themselves.

`group_lines` is for use from outside; `rebuild` and `redraw` are what the program uses. The steps: words with weights and
directions (theme_vectors), groups and their number (theme_clusters, theme_grain), a guard against chance (theme_guard), lasting ids
(theme_identity), the person's decisions (theme_decisions), names (theme_names), and what is kept to place a new line
(theme_model). Deterministic for a seed.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.errors import Stopped
from keeper.study.language.words import Word, standing_names
from keeper.study.themes import background as theme_background
from keeper.study.themes import clusters as theme_clusters
from keeper.study.themes import compounds as theme_compounds
from keeper.study.themes import counts as theme_words
from keeper.study.themes import grain as theme_grain
from keeper.study.themes import guard as theme_guard
from keeper.study.themes import identity as theme_identity
from keeper.study.themes import naming as theme_names
from keeper.study.themes import points as theme_vectors
from keeper.study.themes import shown as theme_shown
from keeper.study.themes import smoothing as theme_smoothing
from keeper.study.themes.decisions import decided
from keeper.study.themes.fitted import KEPT_LINES, Fitted, Placement, Speech, nearest
from keeper.study.themes.nouns import (
    BaseTheme,
    Decision,
    FoundTheme,
    Merge,
    Move,
    Pin,
    Rename,
    Split,
    Start,
    TakeOut,
    ThemeLine,
)

if TYPE_CHECKING:
    import numpy as np

__all__ = [
    "ENOUGH", "BaseTheme", "Decision", "Fitted", "FoundTheme", "Merge", "Move", "Pin", "Placement", "Rename", "Split",
    "Start", "Stopped", "TakeOut", "ThemeLine", "Themes", "group_lines", "propose_split", "rebuild", "redraw",
]  # fmt: skip

ENOUGH = 30  # lines with content words; fewer are not grouped
GROWN = 0.25  # a fresh start is due when there are so many more or fewer lines than at the last one
LEAST_MEMBERS = 3
FAR_SHARE = 0.25  # of lines dealt at random; two thirds of the lines below that stand in a theme that is not theirs
THEME_SURE_FROM = 1.5  # standard deviations; the lines as a whole have passed a stricter test by then

Progress = Callable[[float, str], None]


@dataclass(frozen=True, eq=False)
class Themes:
    """The threads among lines, as `rebuild` or `redraw` found them.

    `enough`: False under 30 lines with content words; then there are no themes and all lines are loose. `sure`: 0..1 for
    the whole. `themes`: largest first. `base`, `next_number` and `fitted` are handed back to the next rebuild.
    """

    enough: bool
    sure: float
    themes: tuple[FoundTheme, ...]
    loose: tuple[str, ...]
    base: tuple[BaseTheme, ...]
    next_number: int
    fitted: Fitted | None


@dataclass(frozen=True, eq=False)
class _Learned:
    """Lines turned into points; `some`: positions of the lines that have any; `fine`: smoothed for small themes."""

    space: theme_vectors.Space
    counts: object
    far: np.ndarray
    points: np.ndarray
    shared: object
    smoothed: np.ndarray
    some: np.ndarray
    fine: bool = False

    def resmoothed(self, rows: np.ndarray, fine: bool) -> _Learned:
        """The same with other smoothed rows of the lines `some`."""
        smoothed = self.smoothed.copy()
        smoothed[self.some] = rows
        return dataclasses.replace(self, smoothed=smoothed, fine=fine)


def group_lines(texts: Sequence[str], *, count: int | None = None, language: str = "en", seed: int = 0) -> list[int]:
    """A label for each text: an int from 0 for its theme, -1 for a loose line.

    With `count`, that many themes are made (fewer when there are not so many different lines) and only lines without
    content words are loose. Without, the number follows from the lines; there are no themes under 30 lines or when the
    lines do not stand out from shuffled ones. ValueError if count is below 1.
    """
    import numpy as np

    if count is not None and count < 1:
        raise ValueError("a number of themes is at least 1")
    speech = Speech((language,))
    docs = [[word.stem for word in speech.words(text)] for text in texts]
    labels = np.full(len(docs), -1)
    if (count is None and sum(map(bool, docs)) < ENOUGH) or not any(docs):
        return labels.tolist()
    learned = _learn(docs, speech, seed, count)
    if count is None and not _company(learned, seed).beats_chance:
        return labels.tolist()
    some = learned.some
    if count is None:
        found, learned = _begun(learned, seed)
        labels[some] = _honest(learned, found, seed)
        return labels.tolist()
    found = theme_clusters.group(learned.points[some], learned.smoothed[some], count=count, seed=seed)
    labels[some] = found
    # Words that no other line has give no direction; such a line goes where most lines are.
    wordy = np.array([bool(doc) for doc in docs])
    labels[wordy & (labels < 0)] = np.bincount(found).argmax() if len(found) else 0
    return labels.tolist()


def rebuild(
    lines: Sequence[ThemeLine],
    *,
    previous: Sequence[BaseTheme] = (),
    next_number: int = 1,
    fitted_before: Fitted | None = None,
    decisions: Sequence[Decision] = (),
    leave_out: Sequence[str] = (),
    names: Sequence[str] = (),
    languages: Sequence[str] = ("en",),
    seed: int = 0,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Themes:
    """Group all lines, keeping the identity of `previous` themes and respecting the person's decisions.

    Goes on from the earlier themes while there are about as many lines as at the last fresh start, else starts afresh
    and matches. `decisions` are those still standing, in order. Raises Stopped when `stopped()` says so between two
    steps; nothing is changed then.
    """
    step = _steps(progress, stopped)
    step(0.0, "reading the lines")
    speech = Speech(tuple(languages), tuple(leave_out), tuple(names))
    words = [speech.words(line.text) for line in lines]
    number = _free_number(next_number, previous, decisions)
    if sum(map(bool, words)) < ENOUGH:
        return Themes(False, 0.0, (), tuple(line.id for line in lines), tuple(previous), number, None)
    step(0.15, "learning the words")
    learned = _learn([[word.stem for word in doc] for doc in words], speech, seed)
    step(0.55, "grouping")
    ids = [line.id for line in lines]
    labels, learned, fresh, begun = _grouped(ids, learned, previous, fitted_before, seed)
    step(0.85, "asking whether it could be chance")
    company = _company(learned, seed)
    labels = _guarded(learned, labels, company, begun, seed)
    step(0.9, "finding names")
    words = _with_whole_names(lines, words, speech)
    base, number = _identified(ids, words, labels, previous, number)
    fitted = _fitted(speech, learned, _home(base, ids), ids, fresh)
    return _shown(ids, words, learned.points, learned.smoothed, base, number, decisions, fitted, company.sure, step)


def redraw(
    fitted: Fitted,
    lines: Sequence[ThemeLine],
    *,
    base: Sequence[BaseTheme],
    next_number: int,
    decisions: Sequence[Decision] = (),
    loose: Set[str] = frozenset(),
    sure: float = 1.0,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Themes:
    """Apply decisions again without grouping anew; lines that `base` does not know find their theme.

    Those of `loose` stay without one but for the decisions; their words count for the names, as in a rebuild. `sure` is
    handed through. Undo a decision by calling it without that one. Raises Stopped like `rebuild`.
    """
    step = _steps(progress, stopped)
    step(0.0, "reading the lines")
    ids, words = [line.id for line in lines], [fitted.speech.words(line.text) for line in lines]
    step(0.4, "finding places")
    points, smoothed = fitted.locate([[word.stem for word in doc] for doc in words])
    known = loose | {line for theme in base for line in theme.members}
    placed = nearest(points, smoothed, fitted.base)
    joined: dict[int, list[str]] = {}
    for line, doc, place in zip(ids, words, placed, strict=True):
        if line not in known and place.theme is not None and doc:
            joined.setdefault(place.theme, []).append(line)
    base = tuple(BaseTheme(t.id, (*t.members, *joined.get(t.id, ())), t.terms) for t in base)
    number = _free_number(next_number, base, decisions)
    words = _with_whole_names(lines, words, fitted.speech)
    return _shown(ids, words, points, smoothed, base, number, decisions, fitted, sure, step)


def propose_split(
    fitted: Fitted, lines: Sequence[ThemeLine], members: Sequence[str], *, seed: int = 0
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part a theme's lines in two for `Split`: (stay, go), the larger part stays. Fewer than two lines: none go."""
    import numpy as np
    from sklearn.cluster import KMeans

    wanted = set(members)
    inside = [line for line in lines if line.id in wanted]
    _, smoothed = fitted.locate([[word.stem for word in fitted.speech.words(line.text)] for line in inside])
    if len(inside) < 2 or len(np.unique(smoothed, axis=0)) < 2:
        return tuple(line.id for line in inside), ()
    halves = KMeans(2, n_init=10, random_state=seed).fit(smoothed).labels_
    stays = int(halves.sum() * 2 > len(inside))
    parts = [tuple(line.id for line, half in zip(inside, halves, strict=True) if half == h) for h in (0, 1)]
    return parts[stays], parts[1 - stays]


def _steps(progress: Progress | None, stopped: Callable[[], bool] | None) -> Progress:
    def step(done: float, what: str) -> None:
        if stopped and stopped():
            raise Stopped
        if progress:
            progress(done, what)

    return step


def _free_number(next_number: int, before: Sequence[BaseTheme], decisions: Sequence[Decision]) -> int:
    made = [d.new if isinstance(d, Split) else d.theme for d in decisions if isinstance(d, Split | Start)]
    return max([next_number, *(theme.id + 1 for theme in before), *(theme + 1 for theme in made)])


def _learn(docs: Sequence[Sequence[str]], speech: Speech, seed: int, count: int | None = None) -> _Learned:
    import numpy as np

    table = speech.table()
    if speech.compounds:
        docs = theme_compounds.parted(docs, theme_compounds.seen_in(docs))
    space = theme_vectors.learn_space(docs, table, seed)
    counts = theme_words.count_matrix(docs, space.stems)
    far, _ = theme_background.far_rows(space.stems, table)
    points, shared = theme_vectors.line_points(space, counts, far)
    some = np.flatnonzero(np.linalg.norm(points, axis=1) > 0)
    if len(some) == len(points):
        smoothed = theme_smoothing.smooth(points, shared, themes=count, seed=seed)
    else:
        smoothed = np.zeros_like(points)
        smoothed[some] = theme_smoothing.smooth(points[some], shared[some], themes=count, seed=seed)
    return _Learned(space, counts, far, points, shared, smoothed, some)


def _with_whole_names(lines: Sequence[ThemeLine], words: list[list[Word]], speech: Speech) -> list[list[Word]]:
    """The words of the lines for the naming of themes: "Frau Petersen" is one, where lines always say it so.

    Grouping goes by single words, so that it does not hang on which names have come up often enough to be found. Of
    words written together the parts name a theme too: Pilzsuppe tells of Pilze.
    """
    found = standing_names([line.text for line in lines], languages=speech.languages)
    if found:
        whole = dataclasses.replace(speech, names=(*speech.names, *found))
        lasts = {name.split(" ")[1].casefold() for name in found}
        words = [
            whole.words(line.text) if lasts & {word.spelling.casefold() for word in doc} else doc
            for line, doc in zip(lines, words, strict=True)
        ]
    return theme_compounds.with_parts(words) if speech.compounds else words


def _company(learned: _Learned, seed: int) -> theme_guard.Company:
    return theme_guard.company(learned.counts, learned.far, seed)


def _honest(learned: _Learned, labels: np.ndarray, seed: int) -> np.ndarray:
    """Labels of the lines `some` with what fits nowhere made loose: far lines, and themes of fewer than three lines.

    A line is far when its own words bring it no nearer to the middle of its theme than the furthest quarter of lines
    with words dealt at random come to the middle nearest to them. The smoothed points would not tell: they have been
    drawn to where they are by other lines.
    """
    import numpy as np

    middles = theme_clusters.middles(learned.smoothed[learned.some], labels)
    if not len(middles):
        return labels
    near = (learned.points @ middles.T)[learned.some, np.maximum(labels, 0)]
    honest = np.where(near < _far(learned, middles, seed), -1, labels)
    sizes = np.bincount(honest[honest >= 0], minlength=len(middles))
    return np.where((honest >= 0) & (sizes[honest] >= LEAST_MEMBERS), honest, -1)


def _far(learned: _Learned, middles: np.ndarray, seed: int) -> float:
    """The closeness to its nearest middle that a quarter of lines with words dealt at random do not reach."""
    import numpy as np

    dealt = theme_guard.dealt_lines(learned.counts, seed)
    points, _ = theme_vectors.line_points(learned.space, dealt, learned.far)
    points = points[np.linalg.norm(points, axis=1) > 0]
    return float(np.quantile((points @ middles.T).max(axis=1), FAR_SHARE)) if len(points) else 0.0


def _grouped(
    ids: Sequence[str], learned: _Learned, previous: Sequence[BaseTheme], fitted: Fitted | None, seed: int
) -> tuple[np.ndarray, _Learned, int, bool]:
    """(n,) labels, -1 = loose; the lines as smoothed for them; their number at the last fresh start; is this one?"""
    import numpy as np

    some, labels = learned.some, np.full(len(ids), -1)
    before = _labels_before([ids[i] for i in some], previous)
    fresh = fitted.fresh if fitted else int((before >= 0).sum())
    if before.max(initial=-1) < 0 or not fresh / (1 + GROWN) <= len(some) <= fresh * (1 + GROWN):
        found, learned = _begun(learned, seed)
        labels[some] = _honest(learned, found, seed)
        return labels, learned, len(some), True
    if fitted is not None and fitted.fine:
        learned = learned.resmoothed(theme_grain.smoothed(learned.points[some], learned.shared[some], seed), True)
    loose = np.array([fitted is not None and ids[i] in fitted.loose for i in some])
    going_on = theme_clusters.continued(learned.smoothed[some], before)
    labels[some] = _honest_anew(going_on, _honest(learned, going_on, seed), before, loose)
    return labels, learned, fresh, False


def _begun(learned: _Learned, seed: int) -> tuple[np.ndarray, _Learned]:
    """Labels of the lines `some`, as fine as they are, and the lines as smoothed for that."""
    some = learned.some
    labels, rows, fine = theme_grain.grouped(
        learned.points[some], learned.smoothed[some], learned.shared[some], learned.counts[some], seed
    )
    return labels, learned.resmoothed(rows, fine) if fine else learned


def _labels_before(ids: Sequence[str], previous: Sequence[BaseTheme]) -> np.ndarray:
    import numpy as np

    theme_of = {line: i for i, theme in enumerate(previous) for line in theme.members}
    return np.unique([-1, *(theme_of.get(line, -1) for line in ids)], return_inverse=True)[1][1:] - 1


def _honest_anew(labels: np.ndarray, honest: np.ndarray, before: np.ndarray, loose: np.ndarray) -> np.ndarray:
    """Loose lines among the new ones; who was in a theme or loose stays so, until a fresh start looks again."""
    import numpy as np

    honest = np.where(loose & (before < 0), -1, honest)
    sizes = np.bincount(labels, minlength=labels.max() + 1)
    return np.where((before >= 0) & (sizes[labels] >= LEAST_MEMBERS), labels, honest)


def _guarded(
    learned: _Learned, labels: np.ndarray, company: theme_guard.Company, begun: bool, seed: int
) -> np.ndarray:
    """Labels without the themes that do not beat chance; none at all when the lines as a whole do not.

    Themes that go on from earlier ones have passed already; what is near the border must not flicker.
    """
    import numpy as np

    if not (company.beats_chance or (company.holds and not begun)) or labels.max(initial=-1) < 0:
        return np.full_like(labels, -1)
    if not begun:
        return labels
    above = _theme_company(learned, labels, seed)
    return np.where((labels >= 0) & (above[np.maximum(labels, 0)] >= THEME_SURE_FROM), labels, -1)


def _theme_company(learned: _Learned, labels: np.ndarray, seed: int) -> np.ndarray:
    usual = theme_guard.shuffled_nearness(learned.counts, learned.far, seed)
    return theme_guard.theme_company(learned.counts, learned.far, labels, usual)


def _identified(
    ids: Sequence[str], words: Sequence[Sequence[Word]], labels: np.ndarray, previous: Sequence[BaseTheme], number: int
) -> tuple[tuple[BaseTheme, ...], int]:
    import numpy as np

    inside = {label: np.flatnonzero(labels == label).tolist() for label in sorted(set(labels.tolist()) - {-1})}
    terms = theme_names.theme_terms(words, inside)
    groups = [({ids[i] for i in at}, {term.stem for term in terms[label]}) for label, at in inside.items()]
    theme_ids, number = theme_identity.matched(previous, groups, number)
    absent = _absent(previous, set(ids))
    base = [
        BaseTheme(theme, tuple(ids[i] for i in at) + absent.get(theme, ()), tuple(t.stem for t in terms[label]))
        for theme, (label, at) in zip(theme_ids, inside.items(), strict=True)
    ]
    return tuple(sorted(base, key=lambda theme: theme.id)), number


def _absent(previous: Sequence[BaseTheme], here: set[str]) -> dict[int, tuple[str, ...]]:
    """Members that are not there at present; if they come back, they come home."""
    return {theme.id: tuple(line for line in theme.members if line not in here) for theme in previous}


def _home(base: Sequence[BaseTheme], ids: Sequence[str]) -> dict[str, int]:
    here = set(ids)
    return {line: theme.id for theme in base for line in theme.members if line in here}


def _fitted(speech: Speech, learned: _Learned, home: Mapping[str, int], ids: Sequence[str], fresh: int) -> Fitted:
    import numpy as np

    kept = learned.some
    if len(kept) > KEPT_LINES:
        kept = np.sort(np.random.default_rng(0).choice(kept, KEPT_LINES, replace=False))
    middles = theme_shown.middles_of(learned.points, learned.smoothed, ids, home)
    loose = frozenset(ids) - home.keys()
    return Fitted(speech, learned.space, learned.points[kept], learned.smoothed[kept], middles, middles, fresh, loose, learned.fine)


def _shown(
    ids: Sequence[str],
    words: Sequence[Sequence[Word]],
    points: np.ndarray,
    smoothed: np.ndarray,
    base: Sequence[BaseTheme],
    number: int,
    decisions: Sequence[Decision],
    fitted: Fitted,
    sure: float,
    step: Progress,
) -> Themes:
    overlay = decided(ids, smoothed, _home(base, ids), decisions)
    middles = theme_shown.middles_of(points, smoothed, ids, overlay.home)
    themes = theme_shown.dressed(ids, words, points, smoothed, overlay, middles, sure)
    step(1.0, "done")
    loose = tuple(line for line in ids if line not in overlay.home)
    kept = dataclasses.replace(fitted, shown=middles)
    return Themes(True, sure, themes, loose, tuple(base), number, kept)

"""Rebuilding: all lines into themes that keep their identity, with the person's decisions laid over them.

The steps: words with weights and directions (counts, background, points, smoothing), groups and their number (clusters,
grain), a guard against chance (guard), all put together in learning; then lasting ids (identity), what is kept to place a
new line (fitted), decisions (decisions), and names (naming, shown). Deterministic for a seed.
"""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.errors import Stopped
from keeper.study.language.words import Word, standing_names
from keeper.study.one_core import on_one_core
from keeper.study.themes.compounds import with_parts
from keeper.study.themes.decisions import decided
from keeper.study.themes.fitted import ENGLISH, KEPT_LINES, Fitted, Speech, nearest
from keeper.study.themes.further.begun import begun_alone, heard_in
from keeper.study.themes.further.within import parts_within
from keeper.study.themes.guard import Company, company
from keeper.study.themes.identity import home, identified
from keeper.study.themes.learning import Grouped, Learned, grouped, guarded, learn
from keeper.study.themes.nouns import (
    ENOUGH,
    NONE_EARLIER,
    BaseTheme,
    Begin,
    Decision,
    Earlier,
    Progress,
    Split,
    Start,
    ThemeLine,
    Themes,
)
from keeper.study.themes.shown import Rows, dressed, middles_of
from keeper.study.themes.weighing.subjects import said_of

if TYPE_CHECKING:
    import numpy as np


@dataclass(frozen=True, eq=False)
class Threads:
    """What holds lines together, before it has a name: their groups, and how far all words keep company."""

    grouped: Grouped
    company: Company


def threads(
    ids: Sequence[str], docs: Sequence[Sequence[str]], speech: Speech, earlier: Earlier, seed: int, step: Progress
) -> Threads | None:
    """The groups of the lines `ids`, given as stems, not yet guarded; None where too few have any words to speak of."""
    if sum(map(bool, docs)) < ENOUGH:
        return None
    step(0.15, "learning the words")
    learned = learn(docs, speech, seed)
    step(0.55, "grouping")
    found = grouped(ids, learned, earlier, seed)
    step(0.85, "asking whether it could be chance")
    return Threads(found, company(learned.counts, learned.far, seed, learned.space.stems))


@on_one_core
def rebuild(
    lines: Sequence[ThemeLine],
    earlier: Earlier = NONE_EARLIER,
    *,
    speech: Speech = ENGLISH,
    decisions: Sequence[Decision] = (),
    seed: int = 0,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Themes:
    """Group all lines, keeping the identity of `earlier` themes and respecting the person's decisions.

    Goes on from the earlier themes while there are about as many lines as at the last fresh start, else starts afresh
    and matches. `decisions` are those still standing, in order. Raises Stopped when `stopped()` says so between two
    steps; nothing is changed then.
    """
    step = _steps(progress, stopped)
    step(0.0, "reading the lines")
    # In whichever order they are handed in, they were written in one.
    lines = sorted(lines, key=lambda line: (line.night, line.id))
    ids, words = [line.id for line in lines], speech.heard_lines(lines)
    number = _free_number(earlier, decisions)
    # Without what places a line nobody knows which were loose: what an earlier version found, or an archive brought, is
    # found afresh, and known again by its lines.
    found = threads(ids, speech.told(words), speech, earlier if earlier.fitted else NONE_EARLIER, seed, step)
    if found is None:
        begun = begun_alone(lines, words, speech, decisions)
        inside = {line for theme in begun for line, _ in theme.members}
        loose = tuple(line for line in ids if line not in inside)
        return Themes(tuple(earlier.base), number, enough=False, sure=0.0, themes=begun, loose=loose)
    groups = guarded(found.grouped, found.company, seed)
    step(0.9, "finding names")
    rows = Rows(ids, _with_whole_names(lines, words, speech), groups.learned.points, groups.learned.smoothed, *_told(lines, speech))
    base, number = identified(ids, rows.words, groups.labels, earlier.base, number)
    now = Earlier(base, number, _fitted(speech, groups, rows, base, earlier))
    return _shown(rows, now, decisions, found.company.sure, step)


def redraw(
    earlier: Earlier,
    lines: Sequence[ThemeLine],
    *,
    decisions: Sequence[Decision] = (),
    loose: Set[str] = frozenset(),
    sure: float = 1.0,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Themes:
    """Apply decisions again without grouping anew; lines that the earlier themes do not know find their theme.

    `earlier` has what places a line. Those of `loose` stay without a theme but for the decisions; their words count for
    the names, as in a rebuild. `sure` is handed through. Undo a decision by calling it without that one. Raises Stopped
    like `rebuild`.
    """
    step, fitted = _steps(progress, stopped), earlier.fitted
    step(0.0, "reading the lines")
    ids, words = [line.id for line in lines], fitted.speech.heard_lines(lines)
    step(0.4, "finding places")
    points, smoothed = fitted.locate([[word.stem for word in doc] for doc in words])
    base = _joined(earlier, Rows(ids, words, points, smoothed), loose)
    number = _free_number(Earlier(base, earlier.next_number), decisions)
    rows = Rows(ids, _with_whole_names(lines, words, fitted.speech), points, smoothed, *_told(lines, fitted.speech))
    return _shown(rows, Earlier(base, number, fitted), decisions, sure, step)


@on_one_core
def propose_split(
    fitted: Fitted, lines: Sequence[ThemeLine], members: Sequence[str], *, seed: int = 0
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part a theme's lines in two for `Split`: (stay, go), the larger part stays. Fewer than two lines: none go."""
    import numpy as np
    from sklearn.cluster import KMeans

    wanted = set(members)
    inside = [line for line in lines if line.id in wanted]
    _, smoothed = fitted.locate([[word.stem for word in doc] for doc in fitted.speech.heard_lines(inside)])
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


def _free_number(earlier: Earlier, decisions: Sequence[Decision]) -> int:
    made = [d.new if isinstance(d, Split) else d.theme for d in decisions if isinstance(d, Split | Start | Begin)]
    return max([earlier.next_number, *(theme.id + 1 for theme in earlier.base), *(theme + 1 for theme in made)])


def _with_whole_names(lines: Sequence[ThemeLine], words: list[list[Word]], speech: Speech) -> list[list[Word]]:
    """The words of the lines for the naming of themes: "Frau Petersen" is one, where lines always say it so.

    Grouping goes by single words, so that it does not hang on which names have come up often enough to be found. Of
    words written together the parts name a theme too: Pilzsuppe tells of Pilze.
    """
    found = standing_names([line.text for line in lines], languages=speech.languages)
    if found:
        whole = dataclasses.replace(speech, names=(*speech.names, *found))
        lasts = {name.split(" ")[1].casefold() for name in found}
        read = whole.heard_lines(lines) if len(speech.languages) > 1 else None
        words = [
            doc if lasts.isdisjoint([word.spelling.casefold() for word in doc]) else read[i] if read else whole.words(line.text)
            for i, (line, doc) in enumerate(zip(lines, words, strict=True))
        ]
    return with_parts(words) if speech.compounds else words


def _told(lines: Sequence[ThemeLine], speech: Speech) -> tuple[list[str], tuple[str, ...]]:
    return [line.text for line in lines], speech.languages


def _joined(earlier: Earlier, rows: Rows, loose: Set[str]) -> tuple[BaseTheme, ...]:
    """The engine's own themes, with the lines that are new to them."""
    known = loose | {line for theme in earlier.base for line in theme.members}
    docs = earlier.fitted.told([[word.stem for word in doc] for doc in rows.words])
    placed = nearest(rows.points, rows.smoothed, earlier.fitted.base, docs)
    joined: dict[int, list[str]] = {}
    for line, doc, place in zip(rows.ids, rows.words, placed, strict=True):
        if line not in known and place.theme is not None and doc:
            joined.setdefault(place.theme, []).append(line)
    return tuple(BaseTheme(t.id, (*t.members, *joined.get(t.id, ())), t.terms) for t in earlier.base)


def _fitted(speech: Speech, found: Grouped, rows: Rows, base: Sequence[BaseTheme], earlier: Earlier) -> Fitted:
    """What places a line from now on, by the engine's own themes."""
    learned, at_home = found.learned, home(base, rows.ids)
    kept = _kept_lines(learned)
    middles = middles_of(rows, at_home)
    if found.narrow:
        middles = dataclasses.replace(middles, said=_said(learned, rows.ids, at_home, middles.ids))
    loose = frozenset(rows.ids) - at_home.keys()
    mixed = frozenset() if found.begun or earlier.fitted is None else earlier.fitted.mixed
    if found.mixed:
        mixed = frozenset(at_home[line] for line, label in zip(rows.ids, found.labels, strict=True) if label in found.mixed)
    return Fitted(
        speech, learned.space, learned.points[kept], learned.smoothed[kept], middles, middles, found.fresh, loose,
        learned.fine, mixed, earlier.fitted.parted if earlier.fitted else frozenset(),
    )  # fmt: skip


def _said(learned: Learned, ids: Sequence[str], at_home: Mapping[str, int], themes: Sequence[int]) -> tuple[frozenset[str], ...]:
    """Of each of the themes the stems that say what it is about."""
    import numpy as np

    place = {theme: at for at, theme in enumerate(themes)}
    labels = np.array([place.get(at_home.get(line, -1), -1) for line in ids])
    return tuple(frozenset(learned.space.stems[word] for word in np.flatnonzero(its)) for its in said_of(learned, labels))


def _kept_lines(learned: Learned) -> np.ndarray:
    import numpy as np

    if len(learned.some) <= KEPT_LINES:
        return learned.some
    return np.sort(np.random.default_rng(0).choice(learned.some, KEPT_LINES, replace=False))


def _said_when_shown(earlier: Earlier, at_home: Mapping[str, int], themes: Sequence[int]) -> tuple[frozenset[str], ...]:
    """The stems that say what each theme is about with the person's decisions: also those of the themes that came into it.

    Of a theme that the person made nothing is asked for: it is they who say what it is about.
    """
    of_base = dict(zip(earlier.fitted.base.ids, earlier.fitted.base.said, strict=False))
    if not of_base:
        return ()
    said = {theme: set(of_base.get(theme, ())) for theme in themes}
    for base in earlier.base:
        now = Counter(at_home[line] for line in base.members if line in at_home)
        if now:
            theme, _ = max(now.items(), key=lambda one: (one[1], -one[0]))
            if theme in of_base:
                said[theme] |= of_base.get(base.id, frozenset())
    return tuple(frozenset(said[theme]) for theme in themes)


def _shown(rows: Rows, earlier: Earlier, decisions: Sequence[Decision], sure: float, step: Progress) -> Themes:
    heard = heard_in(decisions, rows, earlier.fitted)
    overlay = decided(rows.ids, rows.smoothed, home(earlier.base, rows.ids), decisions, rows.points, heard)
    middles = middles_of(rows, overlay.home)
    middles = dataclasses.replace(middles, said=_said_when_shown(earlier, overlay.home, middles.ids))
    themes, offered = dressed(rows, overlay, middles, sure, earlier.fitted.mixed)
    parts = parts_within(rows, overlay.home, earlier.fitted)
    step(1.0, "done")
    return Themes(
        earlier.base, earlier.next_number, dataclasses.replace(earlier.fitted, shown=middles, parted=frozenset(part.theme for part in parts)),
        enough=True, sure=sure, themes=themes, loose=tuple(line for line in rows.ids if line not in overlay.home),
        unsure=overlay.unsure,
        offered=offered,
        parts=parts,
    )  # fmt: skip

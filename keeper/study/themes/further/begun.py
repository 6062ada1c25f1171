"""Themes that the person begins: a few lines or words, and the answers when asked; the rest is looked for.

What was said is carried to the other lines as by a Gaussian process (Rasmussen & Williams 2006, chapter 2): every line
is thought to be outside until lines like it were said to be inside. How alike two lines are is told by their own points and
by their smoothed ones, which lines about the same draw together, so that the groups of all lines have their say too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.themes.further.words_said import having
from keeper.study.themes.nouns import Begin, Decision, FoundTheme, ThemeLine
from keeper.study.themes.shown import Rows

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.decisions import Overlay
    from keeper.study.themes.fitted import Fitted, Speech

ROUND = 10
"""Lines asked about in one go."""

ASKED = 3 * ROUND  # kept, so that more can be asked before the next look
OUTSIDE = -1.0  # what is thought of a line before anything was said
SMOOTHED, OWN = 0.6, 0.4  # what each way of being alike counts
NOISE_SAID, NOISE_HEARD = 0.3, 0.6  # a line said to belong, and one that only has a word
MOST_HEARD = 200  # more lines that have a word teach nothing new
OTHERS = 200  # so many lines of all are taken to be outside, each a little,
NOISE_OTHERS = 100.0  # over the number of those inside: or what all lines have in common would make them one theme
DOUBTFUL = (-0.8, 0.8)  # beyond, nobody need be asked
SAME = 0.9  # two lines so alike are not both asked about


@dataclass(frozen=True, eq=False)
class Heard:
    """What the words of a theme begun say: the lines that have one, and the words as a line of their own, (1, d) twice."""

    lines: tuple[str, ...]
    own: np.ndarray
    smoothed: np.ndarray


def heard_in(decisions: Sequence[Decision], rows: Rows, fitted: Fitted) -> dict[int, Heard]:
    """What the words of each theme begun say among these lines."""
    found = {}
    for begin in decisions:
        if isinstance(begin, Begin) and begin.words:
            has = having(begin.words, fitted.speech, rows.ids, rows.words, rows.texts)
            own, smoothed = fitted.locate([sorted(has.stems)])
            found[begin.theme] = Heard(has.lines, own, smoothed)
    return found


def gathered(begin: Begin, said: Sequence[str], overlay: Overlay) -> tuple[dict[str, float], tuple[str, ...]]:
    """The lines that join a theme begun, each with how surely, and those to ask about, least sure first."""
    import numpy as np

    told = _Told.of(begin, said, overlay)
    if overlay.near is None or not len(told.values):
        return {}, ()
    mean, spread = told.carried(overlay)
    joining = {}
    for at in np.flatnonzero(mean > 0):
        line, sure = overlay.ids[at], float(mean[at])
        if line not in overlay.held and line not in begin.no and sure > overlay.drawn.get(line, 0.0):
            joining[line] = sure
    known = {*said, *begin.no, *begin.skipped, *overlay.held}
    return joining, _to_ask(mean, spread, known, overlay)


def _to_ask(mean: np.ndarray, spread: np.ndarray, known: set[str], overlay: Overlay) -> tuple[str, ...]:
    import numpy as np

    chosen: list[int] = []
    low, high = DOUBTFUL
    for at in np.argsort(np.abs(mean) / spread, kind="stable").tolist():
        asked = low < mean[at] < high and overlay.ids[at] not in known
        if asked and (not chosen or float((overlay.near[chosen] @ overlay.near[at]).max()) < SAME):
            chosen.append(at)
        if len(chosen) == ASKED:
            break
    return tuple(overlay.ids[at] for at in chosen)


@dataclass(frozen=True, eq=False)
class _Told:
    """What was said: (m, d) own and smoothed rows, (m,) 1 inside or -1 outside, and (m,) how far each may be mistaken."""

    own: np.ndarray
    smoothed: np.ndarray
    values: np.ndarray
    noise: np.ndarray

    @staticmethod
    def of(begin: Begin, said: Sequence[str], overlay: Overlay) -> _Told:
        import numpy as np

        heard = overlay.heard.get(begin.theme)
        inside = [overlay.row[line] for line in said if line in overlay.row]
        outside = [overlay.row[line] for line in begin.no if line in overlay.row]
        known = {*said, *begin.no}
        words = [overlay.row[line] for line in (heard.lines if heard else ()) if line in overlay.row and line not in known]
        words = words[:: 1 + len(words) // MOST_HEARD]
        if overlay.near is None or not (inside or heard):
            return _Told(np.zeros((0, 1)), np.zeros((0, 1)), np.zeros(0), np.zeros(0))
        taken = {*inside, *outside, *words}
        dealt = np.random.default_rng(0).permutation(len(overlay.ids))[:OTHERS].tolist()
        others = [at for at in dealt if at not in taken]
        rows = inside + outside + words + others
        values = [1.0] * len(inside) + [-1.0] * len(outside) + [1.0] * len(words) + [-1.0] * len(others)
        noise = [NOISE_SAID] * (len(inside) + len(outside)) + [NOISE_HEARD] * len(words)
        noise += [NOISE_OTHERS / max(1, len(inside) + len(words))] * len(others)
        own, smoothed = overlay.near[rows], overlay.points[rows]
        if heard is not None and heard.own.any():
            own, smoothed = np.vstack([own, heard.own]), np.vstack([smoothed, heard.smoothed])
            values, noise = [*values, 1.0], [*noise, NOISE_HEARD]
        return _Told(own, smoothed, np.array(values), np.array(noise))

    def alike(self, own: np.ndarray, smoothed: np.ndarray) -> np.ndarray:
        """(n, m) how alike lines are to what was said, 0..1."""
        return SMOOTHED * (smoothed @ self.smoothed.T).clip(0) + OWN * (own @ self.own.T).clip(0)

    def carried(self, overlay: Overlay) -> tuple[np.ndarray, np.ndarray]:
        """(n,) how far inside every line is thought to be, and how sure that is."""
        import numpy as np

        among = self.alike(self.own, self.smoothed).astype(float)
        back = np.linalg.inv((among + among.T) / 2 + np.diag(self.noise))
        to = self.alike(overlay.near, overlay.points).astype(float)
        mean = OUTSIDE + to @ (back @ (self.values - OUTSIDE))
        spread = np.sqrt((1 - np.einsum("nm,nm->n", to @ back, to)).clip(0.01))
        return mean, spread


def begun_alone(
    lines: Sequence[ThemeLine], words: Sequence[Sequence], speech: Speech, decisions: Sequence[Decision]
) -> tuple[FoundTheme, ...]:
    """The themes begun where there are too few lines to look for any: what was said, and the lines that have the words."""
    import numpy as np

    from keeper.study.themes.decisions import decided
    from keeper.study.themes.naming import theme_terms

    ids = [line.id for line in lines]
    overlay = decided(ids, np.ones((len(ids), 1), np.float32), _by_words(lines, words, speech, decisions), decisions)
    inside: dict[int, list[int]] = {}
    for at, line in enumerate(ids):
        if overlay.home.get(line) in overlay.names:
            inside.setdefault(overlay.home[line], []).append(at)
    terms = theme_terms(words, inside)
    return tuple(
        FoundTheme(
            theme, overlay.names[theme], True, theme in overlay.pinned,
            tuple((term.spelling, round(term.weight, 4)) for term in terms[theme]),
            tuple((ids[i] , 1.0) for i in at), tuple(ids[i] for i in at[:3]), 1.0,
        )
        for theme, at in sorted(inside.items(), key=lambda item: (-len(item[1]), item[0]))
    )  # fmt: skip


def _by_words(
    lines: Sequence[ThemeLine], words: Sequence[Sequence], speech: Speech, decisions: Sequence[Decision]
) -> Mapping[str, int]:
    found: dict[str, int] = {}
    ids, texts = [line.id for line in lines], [line.text for line in lines]
    for begin in decisions:
        if isinstance(begin, Begin) and begin.words:
            has = having(begin.words, speech, ids, words, texts)
            found.update((line, begin.theme) for line in has.lines if line not in begin.no)
    return found

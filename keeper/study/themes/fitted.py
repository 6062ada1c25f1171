"""What is kept of a rebuild so that one new line finds its theme at once."""

from __future__ import annotations

import io
import json
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.study.language.words import Word, words
from keeper.study.themes import compounds
from keeper.study.themes.background import far_rows, topical_weight
from keeper.study.themes.counts import count_matrix, unit
from keeper.study.themes.points import Space, line_points
from keeper.study.themes.smoothing import neighbour_shares
from keeper.study.themes.weighing.seconds import closeness, offered, second_of
from keeper.study.tongues.heard import heard, understood
from keeper.study.tongues.keyed import bare
from keeper.study.tongues.table import Background, background

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.nouns import ThemeLine

FORM = 9
KEPT_LINES = 1500  # neighbours kept for smoothing a new line
ITSELF = 0.999  # so near is only the same line, or one of the same words


@dataclass(frozen=True)
class Placement:
    """Where a line belongs: a theme's id, or None when it fits nowhere, and its closeness (cosine, 0..1).

    `second`: the theme it stands in besides, with `second_closeness`; `offered`: for one that fits nowhere, the nearest.
    """

    theme: int | None
    closeness: float
    second: int | None = None
    second_closeness: float = 0.0
    offered: int | None = None


@dataclass(frozen=True)
class Speech:
    """How lines become words: languages, the person's words to leave out, names of people."""

    languages: tuple[str, ...] = ("en",)
    leave_out: tuple[str, ...] = ()
    names: tuple[str, ...] = ()

    def words(self, text: str) -> list[Word]:
        """The content words of a text by itself."""
        return self.heard([text])[0]

    def heard(self, texts: Sequence[str]) -> list[list[Word]]:
        """The content words of texts in the order in which they were written; see ``tongues.heard``."""
        return heard(texts, self.languages, self.leave_out, self.names)

    def heard_lines(self, lines: Sequence[ThemeLine]) -> list[list[Word]]:
        """The same for lines in any order: they were written night after night."""
        order = sorted(range(len(lines)), key=lambda i: (lines[i].night, lines[i].id))
        docs = self.heard([lines[i].text for i in order])
        return [doc for _, doc in sorted(zip(order, docs, strict=True), key=lambda pair: pair[0])]

    def told(self, docs: Sequence[Sequence[Word]]) -> list[Sequence[str]]:
        """The stems of words, without the people marked: they are threads of their own, and what is told of them tells the theme."""
        return self.without_names([[word.stem for word in doc] for doc in docs])

    def without_names(self, docs: Sequence[Sequence[str]]) -> list[Sequence[str]]:
        """Stems but for the names of people."""
        names = {" ".join(words(name)).casefold() for name in self.names} | {name.casefold() for name in self.names}
        left = {stem for stem in set().union(*docs) if bare(stem)[0] in names} if names else frozenset()
        return [[stem for stem in doc if stem not in left] for doc in docs] if left else list(docs)

    @property
    def compounds(self) -> bool:
        """Whether words may be written together."""
        return not compounds.LANGUAGES.isdisjoint(self.languages)

    def tables(self) -> dict[str, Background]:
        """The background tables of those of the languages that have one."""
        found = {language: background(language) for language in sorted(set(self.languages))}
        return {language: table for language, table in found.items() if table}


ENGLISH = Speech()


@dataclass(frozen=True, eq=False)
class Middles:
    """Theme ids, (k, d) unit rows of their middles, (k,) the least closeness of a line that belongs, and of one that does second.

    `said`: of each theme the stems of which a line has to have one, none where it may say anything; () where all may.
    """

    ids: tuple[int, ...]
    rows: np.ndarray
    floors: np.ndarray
    inner: np.ndarray
    said: tuple[frozenset[str], ...] = ()

    def silent(self, doc: Collection[str]) -> frozenset[int]:
        """The places of the themes that a line of these stems does not say anything of."""
        return frozenset(at for at, its in enumerate(self.said) if its and its.isdisjoint(doc))


@dataclass(frozen=True, eq=False)
class Fitted:
    """All that placing a line needs. `points`, `smoothed`: (m, d) some of the lines, before and after smoothing.

    `base`: middles of the engine's own themes; `shown`: those with the person's decisions. `fresh`: how many lines
    there were at the last fresh start; `loose`: ids of the lines that were loose at the last rebuild; `fine`:
    whether there are many small themes; `mixed`: ids of those whose lines have little in common; `parted`: of those that have parts.
    """

    speech: Speech
    space: Space
    points: np.ndarray
    smoothed: np.ndarray
    base: Middles
    shown: Middles
    fresh: int
    loose: frozenset[str] = frozenset()
    fine: bool = False
    mixed: frozenset[int] = frozenset()
    parted: frozenset[int] = frozenset()

    def place(self, text: str) -> Placement:
        """Find the theme of one new line, without a rebuild; some milliseconds."""
        docs = [[word.stem for word in understood(self.speech.words(text), self.space.stems)]]
        points, smoothed = self.locate(docs)
        return nearest(points, smoothed, self.shown, self.told(docs), self.mixed)[0]

    def locate(self, docs: Sequence[Sequence[str]]) -> tuple[np.ndarray, np.ndarray]:
        """(n, d) points and smoothed points of lines given as stems; rows of zeros for lines without known words."""
        import numpy as np

        points = self.points_of(docs)
        if len(self.points) < 3:
            return points, points
        alike = points @ self.points.T
        size = min(len(self.points), 15)
        index = np.argpartition(-alike, size - 1, axis=1)[:, :size]
        share = neighbour_shares(np.take_along_axis(alike, index, axis=1))
        drawn = unit(np.einsum("nm,nmd->nd", share, self.smoothed[index]))
        some = np.linalg.norm(points, axis=1, keepdims=True) > 0
        # A line that is among those kept lies where it lay: laying decisions over the themes moves no other line.
        itself = alike.argmax(axis=1)
        known = np.take_along_axis(alike, itself[:, None], axis=1) > ITSELF
        drawn = np.where(known, self.smoothed[itself], unit(0.2 * points + 0.8 * drawn))
        return points, np.where(some, drawn, 0).astype(np.float32)

    def points_of(self, docs: Sequence[Sequence[str]]) -> np.ndarray:
        """(n, d) the points of `locate` alone."""
        docs = self.told(docs)
        space, far = self._with_unknown(docs)
        return line_points(space, count_matrix(docs, space.stems), far)[0]

    def told(self, docs: Sequence[Sequence[str]]) -> list[list[str]]:
        """Lines given as stems, as they are grouped by: without names of people, and words written together by their parts."""
        docs = self.speech.without_names(docs)
        return compounds.parted(docs, self.space.seen()) if self.speech.compounds else docs

    def _with_unknown(self, docs: Sequence[Sequence[str]]) -> tuple[Space, np.ndarray]:
        """The space of just these lines' words, those met for the first time included."""
        import numpy as np

        known = {stem: i for i, stem in enumerate(self.space.stems)}
        stems = tuple(sorted({stem for doc in docs for stem in doc}))
        far, topicality = far_rows(stems, self.speech.tables())
        rows = np.array([known.get(stem, -1) for stem in stems], dtype=int)
        new = rows < 0
        idf = np.where(new, np.log(1 + self.space.count) + 1, self.space.idf[rows]) if stems else np.zeros(0)
        weight = np.where(new, topical_weight(topicality), self.space.weight[rows]) if stems else idf
        own = np.where(new[:, None], 0, self.space.own[rows]) if stems else np.zeros((0, self.space.own.shape[1]))
        part = Space(
            stems, idf.astype(np.float32), weight.astype(np.float32), own.astype(np.float32),
            self.space.own_common, self.space.far_common, self.space.turn, self.space.far_weight, self.space.count,
            self.space.tongues, self.space.near_means, self.space.far_means,
        )  # fmt: skip
        return part, far

    def to_bytes(self) -> bytes:
        """The whole as npz bytes, without pickle; about 1 MB for 1,500 lines or more."""
        import numpy as np

        space, half = self.space, np.float16
        told = {
            "form": FORM, "languages": self.speech.languages, "leave_out": self.speech.leave_out,
            "names": self.speech.names, "stems": space.stems, "far_weight": space.far_weight, "count": space.count,
            "fresh": self.fresh, "loose": sorted(self.loose), "base": self.base.ids, "shown": self.shown.ids,
            "fine": self.fine, "mixed": sorted(self.mixed), "tongues": space.tongues,
            "parted": sorted(self.parted), "base_said": _listed(self.base.said), "shown_said": _listed(self.shown.said),
        }  # fmt: skip
        out = io.BytesIO()
        np.savez_compressed(
            out, told=np.frombuffer(json.dumps(told).encode("utf-8"), np.uint8), idf=space.idf, weight=space.weight,
            own=space.own.astype(half), own_common=space.own_common, far_common=space.far_common, turn=space.turn,
            points=self.points.astype(half), smoothed=self.smoothed.astype(half), base_rows=self.base.rows,
            base_floors=self.base.floors, base_inner=self.base.inner, shown_rows=self.shown.rows,
            shown_floors=self.shown.floors, shown_inner=self.shown.inner,
            **({} if space.near_means is None else {"near_means": space.near_means, "far_means": space.far_means}),
        )  # fmt: skip
        return out.getvalue()

    @staticmethod
    def from_bytes(data: bytes) -> Fitted:
        """Read `to_bytes` again. ValueError when the bytes are damaged or of another form: then rebuild."""
        import zipfile

        import numpy as np

        try:
            with np.load(io.BytesIO(data), allow_pickle=False) as file:
                arrays = dict(file.items())
            told = json.loads(arrays["told"].tobytes())
            if told["form"] != FORM:
                raise ValueError(f"form {told['form']}, expected {FORM}")
            return _assembled(told, arrays)
        except (OSError, EOFError, KeyError, TypeError, zipfile.BadZipFile) as error:
            raise ValueError("not the kept result of a rebuild of themes") from error


def _assembled(told: dict, arrays: dict[str, np.ndarray]) -> Fitted:
    import numpy as np

    full = {name: value.astype(np.float32) for name, value in arrays.items() if name != "told"}
    space = Space(
        tuple(told["stems"]), full["idf"], full["weight"], full["own"], full["own_common"], full["far_common"],
        full["turn"], told["far_weight"], told["count"], tuple(told["tongues"]), full.get("near_means"), full.get("far_means"),
    )  # fmt: skip
    speech = Speech(tuple(told["languages"]), tuple(told["leave_out"]), tuple(told["names"]))
    base, shown = (
        Middles(
            tuple(told[of]), full[f"{of}_rows"], full[f"{of}_floors"], full[f"{of}_inner"], tuple(map(frozenset, told[f"{of}_said"]))
        )
        for of in ("base", "shown")
    )
    return Fitted(
        speech, space, full["points"], full["smoothed"], base, shown, told["fresh"],
        frozenset(told["loose"]), told["fine"], frozenset(told["mixed"]), frozenset(told["parted"]),
    )  # fmt: skip


def _listed(said: Sequence[Collection[str]]) -> list[list[str]]:
    return [sorted(its) for its in said]


def nearest(
    points: np.ndarray, smoothed: np.ndarray, middles: Middles, docs: Sequence[Collection[str]], mixed: Collection[int] = ()
) -> list[Placement]:
    """The theme of each line, nearest once smoothed; loose when its own words put it further off than nearly all there, or do
    not say what the theme asks for. docs: the stems of each line.
    """
    if not middles.ids:
        return [Placement(None, 0.0) for _ in points]
    near, own = closeness(points, smoothed, middles)
    found = []
    for i, at in enumerate((smoothed @ middles.rows.T).argmax(axis=1)):
        cosine, silent = min(1.0, max(0.0, float(near[i, at]))), middles.silent(docs[i])
        if own[i, at] < middles.floors[at] or near[i, at] <= 0 or int(at) in silent:
            found.append(Placement(None, cosine, offered=offered(near[i], middles, mixed)))
            continue
        second = second_of(near[i], own[i], int(at), middles, {*mixed, *(middles.ids[j] for j in silent)})
        beside = (middles.ids[second], min(1.0, float(near[i, second]))) if second >= 0 else (None, 0.0)
        found.append(Placement(middles.ids[at], cosine, *beside))
    return found

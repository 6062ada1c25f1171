"""Themes against published values and a labelled public set."""

from pathlib import Path

import numpy as np
import pytest
from waiting.when_used import WhenUsed

from keeper.study.language.words import stem
from keeper.study.themes import group_lines
from keeper.study.themes.counts import count_matrix, unit, weigh
from keeper.study.themes.grain import log_evidence
from keeper.study.themes.guard import recurring_pairs
from keeper.study.trend import wilson

metrics = WhenUsed("sklearn.metrics")

DATA = Path(__file__).parent.parent / "data" / "wordnet_glosses.tsv"


def test_likeness_of_three_novels():
    # Manning, Raghavan & Schuetze, Introduction to Information Retrieval (2008), section 6.3.3: log term frequency, cosine.
    counts = {"affection": (115, 58, 20), "jealous": (10, 7, 11), "gossip": (2, 0, 6), "wuthering": (0, 0, 38)}
    docs = [[word for word, times in counts.items() for _ in range(times[i])] for i in range(3)]
    matrix = count_matrix(docs, tuple(counts))
    # The book takes logarithms to base ten.
    matrix.data = np.exp(np.log10(matrix.data))
    rows = weigh(matrix, np.ones(4, np.float32), np.ones(4, np.float32)).toarray()
    cosines = rows @ rows.T
    assert cosines[0, 1] == pytest.approx(0.94, abs=0.005)
    assert cosines[0, 2] == pytest.approx(0.79, abs=0.005)
    assert cosines[1, 2] == pytest.approx(0.69, abs=0.005)
    assert np.linalg.norm(unit(rows), axis=1) == pytest.approx(1)


# The sample vocabulary published with the Porter2 (Snowball English) algorithm.
@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("consign", "consign"), ("consigned", "consign"), ("consigning", "consign"), ("consignment", "consign"),
        ("consist", "consist"), ("consistency", "consist"), ("consistently", "consist"), ("consolation", "consol"),
        ("consolingly", "consol"), ("conspicuous", "conspicu"), ("conspirators", "conspir"), ("knackeries", "knackeri"),
        ("knavish", "knavish"), ("kneaded", "knead"), ("kneeling", "kneel"), ("knick", "knick"), ("knightly", "knight"),
        ("knitted", "knit"), ("knitting", "knit"), ("knots", "knot"),
    ],
)  # fmt: skip
def test_porter2_sample(word, expected):
    assert stem(word, "en") == expected


def test_interval_for_k_of_n_nights():
    # Newcombe, Statistics in Medicine 17 (1998): 81 of 263, Wilson score.
    assert wilson(81, 263) == pytest.approx((0.2553, 0.3662), abs=5e-5)


def test_recurrence_is_dunnings_log_likelihood_ratio_of_the_pair():
    # Dunning, Computational Linguistics 19 (1993): the joint cell of G2 / 2, observed times log(observed / expected).
    docs = [["rye", "bread"]] * 3 + [["bread", "soup"], ["sea"], ["sea"]]
    there = count_matrix(docs, ("rye", "bread", "soup", "sea"))
    assert recurring_pairs(there) == pytest.approx(3 * np.log(3 * 6 / (3 * 4)), rel=1e-5)


def test_evidence_is_the_product_of_the_chances_of_line_after_line():
    # Yin & Wang, KDD 2014, equation 3 with alpha 1 and beta 0.1: the chance of a theme for the next line, and of each of
    # its words in turn, given the lines before.
    docs = [["rye", "bread"], ["sea", "swim", "sea"], ["bread", "soup", "rye"], ["swim"], ["soup", "sea"]]
    labels = np.array([0, 1, 0, 1, 2])
    counts = count_matrix(docs, ("rye", "bread", "soup", "sea", "swim"))
    chance, seen, lines = 0.0, np.zeros((3, 5)), np.zeros(3)
    for at, (doc, theme) in enumerate(zip(docs, labels, strict=True)):
        chance += np.log((lines[theme] + 1) / (at + 3))
        for word in (("rye", "bread", "soup", "sea", "swim").index(word) for word in doc):
            chance += np.log((seen[theme, word] + 0.1) / (seen[theme].sum() + 5 * 0.1))
            seen[theme, word] += 1
        lines[theme] += 1
    assert log_evidence(counts, labels) == pytest.approx(chance, rel=1e-6)


@pytest.fixture(scope="module")
def glosses():
    """Labels and glosses of 2,000 WordNet 3.1 entries (Fellbaum 1998; licence beside the file).

    They are labelled by lexicographer file. The background table was built without these entries
    (resources/words/build_background.py), so that it does not flatter itself.
    """
    rows = [row.split("\t") for row in DATA.read_text("utf-8").splitlines()[1:]]
    return [row[0] for row in rows], [row[2] for row in rows]


def test_glosses_fall_apart_by_subject(glosses):
    # On the same 2,000: TF-IDF with k-means 0.15, GSDMM (Yin & Wang 2014) 0.27.
    labels, texts = glosses
    assert metrics.adjusted_mutual_info_score(labels, group_lines(texts, count=len(set(labels)))) > 0.42


def test_glosses_fall_apart_with_a_number_of_our_own(glosses):
    labels, texts = glosses
    found = group_lines(texts)
    assert metrics.adjusted_mutual_info_score(labels, found) > 0.40
    assert abs(len(set(found) - {-1}) - len(set(labels))) <= 4


def test_glosses_fall_apart_without_a_table(glosses):
    labels, texts = glosses
    found = group_lines(texts, count=len(set(labels)), language="is")
    assert metrics.adjusted_mutual_info_score(labels, found) > 0.35

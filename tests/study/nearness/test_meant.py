"""What a typed word may have meant."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.nearness.meant import meant, meant_unspaced, spelt_alike
from keeper.study.nearness.vocabulary import Vocabulary

WORDS = Vocabulary(
    ["ferry", "ferries", "berry", "harbour", "harbours", "lighthouse", "boat", "the", "tuned", "tuning", "\u03b8\u03ac\u03bb\u03b1\u03c3\u03c3\u03b1",
     "hafenmeister", "\u05d4\u05d9\u05dd", "\ubc14\ub2e4\ub294", "\u6cf3", "\u043c\u043e\u0440\u044f"]
)  # fmt: skip


def told(word: str, languages=("en",)) -> dict[str, float]:
    """The words meant, and what each counts."""
    return {one: meaning.weight for meaning in meant(word, WORDS, languages) for one in meaning.words}


@pytest.mark.parametrize(
    ("word", "means"),
    [
        ("ferry", {"ferry": 1, "ferries": 1, "berry": 0.3}),
        ("tunes", {"tuned": 1, "tuning": 1}),
        ("habour", {"harbour": 0.8, "harbours": 0.8}),
        ("harobuur", {"harbour": 0.4, "harbours": 0.4}),
        ("light", {"lighthouse": 0.5}),
        ("house", {"lighthouse": 0.4}),
        ("\u03b8\u03b1\u03bb\u03b1\u03c3\u03c3\u03b1\u03c2", {"\u03b8\u03ac\u03bb\u03b1\u03c3\u03c3\u03b1": 1}),
        ("\u043c\u043e\u0440\u0435", {"\u043c\u043e\u0440\u044f": 1}),
        ("\u05d9\u05dd", {"\u05d4\u05d9\u05dd": 0.8}),
        ("\ubc14\ub2e4\uc5d0\uc11c", {"\ubc14\ub2e4\ub294": 0.4}),
        ("the", {"the": 1}),
    ],
)
def test_words_of_its_stem_misspelt_begun_and_put_together(word, means):
    got = told(word)
    assert {one: got.get(one) for one in means} == means


def test_german_is_stemmed_where_lines_are_german():
    assert told("hafenmeistern", ("en", "de"))["hafenmeister"] == 1


def test_a_dictionary_puts_a_ship_near_a_ferry():
    assert 0 < told("yacht")["boat"] < 0.5
    assert "boat" not in told("yacht", ("de",))


def test_a_character_beside_another_counts_a_little():
    assert [(one.words, one.weight) for one in meant_unspaced("\u6cf3\u3044", WORDS)] == [(("\u6cf3\u3044",), 1.0), (("\u6cf3",), 0.4)]


@given(st.text("abcdefghijklmnopqrstuvwxyz\u03b1\u05d0\u00f8\u0438", min_size=1, max_size=12))
def test_the_likeliest_comes_first_and_no_word_twice(word):
    meanings = meant(word, WORDS, ("en", "de"))
    weights = [one.weight for one in meanings]
    assert weights == sorted(weights, reverse=True)
    words = [one for meaning in meanings for one in meaning.words]
    assert len(words) == len(set(words))


def test_whatever_is_typed_something_is_spelt_most_like_it():
    assert spelt_alike("haarboorr", WORDS)[0].words[0].startswith("harbour")
    assert spelt_alike("\u4e00", Vocabulary(["ferry"])) == ()

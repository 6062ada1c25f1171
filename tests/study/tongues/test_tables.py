"""The shipped tables of word directions, and what they make of words and lines in many languages."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.shipped import resource
from keeper.study.language.words import LANGUAGES, stem
from keeper.study.themes.background import far_rows
from keeper.study.tongues.keyed import bare, keyed
from keeper.study.tongues.table import background, dictionary
from keeper.study.tongues.unknown import guessed, letter_table

SHIPPED = sorted(path.stem.split("-")[1] for path in resource("words").glob("directions-*.npz"))

SAME = {
    "da": ("brød", "læge", "fisk"), "de": ("Brot", "Arzt", "Fisch"), "en": ("bread", "doctor", "fish"),
    "es": ("pan", "médico", "pescado"), "fi": ("leipä", "lääkäri", "kala"), "fr": ("pain", "médecin", "poisson"),
    "it": ("pane", "medico", "pesce"), "ja": ("パン", "医者", "魚"), "nl": ("brood", "dokter", "vis"),
    "no": ("brød", "lege", "fisk"), "pl": ("chleb", "lekarz", "ryba"), "pt": ("pão", "médico", "peixe"),
    "ru": ("хлеб", "врач", "рыба"), "sv": ("bröd", "läkare", "fisk"), "cs": ("chléb", "lékař", "ryba"),
    "uk": ("хліб", "лікар", "риба"), "tr": ("ekmek", "doktor", "balık"), "el": ("ψωμί", "γιατρός", "ψάρι"),
    "he": ("לחם", "רופא", "דג"), "ar": ("خبز", "طبيب", "سمك"), "hi": ("रोटी", "डॉक्टर", "मछली"),
    "zh": ("面包", "医生", "鱼"), "ko": ("빵", "의사", "생선"),
}  # fmt: skip
"""Bread, a doctor and fish."""


def direction(word, language):
    rows, _ = far_rows([keyed(stem(word, language), language)], {language: background(language)})
    return rows[0]


def test_many_languages_are_shipped():
    assert {"de", "en", "es", "fi", "fr", "ja", "ru"} <= set(SHIPPED) <= set(LANGUAGES) & set(SAME)


def test_english_words_tell_as_much_as_the_dictionary_says():
    """WordNet (Fellbaum 1998) groups its words by subject: half of what the table says is its word, half the model's."""
    table, said = background("en"), dictionary()
    both = [stem for stem in table.rows if stem in said.rows]
    told = [of.topicality[[of.rows[stem] for stem in both]] for of in (table, said)]
    assert len(both) > 10_000
    assert np.corrcoef(*told)[0, 1] > 0.8


def test_all_tables_together_are_small():
    sizes = [path.stat().st_size for path in resource("words").glob("*.npz")]
    assert sum(sizes) <= 40e6
    assert max(path.stat().st_size for path in resource("words").glob("directions-*.npz")) <= 2e6


@pytest.mark.parametrize("language", SHIPPED)
def test_words_lie_near_to_what_they_are_in_english(language):
    own = np.stack([direction(word, language) for word in SAME[language]])
    alike = own @ np.stack([direction(word, "en") for word in SAME["en"]]).T
    others = alike[~np.eye(3, dtype=bool)]
    assert alike.diagonal().mean() > others.mean() + 0.2


@pytest.mark.parametrize(("word", "english"), [("sota", "war"), ("saari", "island")])
def test_a_word_whose_letters_tell_nothing_is_known_by_its_translations(word, english):
    """Entries 00973077-n and 09316454-n of WordNet 3.0 have these Finnish words in Wiktionary."""
    assert direction(word, "fi") @ direction(english, "en") > 0.6


@pytest.mark.parametrize("language", SHIPPED)
def test_what_all_words_share_is_taken_out(language):
    assert np.linalg.norm(background(language).vectors.mean(axis=0)) < 0.25


def test_a_word_made_of_two_is_near_to_both():
    table = background("de")
    made = guessed([stem("Pilzsuppentopf", "de"), stem("Klavierkoffer", "de")], table)
    assert stem("Klavierkoffer", "de") not in table.rows
    assert made[1] @ direction("Klavier", "de") > 0.5
    assert made[1] @ direction("Koffer", "de") > 0.5


def test_a_word_bent_as_no_list_has_it_is_near_to_its_own():
    table = background("pl")
    assert "chlebuszkowi" not in table.rows
    assert guessed(["chlebuszkowi"], table)[0] @ direction("chleb", "pl") > 0.4


def test_strange_letters_tell_nothing():
    assert not guessed(["\u16a0\u16a2\u16a6"], background("fr")).any()


def test_words_of_a_tongue_that_no_table_has_are_not_guessed_at():
    rows, _ = far_rows([f"w{i}x{i * 7}" for i in range(200)], {"en": background("en")})
    assert not rows.any()


@given(st.text(st.characters(exclude_characters="\x1f"), min_size=1), st.sampled_from(LANGUAGES))
def test_a_stem_and_its_language_come_apart_again(word, language):
    assert bare(keyed(word, language)) == (word, language)
    assert bare(word) == (word, "")


@given(st.lists(st.text("abcdefgh", min_size=3, max_size=9), min_size=1, max_size=20, unique=True))
def test_a_word_shares_all_letters_only_with_itself(stems):
    table = letter_table(stems)
    assert np.allclose((table @ table.T).diagonal(), 1, atol=1e-5)
